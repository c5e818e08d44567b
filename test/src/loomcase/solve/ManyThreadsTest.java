package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import java.util.List;
import java.util.stream.IntStream;
import loomcase.demo.Harness;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import org.junit.jupiter.api.Test;

/** Many threads that solve with one factorisation against one thread with another. */
class ManyThreadsTest {
    private static final Harness H = Harness.LARCH;

    @Test
    void threadsThatShareAFactorisationFindWhatOneFindsAlone() {
        List<List<Edit>> faults = H.hypotheses().stream()
                .filter(h ->
                        h.cause() instanceof Hypothesis.Fixed f && !f.edits().isEmpty())
                .map(h -> ((Hypothesis.Fixed) h.cause()).edits())
                .toList();
        List<List<Edit>> some = IntStream.range(0, 800)
                .mapToObj(i -> faults.get(i * faults.size() / 800))
                .toList();
        NetworkSolver.Instant alone = new NetworkSolver(H.circuit(), H.layout()).at("key-on", "drive");
        NetworkSolver.Instant shared = new NetworkSolver(H.circuit(), H.layout()).at("key-on", "drive");
        List<double[]> wanted =
                some.stream().map(edits -> alone.solve(edits).nodeVolts()).toList();
        List<double[]> found = IntStream.range(0, some.size())
                .parallel()
                .mapToObj(i -> shared.solve(some.get(i)).nodeVolts())
                .toList();
        for (int i = 0; i < some.size(); i++) assertArrayEquals(wanted.get(i), found.get(i), some.get(i) + "");
    }
}
