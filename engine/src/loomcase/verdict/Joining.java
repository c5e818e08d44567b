package loomcase.verdict;

import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Which remedies are also weighed as done together in one visit: those for the two faults of the likeliest pairs. Where one
 * is a true condition of the engine, those for the other with the engine seen to.
 *
 * <p>For each of the two faults, taken by itself, the {@value #CHEAPEST} remedies of least expected cost, forbidden or not,
 * and as many that no rule forbids; then each of one fault with each of the other. At most {@value #MOST_PAIRS} pairs of
 * the ranking, so the number of remedies stays bounded. A section is joined too, for the second fault may lie outside it;
 * the harness and leaving it alone are not.
 */
final class Joining {
    /** Share of the posterior below which a pair is not repaired as one (judgement). */
    static final double WORTH_BOTH = 0.05;

    private static final int MOST_PAIRS = 3;
    private static final int CHEAPEST = 2;

    /** Share of one of the two faults from which it is taken for a condition of the engine (judgement). */
    private static final double LEADS = 0.5;

    /** A remedy that mends one of the two faults less often than this is no half (judgement). */
    private static final double MENDS = 0.05;

    private final Weighing weighing;
    private final Stakes stakes;
    private final boolean[] allowed;

    /**
     * @param stakes of all remedies of {@code weighing}
     * @param allowed which of them no rule forbids
     */
    Joining(Weighing weighing, Stakes stakes, boolean[] allowed) {
        this.weighing = weighing;
        this.stakes = stakes;
        this.allowed = allowed;
    }

    /** What is worth weighing as done in one visit. */
    static List<Together> of(Weighing weighing, Weighing.Question q) {
        if (likely(weighing.weights(), weighing.pairs()).isEmpty()) return List.of();
        Rulings rulings = weighing.rulings(OptionalInt.empty());
        return new Joining(weighing, weighing.stakes(q, rulings), weighing.allowed(rulings))
                .of(weighing.weights(), weighing.pairs());
    }

    /**
     * The same with some weights.
     *
     * @param weight of each cause, by number; need not sum to 1
     * @param pairs of two faults at once what each may be
     */
    List<Together> of(double[] weight, List<Stakes.Pair> pairs) {
        return of(likely(weight, pairs));
    }

    private static List<Stakes.Pair> likely(double[] weight, List<Stakes.Pair> pairs) {
        double least = WORTH_BOTH * Arrays.stream(weight).sum();
        return pairs.stream()
                .filter(p -> weight[p.hypothesis()] >= least)
                .sorted(Comparator.comparingDouble((Stakes.Pair p) -> -weight[p.hypothesis()])
                        .thenComparing(Stakes.Pair::hypothesis))
                .limit(MOST_PAIRS)
                .toList();
    }

    private List<Together> of(List<Stakes.Pair> pairs) {
        Set<Set<Integer>> known = new HashSet<>();
        Set<Together> out = new LinkedHashSet<>();
        for (Stakes.Pair p : pairs) {
            Set<Integer> first = candidates(p.first());
            Set<Integer> second = candidates(p.second());
            condition(p.first()).ifPresent(c -> second.forEach(a -> out.add(new Together.AndEngine(id(a), c.id()))));
            condition(p.second()).ifPresent(c -> first.forEach(a -> out.add(new Together.AndEngine(id(a), c.id()))));
            for (int a : first)
                for (int b : second) if (a != b && known.add(Set.of(a, b))) out.add(new Together.Two(id(a), id(b)));
        }
        return List.copyOf(out);
    }

    /**
     * The likeliest condition of the engine that one of two faults may be, where it is mostly one; of its like in other pairs
     * the first, so that what is done is weighed once.
     */
    private Optional<Cause> condition(Stakes.Half half) {
        if (half.mean(h -> weighing.causes().get(h).isCondition() ? 1 : 0) < LEADS) return Optional.empty();
        return IntStream.range(0, half.shares().length)
                .boxed()
                .filter(i -> weighing.causes().get(half.hypotheses()[i]).isCondition())
                .max(Comparator.comparingDouble(i -> half.shares()[i]))
                .map(i -> weighing.causes().get(half.hypotheses()[i]))
                .flatMap(c -> weighing.causes().stream()
                        .filter(like -> like.isCondition() && like.place().equals(c.place()))
                        .findFirst());
    }

    private String id(int remedy) {
        return weighing.remedies().get(remedy).id();
    }

    private Set<Integer> candidates(Stakes.Half half) {
        double[] alone = new double[stakes.weight().length];
        for (int i = 0; i < half.shares().length; i++) alone[half.hypotheses()[i]] = half.shares()[i];
        double[] totals = stakes.weighing(alone).totals();
        List<Integer> cheapest = IntStream.range(0, weighing.singles().size())
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
        return !r.isHarness() && !r.option().equals("monitor");
    }
}
