package loomcase.verdict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Which remedies are also weighed as done together in one visit: those for the two faults of the likeliest pairs.
 *
 * <p>For each of the two faults, taken by itself, the {@value #CHEAPEST} remedies of least expected cost, forbidden or not,
 * and as many that no rule forbids; then each of one fault with each of the other. At most {@value #MOST_PAIRS} pairs of
 * the ranking, so the number of remedies stays bounded. Sections, the harness and leaving it alone are not joined with
 * anything: the first two take the second fault with them where it lies in them.
 */
final class Joining {
    /** Share of the posterior below which a pair is not repaired as one (judgement). */
    static final double WORTH_BOTH = 0.05;

    private static final int MOST_PAIRS = 3;
    private static final int CHEAPEST = 2;

    /** A remedy that mends one of the two faults less often than this is no half (judgement). */
    private static final double MENDS = 0.05;

    private final Weighing weighing;
    private final Stakes stakes;
    private final boolean[] allowed;

    private Joining(Weighing weighing, Weighing.Question q) {
        Rulings rulings = weighing.rulings(OptionalInt.empty());
        this.weighing = weighing;
        this.stakes = weighing.stakes(q, rulings);
        this.allowed = weighing.allowed(rulings);
    }

    /** What is worth weighing as done in one visit. */
    static List<Weighing.Together> of(Weighing weighing, Weighing.Question q) {
        return of(weighing, q, weighing.weights(), weighing.pairs());
    }

    /**
     * The same with other weights.
     *
     * @param weight of each cause, by number; need not sum to 1
     * @param all of two faults at once what each may be
     */
    static List<Weighing.Together> of(Weighing weighing, Weighing.Question q, double[] weight, List<Stakes.Pair> all) {
        double least = WORTH_BOTH * Arrays.stream(weight).sum();
        List<Stakes.Pair> pairs = all.stream()
                .filter(p -> weight[p.hypothesis()] >= least)
                .sorted(Comparator.comparingDouble((Stakes.Pair p) -> -weight[p.hypothesis()])
                        .thenComparing(Stakes.Pair::hypothesis))
                .limit(MOST_PAIRS)
                .toList();
        return pairs.isEmpty() ? List.of() : new Joining(weighing, q).of(pairs);
    }

    private List<Weighing.Together> of(List<Stakes.Pair> pairs) {
        Set<Set<Integer>> known = new HashSet<>();
        List<Weighing.Together> out = new ArrayList<>();
        for (Stakes.Pair p : pairs)
            for (int a : candidates(p.first()))
                for (int b : candidates(p.second()))
                    if (a != b && known.add(Set.of(a, b))) out.add(new Weighing.Together(id(a), id(b)));
        return out;
    }

    private String id(int remedy) {
        return weighing.remedies().get(remedy).id();
    }

    private Set<Integer> candidates(Stakes.Half half) {
        double[] alone = new double[stakes.weight().length];
        for (int i = 0; i < half.shares().length; i++) alone[half.hypotheses()[i]] = half.shares()[i];
        double[] totals = stakes.weighing(alone).totals();
        List<Integer> cheapest = IntStream.range(0, totals.length)
                .filter(a -> isHalf(weighing.remedies().get(a))
                        && half.mean(h -> stakes.acts().get(a).cures()[h]) >= MENDS)
                .boxed()
                .sorted(Comparator.comparingDouble((Integer a) -> totals[a]).thenComparing(a -> a))
                .toList();
        Set<Integer> out = new LinkedHashSet<>();
        cheapest.stream().limit(CHEAPEST).forEach(out::add);
        cheapest.stream().filter(a -> allowed[a]).limit(CHEAPEST).forEach(out::add);
        return out;
    }

    private static boolean isHalf(Remedy r) {
        return r.halves().isEmpty() && !r.replaces() && !r.option().equals("monitor");
    }
}
