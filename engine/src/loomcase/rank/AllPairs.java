package loomcase.rank;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Edit;
import loomcase.predict.PairTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;

/**
 * Which pairs of groups are the best: branch and bound over all of them.
 *
 * <p>A pair counts when its leaders, solved jointly, fit the codes better than the better of them by more than one natural
 * logarithm. Its score is the sum of both groups' log prior masses and the joint fit.
 *
 * <p><b>Why none of the best is lost.</b> (1) A code's likelihood is linear in its probability, so no fit exceeds
 * {@link Likelihood#bestLasting}; with the priors that bounds every pair, and a half that comes within one of it can be in
 * no pair that counts. (2) Where two faults can be laid over each other at every instant ({@link
 * loomcase.solve.Overlay}), the joint network is solved by that, so its fit, and {@value #SLACK} for rounding, bounds the pair. (3)
 * Pairs are solved jointly in the order of their bounds. (4) The search ends when the next bound is below the worst of the
 * best found, or below the floor, the least score that matters. (5) So a pair not solved scores less than all those kept.
 *
 * <p><b>What of that is not proven:</b> that {@value #SLACK} covers the digits lost is judgement; and a network in which two combinations of regions agree, such as a relay
 * that holds itself, may settle in another one. For these the search rests on the check against every pair solved jointly.
 *
 * <p>Cost: groups squared for the bounds, a joint solve for each pair whose bound stands out.
 */
final class AllPairs {
    private static final double SLACK = 0.1;
    private static final int AT_ONCE = 900;

    private final Predictor predictor;
    private final Likelihood likelihood;
    private final List<Group> groups;
    private final double most;
    private final int wanted;
    private final List<Scored> best = new ArrayList<>();
    private final Set<Integer> known = new HashSet<>();
    private double threshold;
    private int solved;

    /** A pair that counts, and its score. */
    record Scored(Group a, Group b, double score) {
        String id() {
            return a.leader().hypothesis().id() + " + "
                    + b.leader().hypothesis().id();
        }
    }

    /** A pair to be solved unless its bound is too low, by the groups' numbers. */
    private record Open(int a, int b, double bound) {}

    /**
     * @param wanted how many of the best pairs must not be lost
     * @param floor score below which a pair does not matter, negative infinity when all do
     */
    AllPairs(Predictor predictor, Likelihood likelihood, List<Group> groups, int wanted, double floor) {
        this.predictor = predictor;
        this.likelihood = likelihood;
        this.wanted = wanted;
        this.threshold = floor;
        this.most = likelihood.bestLasting();
        this.groups = groups.stream()
                .filter(g -> !g.leader().edits().isEmpty())
                .filter(g -> g.leader().logEvidence() + 1 < most + SLACK)
                .sorted(Comparator.comparingDouble((Group g) -> -g.logPriorMass())
                        .thenComparing(g -> g.leader().hypothesis().id()))
                .toList();
    }

    /** How many pairs were solved jointly. */
    int solved() {
        return solved;
    }

    /**
     * The best pairs, best first; every pair that counts and is among the best wanted and above the floor is one of them.
     *
     * @param likely pairs that are solved first, so that the bound is tight from the start
     */
    List<Scored> search(List<Group[]> likely) {
        List<Open> first = new ArrayList<>();
        for (Group[] p : likely) {
            int a = groups.indexOf(p[0]);
            int b = groups.indexOf(p[1]);
            if (a >= 0 && b >= 0) first.add(new Open(Math.min(a, b), Math.max(a, b), Double.POSITIVE_INFINITY));
        }
        solve(first);
        List<Open> open = bounded();
        open.sort(Comparator.comparingDouble((Open o) -> -o.bound)
                .thenComparingInt(Open::a)
                .thenComparingInt(Open::b));
        for (int k = 0; k < open.size() && open.get(k).bound >= threshold; k += AT_ONCE)
            solve(open.subList(k, Math.min(k + AT_ONCE, open.size())));
        return List.copyOf(best);
    }

    /** Every pair whose bound reaches the threshold. */
    private List<Open> bounded() {
        int n = groups.size();
        List<List<Integer>> asked = new ArrayList<>();
        int last = 0;
        for (int a = 0; a < n; a++) {
            List<Integer> here = new ArrayList<>();
            for (int b = a + 1; b < n && prior(a, b) + most >= threshold; b++) here.add(b);
            if (!here.isEmpty()) last = Math.max(last, here.get(here.size() - 1) + 1);
            asked.add(here);
        }
        List<Open> out = new ArrayList<>();
        if (last == 0) return out;
        PairTable table = predictor.pairs(
                groups.stream().limit(last).map(g -> g.leader().edits()).toList());
        for (int a = 0; a < last; a++) {
            List<Optional<Prediction>> together = table.together(a, asked.get(a));
            for (int k = 0; k < together.size(); k++) {
                int b = asked.get(a).get(k);
                double fit = together.get(k).isEmpty()
                        ? most
                        : likelihood.ratio(together.get(k).get(), false) + SLACK;
                if (fit > better(a, b) + 1 && prior(a, b) + fit >= threshold)
                    out.add(new Open(a, b, prior(a, b) + fit));
            }
        }
        return out;
    }

    private double prior(int a, int b) {
        return groups.get(a).logPriorMass() + groups.get(b).logPriorMass();
    }

    private double better(int a, int b) {
        return Math.max(
                groups.get(a).leader().logEvidence(), groups.get(b).leader().logEvidence());
    }

    private void solve(List<Open> some) {
        List<Open> fresh =
                some.stream().filter(o -> known.add(o.a * groups.size() + o.b)).toList();
        List<List<Edit>> edits = fresh.stream()
                .map(o -> PairSearch.both(
                        groups.get(o.a).leader(), groups.get(o.b).leader()))
                .toList();
        predictor.prepare(edits);
        solved += fresh.size();
        for (int k = 0; k < fresh.size(); k++) {
            Open o = fresh.get(k);
            double fit = likelihood.ratio(predictor.predict(edits.get(k)), false);
            if (fit > better(o.a, o.b) + 1)
                best.add(new Scored(groups.get(o.a), groups.get(o.b), prior(o.a, o.b) + fit));
        }
        best.sort(Comparator.comparingDouble((Scored s) -> -s.score).thenComparing(Scored::id));
        if (best.size() > wanted) best.subList(wanted, best.size()).clear();
        if (best.size() == wanted) threshold = Math.max(threshold, best.get(wanted - 1).score);
    }
}
