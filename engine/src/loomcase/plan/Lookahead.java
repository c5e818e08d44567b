package loomcase.plan;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Chooses the next test by expected minutes to a settled case.
 *
 * <p>The base policy takes, at every step, the test with the largest expected drop of settling cost per minute that is still
 * to be paid, entropy over places where that drop is nil, and settles when no test pays for itself. Its expected cost from
 * any state is computed by following it through every outcome. The planner then looks {@code depth} tests ahead: it takes
 * the test whose own minutes plus the cost of what follows is least, what follows being looked ahead again and in the end
 * left to the base policy (a rollout: D. P. Bertsekas, "Dynamic Programming and Optimal Control", vol. 1, 6.4; from
 * memory). Access already opened is free, for a test and for the repair, so tests behind one cover are seen together and
 * those behind the cover of the place to repair cost little more than their own minutes.
 *
 * <p><b>Bounded:</b> the base policy is followed for {@value #DEEPEST} tests, outcomes below {@value #NEGLIGIBLE} are settled
 * on at once, and at each look-ahead only the {@value #WIDTH} tests best by the base policy's measure are tried. Cost:
 * tests × hypotheses for each node of the policy's tree.
 */
final class Lookahead {
    private static final int WIDTH = 8;
    private static final int DEEPEST = 6;
    private static final int LISTED = 12;

    /** Tests whose expected minutes differ by less are equally good (judgement). */
    private static final double ALIKE_MINUTES = 1;

    /** An outcome less probable than this is settled on at once rather than planned for. */
    private static final double NEGLIGIBLE = 0.004;

    /** Share by which a bound is made larger, more than rounding can take from it. */
    private static final double ROUNDING = 1e-9;

    private final Decision d;
    private final List<Bounded> quickest = new ArrayList<>();

    /** Minutes to repair each place by what is open. */
    private final Map<BitSet, double[]> repairs = new ConcurrentHashMap<>();

    Lookahead(Decision decision) {
        this.d = decision;
        double[] known = d.known();
        for (Decision.Test t : d.tests()) quickest.add(new Bounded(t, known));
        quickest.sort(Comparator.comparingDouble(b -> d.minutes(b.test, new BitSet())));
    }

    /**
     * A test with what settling costs at the least after it, by hypothesis: what it would if the test told everything and all
     * were open.
     */
    private static final class Bounded {
        private final Decision.Test test;
        private final double[] settle;

        Bounded(Decision.Test test, double[] known) {
            this.test = test;
            this.settle = new double[known.length];
            for (double[] chance : test.chance())
                for (int h = 0; h < settle.length; h++) settle[h] += chance[h] * known[h];
        }

        double settle(double[] w) {
            double sum = 0;
            for (int h = 0; h < w.length; h++) sum += w[h] * settle[h];
            return sum;
        }
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
        double best = settle(w, open);
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

    /**
     * The most promising tests with the expected minutes to a settled case when each is taken first, best first; of those
     * that hardly differ the quickest, for what it shows may make the long way needless in a manner nobody thought of.
     */
    List<Choice> all(double[] w, BitSet open, int depth) {
        List<Choice> out = new ArrayList<>(promising(w, open, LISTED).parallelStream()
                .map(t -> first(w, open, t, depth))
                .toList());
        out.sort(Comparator.comparingDouble(Choice::expectedMinutes)
                .thenComparing(c -> c.test().orElseThrow().id()));
        if (out.isEmpty()) return out;
        double alike = out.get(0).expectedMinutes() + ALIKE_MINUTES;
        int near = (int) out.stream().filter(c -> c.expectedMinutes() <= alike).count();
        out.subList(0, near)
                .sort(Comparator.comparingDouble(c -> d.minutes(c.test().orElseThrow(), open)));
        return out;
    }

    /** Expected minutes to a settled case when a given test is taken first. */
    Choice first(double[] w, BitSet open, Decision.Test t, int depth) {
        return new Choice(Optional.of(t), cost(w, open, t, depth));
    }

    /** Expected minutes of settling now on the best place. */
    double settle(double[] w, BitSet open) {
        return d.settle(w, repairs(open));
    }

    private double[] repairs(BitSet open) {
        double[] known = repairs.get(open);
        return known != null ? known : repairs.computeIfAbsent((BitSet) open.clone(), d::repairs);
    }

    /** What is open after a test; neither is changed. */
    private static BitSet opened(Decision.Test t, BitSet open) {
        int closed = t.steps().nextSetBit(0);
        while (closed >= 0 && open.get(closed)) closed = t.steps().nextSetBit(closed + 1);
        if (closed < 0) return open;
        BitSet out = (BitSet) open.clone();
        out.or(t.steps());
        return out;
    }

    private double cost(double[] w, BitSet open, Decision.Test t, int depth) {
        List<Bounded> order = new ArrayList<>(quickest);
        double cost = Decision.sum(w) * d.minutes(t, open);
        BitSet opened = opened(t, open);
        for (int o = 0; o < t.outcomes(); o++) {
            double[] after = d.after(w, t, o);
            if (Decision.sum(after) < NEGLIGIBLE) cost += settle(after, opened);
            else
                cost += depth > 1
                        ? choose(after, opened, depth - 1).expectedMinutes()
                        : base(after, opened, DEEPEST, order);
        }
        return cost;
    }

    /**
     * Expected minutes of the base policy, times the sum of the weights.
     *
     * @param order see {@link #mostPromising}
     */
    private double base(double[] w, BitSet open, int left, List<Bounded> order) {
        double settle = settle(w, open);
        if (left == 0) return settle;
        Optional<Decision.Test> best = mostPromising(w, open, order);
        if (best.isEmpty()) return settle;
        Decision.Test t = best.get();
        double cost = Decision.sum(w) * d.minutes(t, open);
        if (cost >= settle) return settle;
        BitSet opened = opened(t, open);
        for (int o = 0; o < t.outcomes(); o++) {
            double[] after = d.after(w, t, o);
            cost += Decision.sum(after) < NEGLIGIBLE ? settle(after, opened) : base(after, opened, left - 1, order);
        }
        return Math.min(cost, settle);
    }

    /** Worth of a bit of entropy over places in minutes: enough to break ties. */
    private static final double BIT_MINUTES = 1e-3;

    /** A drop below this is none. */
    private static final double NO_DROP = 1e-9;

    private record Rated(Decision.Test test, double rate) {}

    /** Tests that part the hypotheses, best rate first. */
    private List<Decision.Test> promising(double[] w, BitSet open, int most) {
        double settle = settle(w, open);
        double bits = d.entropy(w);
        double[] room = d.room();
        List<Rated> out = new ArrayList<>();
        for (Decision.Test t : d.tests()) {
            double drop = settle - after(w, t, open, room) + BIT_MINUTES * Math.max(0, bits - bitsAfter(w, t, room));
            if (drop > NO_DROP) out.add(new Rated(t, rate(drop, t, open)));
        }
        out.sort(Comparator.comparingDouble((Rated r) -> -r.rate).thenComparing(r -> r.test.id()));
        return out.stream().limit(most).map(Rated::test).toList();
    }

    /**
     * The first of them.
     *
     * <p>Logarithms cost most, so the entropy is worked out only for tests that could be best if they left none: a test whose
     * rate with all entropy gone is below the best so far is passed over. So is, before its outcomes are looked at, one whose
     * rate would be if it told everything; the quickest tests come first, for after those most others are too long, and before
     * them those that were the first lately, for what remains after one outcome is much like what remains after another.
     *
     * @param order tests in the order in which they are looked at, which changes no answer; the one found is put in front
     */
    private Optional<Decision.Test> mostPromising(double[] w, BitSet open, List<Bounded> order) {
        double settle = settle(w, open);
        double bits = d.entropy(w);
        double[] room = d.room();
        Decision.Test best = null;
        double most = Double.NEGATIVE_INFINITY;
        int place = 0;
        for (int i = 0; i < order.size(); i++) {
            Bounded b = order.get(i);
            Decision.Test t = b.test;
            double all = settle * (1 + ROUNDING) - b.settle(w) + BIT_MINUTES * bits;
            if (rate(all, t, open) < most) continue;
            double after = after(w, t, open, room);
            double atMost = settle - after + BIT_MINUTES * bits;
            if (!(atMost > NO_DROP) || rate(atMost, t, open) < most) continue;
            double drop = settle - after + BIT_MINUTES * Math.max(0, bits - bitsAfter(w, t, room));
            double rate = rate(drop, t, open);
            if (!(drop > NO_DROP) || rate < most || rate == most && t.id().compareTo(best.id()) > 0) continue;
            best = t;
            most = rate;
            place = i;
        }
        order.add(0, order.remove(place));
        return Optional.ofNullable(best);
    }

    private double rate(double drop, Decision.Test t, BitSet open) {
        return drop / Math.max(1e-6, d.minutes(t, open));
    }

    private double after(double[] w, Decision.Test t, BitSet open, double[] room) {
        double[] minutes = repairs(opened(t, open));
        double sum = 0;
        for (int o = 0; o < t.outcomes(); o++) sum += d.settle(w, t, o, minutes, room);
        return sum;
    }

    private double bitsAfter(double[] w, Decision.Test t, double[] room) {
        double sum = 0;
        for (int o = 0; o < t.outcomes(); o++) sum += d.entropy(w, t, o, room);
        return sum;
    }
}
