package loomcase.verdict;

import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.plan.NextTest;

/**
 * Whether a test is worth its money before anything is repaired: the value of information.
 *
 * @param cost labour and downtime of the test, access included
 * @param saving expected cost of acting now less that of acting on each outcome of the test
 */
public record TestWorth(double cost, double saving) {
    /** True when testing first is expected to be cheaper. */
    public boolean pays() {
        return saving > cost;
    }

    /** What a test would show under each of some hypotheses. */
    public interface Prospects {
        /**
         * @return for each outcome its probability under each subject, in their order
         */
        List<List<Double>> chances(Test test, List<Subject> subjects, List<Double> weights);
    }

    /** Nothing can be predicted, so nothing is worth testing. */
    public static final Prospects NONE = (test, subjects, weights) -> List.of();

    /**
     * {@code min_a E(a) − Σ_o P(o) · min_a E(a | o)}, access opened for the test being open afterwards, and the rules
     * being asked again with one more test made. After each outcome remedies are joined anew for what it leaves of two faults.
     */
    static TestWorth of(Weighing weighing, Weighing.Question q, Rulings rulings, NextTest test, Prospects prospects) {
        Stakes now = weighing.stakes(q, rulings);
        boolean[] allowed = weighing.allowed(rulings);
        double act = least(now, now.weight(), allowed);
        List<Outlook> outcomes = Outlook.of(weighing.causes(), weighing.pairs(), test.test(), prospects);
        Set<Together> together = new LinkedHashSet<>(weighing.together());
        Joining joining = new Joining(weighing, now, allowed);
        for (Outlook o : outcomes) together.addAll(joining.of(times(now.weight(), o.chance()), o.pairs()));
        Weighing joined = weighing.with(List.copyOf(together));
        Set<String> open = new HashSet<>(q.open());
        open.addAll(test.steps());
        Rulings later = joined.rulingsAfterTest();
        boolean[] allowedLater = joined.allowed(later);
        Stakes after = joined.stakes(q.withOpen(open), later);
        double then = 0;
        for (Outlook o : outcomes) then += least(after.with(o.pairs()), times(now.weight(), o.chance()), allowedLater);
        double closing = q.figures().get("share.closing") * weighing.loom().closedMinutes(List.copyOf(open), q.open());
        double minutes = Math.max(0, test.minutes() - closing);
        double cost = q.rates().labour(minutes) + q.rates().downtime(minutes);
        return new TestWorth(cost, Math.max(0, act - then));
    }

    private static double[] times(double[] weight, double[] chance) {
        double[] out = weight.clone();
        for (int h = 0; h < out.length; h++) out[h] *= chance[h];
        return out;
    }

    private static double least(Stakes stakes, double[] weights, boolean[] allowed) {
        Stakes s = stakes.weighing(weights);
        double[] totals = s.totals();
        return s.cheapest(totals, allowed).stream()
                .mapToDouble(a -> totals[a])
                .findFirst()
                .orElse(0);
    }
}
