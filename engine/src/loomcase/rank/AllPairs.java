package loomcase.rank;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import loomcase.model.Edit;
import loomcase.predict.Between;
import loomcase.predict.PairTable;
import loomcase.predict.Predictor;
import loomcase.solve.Ties;

/**
 * Which pairs of groups are the best: branch and bound over all of them.
 *
 * <p>A pair counts when its leaders, solved jointly, fit the codes better than the better of them by more than one natural
 * logarithm. Its score is the sum of both groups' log prior masses and the joint fit.
 *
 * <p><b>Why none of the best is lost.</b> (1) A code's likelihood is linear in its probability, so no fit exceeds
 * {@link Likelihood#bestLasting}; with the priors that bounds every pair, and a half that comes within one of it can be in
 * no pair that counts. (2) Most of the others are bounded by what each half does alone ({@link Half}). (3) Of what is left the
 * phases that the codes seen are read in are looked at, then the quietest one ({@link PairTable}): what is read there is
 * known, everything else may be as it fits best, and the unit may be silent. The best of these cases, and {@value #SLACK}
 * for rounding, bounds the pair. (4) Pairs are solved jointly in the order of their bounds. (5) The search ends when the next
 * bound is below the worst of the best found, or below the floor, the least score that matters. (6) So a pair not solved
 * scores less than all those kept.
 *
 * <p><b>What of that is not proven:</b> that {@value #SLACK} covers the digits lost is judgement, and so is what counts as a
 * touch in (2); there of two faults that change something in common, and of one that opens a fuse or has no steady state, it is
 * taken for granted that either may undo what the other does but not do more of it; a network in which two combinations of
 * regions agree, such as a relay that holds itself, may settle in another one; and one in which none is found has arbitrary
 * voltages, from which a joint solve may read more. For these the search rests on the check against every pair solved jointly.
 *
 * <p>Cost: groups squared for what each does alone, mostly less than a tenth of that for the phases, and a joint solve for each
 * pair whose bound stands out, a few dozen.
 */
final class AllPairs {
    private static final double SLACK = 0.1;
    private static final int AT_ONCE = 100;

    /** Groups whose solutions are kept at hand together, some hundred kilobytes each. */
    private static final int TILE = 16;

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
        List<Open> open = new ArrayList<>(bounded());
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
        int[] end = new int[n];
        for (int a = 0; a < n; a++) {
            int b = a + 1;
            while (b < n && prior(a, b) + most >= threshold) b++;
            end[a] = b > a + 1 ? b : 0;
        }
        int last = Arrays.stream(end).max().orElse(0);
        if (last == 0) return List.of();
        PairTable table = predictor.pairs(
                groups.stream().limit(last).map(g -> g.leader().edits()).toList(),
                Arrays.stream(likelihood.seen())
                        .mapToObj(predictor.table().codes()::get)
                        .toList(),
                this::both);
        BitSet notLookedAt = table.notLookedAt();
        List<Half> halves = IntStream.range(0, last)
                .parallel()
                .mapToObj(g -> Half.of(groups.get(g), table.touched(g), notLookedAt, likelihood))
                .toList();
        // The first groups are asked about with the most others: some of them and some of the last are even work.
        int tiles = (last + TILE - 1) / TILE;
        return IntStream.range(0, (tiles + 1) / 2)
                .parallel()
                .boxed()
                .flatMap(t -> IntStream.of(t, tiles - 1 - t).distinct().boxed())
                .flatMap(t -> bounded(table.look(), halves, t * TILE, end).stream())
                .toList();
    }

    /**
     * The pairs of some groups with those after them whose bound reaches the threshold, one of the others after the other, so
     * that what is known of it stays at hand.
     *
     * @param from number of the first, {@value #TILE} in all
     * @param end by group, the others that it is asked about with end before this one
     */
    private List<Open> bounded(PairTable.Look look, List<Half> halves, int from, int[] end) {
        List<Open> out = new ArrayList<>();
        int to = Math.min(from + TILE, end.length);
        int last = Arrays.stream(end, from, to).max().orElse(0);
        for (int b = from + 1; b < last; b++)
            for (int a = from; a < Math.min(to, b); a++)
                if (b < end[a] && mayMatter(look, halves, a, b))
                    bound(look, a, b).ifPresent(out::add);
        return out;
    }

    private Optional<Open> bound(PairTable.Look look, int a, int b) {
        List<Between> known = look.together(a, b, k -> matters(a, b, most(k)));
        return known.isEmpty() ? Optional.empty() : Optional.of(new Open(a, b, prior(a, b) + most(known)));
    }

    private double most(List<Between> known) {
        double fit = Double.NEGATIVE_INFINITY;
        for (Between k : known) fit = Math.max(fit, likelihood.bestLasting(k) + SLACK);
        return fit;
    }

    /** True when two faults may matter by what each does alone, and by what they have to do with each other. */
    private boolean mayMatter(PairTable.Look look, List<Half> halves, int a, int b) {
        Half x = halves.get(a);
        Half y = halves.get(b);
        return matters(a, b, Half.most(x, y, Ties.ALL, likelihood) + SLACK)
                && matters(a, b, Half.most(x, y, look.ties(a, b), likelihood) + SLACK);
    }

    private boolean matters(int a, int b, double fit) {
        return fit > better(a, b) + 1 && prior(a, b) + fit >= threshold;
    }

    private List<Edit> both(int a, int b) {
        return PairSearch.both(groups.get(a).leader(), groups.get(b).leader()).edits();
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
        List<List<Edit>> edits = fresh.stream().map(o -> both(o.a, o.b)).toList();
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
