package loomcase.plan;

import java.util.Comparator;
import java.util.Optional;

/**
 * A way of choosing the next test: the planner's, and two that people use, to compare it with.
 *
 * <p>All stop alike: when by the planner's reckoning no test is worth its minutes.
 */
public enum Way {
    /** Least expected minutes to a settled case. */
    PLANNER,
    /** Most expected information about the place, whatever the test costs. */
    INFORMATION_GAIN,
    /** The voltage that cuts the faults still possible into halves, whatever it costs. */
    HALF_SPLIT;

    /** A test that tells less is not taken, bits. */
    private static final double LEAST_BITS = 0.02;

    /** A fault below this share of the whole is no longer counted as possible. */
    private static final double POSSIBLE = 1e-3;

    /** The test of one of the two ways that do not reckon with minutes; empty when none tells enough. */
    Optional<Decision.Test> choose(Prepared p) {
        Decision d = p.decision();
        Comparator<Decision.Test> by = this == HALF_SPLIT
                ? Comparator.comparingDouble(t -> uneven(d, t))
                : Comparator.comparingDouble(t -> -gain(d, t));
        return d.tests().stream()
                .filter(t -> gain(d, t) > LEAST_BITS)
                .filter(t -> this != HALF_SPLIT || p.isVoltage(t))
                .min(by.thenComparing(Decision.Test::id));
    }

    /** Expected drop of the entropy over places, bits. */
    static double gain(Decision d, Decision.Test t) {
        double[] room = d.room();
        double after = 0;
        for (int o = 0; o < t.outcomes(); o++) after += d.entropy(d.weight(), t, o, room);
        return d.entropy(d.weight()) - after;
    }

    /** How far a test is from cutting the hypotheses still possible into two equal numbers. */
    static double uneven(Decision d, Decision.Test t) {
        int[] count = new int[t.outcomes()];
        int all = 0;
        for (int h = 0; h < d.weight().length; h++) {
            if (d.weight()[h] < POSSIBLE) continue;
            int likeliest = 0;
            for (int o = 1; o < t.outcomes(); o++) if (t.chance()[o][h] > t.chance()[likeliest][h]) likeliest = o;
            count[likeliest]++;
            all++;
        }
        int most = 0;
        for (int c : count) most = Math.max(most, c);
        return Math.abs(most - all / 2.0);
    }
}
