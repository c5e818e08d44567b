package loomcase.plan;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Chooses the next test by expected minutes to a settled case.
 *
 * <p>The base policy takes, at every step, the test with the largest expected drop of settling cost per minute that is still
 * to be paid, entropy over places where that drop is nil, and settles when no test pays for itself. Its expected cost from
 * any state is computed by following it through every outcome. The planner then looks {@code depth} tests ahead: it takes
 * the test whose own minutes plus the cost of what follows is least, what follows being looked ahead again and in the end
 * left to the base policy (a rollout: D. P. Bertsekas, "Dynamic Programming and Optimal Control", vol. 1, 6.4; from
 * memory). Access already opened is free, so tests behind one cover are seen together.
 *
 * <p><b>Bounded:</b> the base policy is followed for {@value #DEEPEST} tests, outcomes below {@value #NEGLIGIBLE} are settled
 * on at once, and at each look-ahead only the {@value #WIDTH} tests best by the base policy's measure are tried. Cost:
 * tests × hypotheses for each node of the policy's tree.
 */
final class Lookahead {
    private static final int WIDTH = 8;
    private static final int DEEPEST = 6;
    private static final int LISTED = 12;

    /** An outcome less probable than this is settled on at once rather than planned for. */
    private static final double NEGLIGIBLE = 0.004;

    private final Decision d;

    Lookahead(Decision decision) {
        this.d = decision;
    }

    /** A choice: the test, or nothing to settle now, with the expected minutes from here. */
    record Choice(Optional<Decision.Test> test, double expectedMinutes) {}

    /**
     * The best next step.
     *
     * @param w weights of the hypotheses, summing to 1
     * @param open access steps already open; not changed
     * @param depth tests to look ahead before the base policy takes over, 1 or more
     */
    Choice choose(double[] w, BitSet open, int depth) {
        double best = d.settle(w);
        Decision.Test chosen = null;
        for (Decision.Test t : promising(w, open, WIDTH)) {
            double cost = cost(w, open, t, depth);
            if (cost < best - 1e-9) {
                best = cost;
                chosen = t;
            }
        }
        return new Choice(Optional.ofNullable(chosen), best);
    }

    /** The most promising tests with the expected minutes to a settled case when each is taken first, best first. */
    List<Choice> all(double[] w, BitSet open, int depth) {
        List<Choice> out = new ArrayList<>();
        for (Decision.Test t : promising(w, open, LISTED)) out.add(new Choice(Optional.of(t), cost(w, open, t, depth)));
        out.sort(Comparator.comparingDouble(Choice::expectedMinutes)
                .thenComparing(c -> c.test().orElseThrow().id()));
        return out;
    }

    private double cost(double[] w, BitSet open, Decision.Test t, int depth) {
        double cost = Decision.sum(w) * d.minutes(t, open);
        BitSet opened = (BitSet) open.clone();
        opened.or(t.steps());
        for (int o = 0; o < t.outcomes(); o++) {
            double[] after = d.after(w, t, o);
            if (Decision.sum(after) < NEGLIGIBLE) cost += d.settle(after);
            else cost += depth > 1 ? choose(after, opened, depth - 1).expectedMinutes() : base(after, opened, DEEPEST);
        }
        return cost;
    }

    /** Expected minutes of the base policy, times the sum of the weights. */
    private double base(double[] w, BitSet open, int left) {
        double settle = d.settle(w);
        if (left == 0) return settle;
        List<Decision.Test> best = promising(w, open, 1);
        if (best.isEmpty()) return settle;
        Decision.Test t = best.get(0);
        double cost = Decision.sum(w) * d.minutes(t, open);
        if (cost >= settle) return settle;
        BitSet opened = (BitSet) open.clone();
        opened.or(t.steps());
        for (int o = 0; o < t.outcomes(); o++) {
            double[] after = d.after(w, t, o);
            cost += Decision.sum(after) < NEGLIGIBLE ? d.settle(after) : base(after, opened, left - 1);
        }
        return Math.min(cost, settle);
    }

    private record Rated(Decision.Test test, double rate) {}

    /** Tests that part the hypotheses, best rate first. */
    private List<Decision.Test> promising(double[] w, BitSet open, int most) {
        double settle = d.settle(w);
        double bits = d.entropy(w);
        List<Rated> out = new ArrayList<>();
        for (Decision.Test t : d.tests()) {
            double after = 0;
            double bitsAfter = 0;
            for (int o = 0; o < t.outcomes(); o++) {
                double[] next = d.after(w, t, o);
                after += d.settle(next);
                bitsAfter += d.entropy(next);
            }
            double drop = settle - after + 1e-3 * Math.max(0, bits - bitsAfter);
            if (drop > 1e-9) out.add(new Rated(t, drop / Math.max(1e-6, d.minutes(t, open))));
        }
        out.sort(Comparator.comparingDouble((Rated r) -> -r.rate).thenComparing(r -> r.test.id()));
        return out.stream().limit(most).map(Rated::test).toList();
    }
}
