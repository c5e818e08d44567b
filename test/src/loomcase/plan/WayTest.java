package loomcase.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.BitSet;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** The ways that people choose tests by, on decisions written by hand. */
class WayTest {
    private static Decision.Test test(String id, double minutes, double[]... chance) {
        return new Decision.Test(id, minutes, new BitSet(), LookaheadTest.byOutcome(chance));
    }

    private static Decision decision(double[] weight, Decision.Test... tests) {
        int[] place = new int[weight.length];
        for (int h = 0; h < place.length; h++) place[h] = h;
        return new Decision(weight, place, new double[weight.length], 300, List.of(tests), new double[0]);
    }

    /**
     * A test that errs one time in ten tells 1 − H(0.1) = 0.531 bits about an even choice: the binary symmetric channel (C. E.
     * Shannon, "A mathematical theory of communication", 1948, section 15; C = 1 − H(q)).
     */
    @Test
    void gainIsThatOfABinarySymmetricChannel() {
        Decision.Test sure = test("sure", 1, new double[] {1, 0}, new double[] {0, 1});
        Decision.Test errs = test("errs", 1, new double[] {0.9, 0.1}, new double[] {0.1, 0.9});
        Decision d = decision(new double[] {0.5, 0.5}, sure, errs);
        assertEquals(1, Way.gain(d, sure), 1e-12);
        assertEquals(0.5310044064, Way.gain(d, errs), 1e-9);
    }

    @Test
    void halvesAreEvenWhateverTheirWeight() {
        double[] yes = {1, 0};
        double[] no = {0, 1};
        Decision.Test even = test("even", 1, yes, yes, no, no);
        Decision.Test odd = test("odd", 1, yes, no, no, no);
        Decision d = decision(new double[] {0.7, 0.1, 0.1, 0.1}, even, odd);
        assertEquals(0, Way.uneven(d, even));
        assertEquals(1, Way.uneven(d, odd));
    }

    /** The dear test tells all, the cheap one half as much: a way without cost takes the dear one. */
    @Test
    void informationGainDoesNotLookAtMinutes() {
        double[] yes = {1, 0};
        double[] no = {0, 1};
        Decision.Test dear = test("dear", 500, yes, no);
        Decision.Test cheap = test("cheap", 1, new double[] {0.8, 0.2}, new double[] {0.2, 0.8});
        Decision d = decision(new double[] {0.5, 0.5}, cheap, dear);
        Prepared p = new Prepared(d, List.of(), Map.of());
        assertEquals("dear", Way.INFORMATION_GAIN.choose(p).orElseThrow().id());
        assertTrue(Way.HALF_SPLIT.choose(p).isEmpty(), "no voltage among them");
        assertEquals(
                "cheap",
                new Lookahead(d)
                        .choose(d.weight(), new BitSet(), 1)
                        .test()
                        .orElseThrow()
                        .id());
    }
}
