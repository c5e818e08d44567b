package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import loomcase.demo.Harness;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

/** Faults laid over each other against the edited network factorised from nothing. */
class OverlayTest {
    private static final Harness H = Harness.TEACHING;

    @Test
    void whatIsLaidGivesTheJointSolution() {
        NetworkSolver.Instant instant = new NetworkSolver(H.circuit(), H.layout()).at("key-on", "rest");
        Random random = new Random(5);
        List<List<Edit>> faults = H.hypotheses().stream()
                .filter(h ->
                        h.cause() instanceof Hypothesis.Fixed f && !f.edits().isEmpty() && random.nextInt(5) == 0)
                .map(h -> ((Hypothesis.Fixed) h.cause()).edits())
                .toList();
        List<String> pins = H.circuit().controlUnit().pins().keySet().stream()
                .filter(pin -> instant.node(Names.mating(pin)).isPresent())
                .toList();
        int[] nodes = pins.stream()
                .mapToInt(pin -> instant.node(Names.mating(pin)).orElseThrow())
                .toArray();
        Overlay overlay = instant.overlay(nodes, new int[nodes.length]);
        List<Solution> alone = faults.stream().map(overlay::add).toList();
        Solution healthy = instant.solve(List.of());
        Overlay.Pair pair = overlay.pair();
        int laid = 0;
        int felt = 0;
        for (int a = 0; a < faults.size(); a++)
            for (int b = a + 1; b < faults.size(); b++) {
                if (!pair.lay(a, b)) continue;
                laid++;
                boolean isFelt = false;
                List<Edit> both = new ArrayList<>(faults.get(a));
                both.addAll(faults.get(b));
                Solution joint = instant.solveAfresh(both);
                for (int k = 0; k < nodes.length; k++) {
                    double wanted = joint.at(nodes[k]);
                    assertEquals(wanted, pair.read(k), 1e-5, pins.get(k) + " under " + both);
                    assertEquals(pair.read(k), pair.at(nodes[k]), 1e-9, pins.get(k) + " looked at");
                    double sum = alone.get(a).at(nodes[k]) + alone.get(b).at(nodes[k]) - healthy.at(nodes[k]);
                    isFelt |= Math.abs(wanted - sum) > 1e-4;
                }
                if (isFelt) felt++;
            }
        assertTrue(laid > 1000 && felt > 100, laid + " pairs laid, " + felt + " of them felt");
    }

    @Test
    void faultsOfOneWireAreNotLaid() {
        Overlay overlay =
                new NetworkSolver(H.circuit(), H.layout()).at("key-on", "rest").overlay(new int[0], new int[0]);
        String wire = "wire:" + H.circuit().wires().keySet().iterator().next();
        overlay.add(List.of(new Edit.Series(wire, Edit.OPEN_OHMS)));
        overlay.add(List.of(new Edit.Series(wire, 30)));
        assertFalse(overlay.pair().lay(0, 1));
    }
}
