package loomcase.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import loomcase.demo.Harness;
import loomcase.j1939.CodeList;
import loomcase.model.Names;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;

/** The reading that separates what is left. */
class NextTestTest {
    private static final Harness H = Harness.TEACHING;

    private static Ranking rank(String codes) {
        List<Evidence.Seen> seen = CodeList.parse(codes).entries().stream()
                .map(e -> new Evidence.Seen(e.code(), Evidence.State.ACTIVE, OptionalInt.empty()))
                .toList();
        return H.ranker().rank(new Evidence(seen, List.of("key-on", "idle-warm")), share -> {});
    }

    private static Optional<NextTest> next(String codes) {
        return NextTest.choose(H.circuit(), H.ranker().solver(), rank(codes));
    }

    @Test
    void anOpenCoolantCircuitIsParted() {
        NextTest t = next("110/3").orElseThrow();
        assertEquals("volts " + t.points().get(0), t.test());
        assertEquals(Names.CHASSIS, t.points().get(1));
        assertTrue(t.bits() > 0.02 && t.minutes() >= 5, t.toString());
        assertTrue(t.outcomes().size() >= 2);
    }

    @Test
    void bitsAreTheEntropyOfTheOutcomes() {
        NextTest t = next("100/4,102/4").orElseThrow();
        double sum = 0;
        double bits = 0;
        for (NextTest.Outcome o : t.outcomes()) {
            sum += o.probability();
            bits -= o.probability() * Math.log(o.probability()) / Math.log(2);
        }
        assertEquals(1, sum, 1e-9);
        assertEquals(bits, t.bits(), 1e-9);
    }

    @Test
    void minutesAreTheReadingAndEachAccessStepOnce() {
        for (String codes : List.of("110/3", "100/4,102/4", "647/5")) {
            NextTest t = next(codes).orElseThrow();
            String plug = Names.connectorOf(t.points().get(0));
            // J1 and C3: cover 8; C1, C2, C4: fan guard 12; CB: battery box 3 (circuits/teaching.json)
            double access = plug.equals("J1") || plug.equals("C3") ? 8 : plug.equals("CB") ? 3 : 12;
            assertEquals(5 + access, t.minutes(), 1e-9, t.test());
        }
    }

    @Test
    void theSameQuestionGetsTheSameAnswer() {
        assertEquals(next("110/3"), next("110/3"));
    }
}
