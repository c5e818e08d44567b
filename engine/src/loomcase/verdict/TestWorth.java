package loomcase.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
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

    private static final double WORTH_PREDICTING = 1e-4;

    /**
     * {@code min_a E(a) − Σ_o P(o) · min_a E(a | o)}, access opened for the test being open afterwards, and the rules
     * being asked again with one more test made. A cause for which no
     * test can be predicted shows every outcome as often as all the others together.
     */
    static TestWorth of(Weighing weighing, Weighing.Question q, Rulings rulings, NextTest test, Prospects prospects) {
        boolean[] allowed = weighing.allowed(rulings);
        Stakes now = weighing.stakes(q, rulings);
        double act = least(now, now.weight(), allowed);
        Set<String> open = new HashSet<>(q.open());
        open.addAll(test.steps());
        Rulings later = weighing.rulingsAfterTest();
        boolean[] allowedLater = weighing.allowed(later);
        Stakes after = weighing.stakes(q.withOpen(open), later);
        double then = 0;
        for (double[] chance : chances(weighing, test.test(), prospects)) {
            double[] w = now.weight().clone();
            for (int h = 0; h < w.length; h++) w[h] *= chance[h];
            then += least(after, w, allowedLater);
        }
        double closing = q.figures().get("share.closing") * weighing.loom().closedMinutes(List.copyOf(open), q.open());
        double minutes = Math.max(0, test.minutes() - closing);
        double cost = q.rates().labour(minutes) + q.rates().downtime(minutes);
        return new TestWorth(cost, Math.max(0, act - then));
    }

    private static double least(Stakes stakes, double[] weights, boolean[] allowed) {
        Stakes s = stakes.weighing(weights);
        double[] totals = s.totals();
        return s.cheapest(totals, allowed).stream()
                .mapToDouble(a -> totals[a])
                .findFirst()
                .orElse(0);
    }

    private static List<double[]> chances(Weighing weighing, Test test, Prospects prospects) {
        List<Cause> causes = weighing.causes();
        List<Integer> index = new ArrayList<>();
        for (int h = 0; h < causes.size(); h++)
            if (causes.get(h).subject().isPresent() && causes.get(h).probability() >= WORTH_PREDICTING) index.add(h);
        List<Subject> subjects =
                index.stream().map(h -> causes.get(h).subject().orElseThrow()).toList();
        List<Double> weights =
                index.stream().map(h -> causes.get(h).probability()).toList();
        double sum = weights.stream().mapToDouble(Double::doubleValue).sum();
        List<double[]> out = new ArrayList<>();
        if (subjects.isEmpty()) return List.of(ones(causes.size()));
        for (List<Double> given : prospects.chances(test, subjects, weights)) {
            double all = 0;
            for (int i = 0; i < index.size(); i++) all += weights.get(i) * given.get(i) / sum;
            double[] chance = new double[causes.size()];
            Arrays.fill(chance, all);
            for (int i = 0; i < index.size(); i++) chance[index.get(i)] = given.get(i);
            out.add(chance);
        }
        return out.isEmpty() ? List.of(ones(causes.size())) : out;
    }

    private static double[] ones(int n) {
        double[] out = new double[n];
        Arrays.fill(out, 1);
        return out;
    }
}
