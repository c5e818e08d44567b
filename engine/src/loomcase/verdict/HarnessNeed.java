package loomcase.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import loomcase.meter.TypicalFindings;
import loomcase.rank.Ranking;

/**
 * Whether faults that are known call for the whole harness, and by what. Known is everything: how many wires are hurt, and what
 * a look at a common cause usually shows ({@link TypicalFindings}, its first).
 */
public enum HarnessNeed {
    /** Something smaller that the rules allow mends every fault for less. */
    NONE,
    /** Replacing the harness costs less than anything smaller, rules aside. */
    MONEY,
    /** Something smaller would cost less, and rules do not allow it. */
    RULES;

    /** Readings, tests and looks after which no rule asks for more evidence. */
    private static final int ENOUGH = 100;

    /** Whether there is a need at all. */
    public boolean isThere() {
        return this != NONE;
    }

    /**
     * With everything known.
     *
     * @param loom the harness and what was seen of it
     * @param truth what is wrong, each fault with certainty
     */
    static HarnessNeed of(Loom loom, List<Cause> truth, Rulings.Rules rules, Weighing.Question q) {
        Weighing open = new Weighing(known(loom, truth), truth, rules);
        int harness = open.remedies().stream().map(Remedy::isHarness).toList().indexOf(true);
        if (of(open.stakes(q, Rulings.NONE), open.allowed(Rulings.NONE), harness)) return MONEY;
        Rulings rulings = open.rulings(OptionalInt.empty());
        return of(open.stakes(q, rulings), open.allowed(rulings), harness) ? RULES : NONE;
    }

    /**
     * Whether the harness costs less than mending every fault by the cheapest remedy smaller than that. What the harness cures
     * this must cure at even odds or better, and be allowed; what it does not cure speaks for no harness, whatever is allowed.
     *
     * @param stakes remedies, and as its causes the faults, all of them there
     * @param allowed which remedies may be done
     * @param harness number of the remedy that replaces the whole harness
     */
    static boolean of(Stakes stakes, boolean[] allowed, int harness) {
        Sequel sequel = stakes.sequel();
        double now = stakes.money(stakes.acts().get(harness).now());
        double whole = now;
        double smaller = 0;
        for (int h = 0; h < stakes.weight().length; h++) {
            int fault = h;
            boolean harnessCures = stakes.acts().get(harness).cures()[h] >= 0.5;
            whole += stakes.given(harness, h, sequel) - now;
            smaller += IntStream.range(0, allowed.length)
                    .filter(a -> a != harness)
                    .filter(a ->
                            !harnessCures || allowed[a] && stakes.acts().get(a).cures()[fault] >= 0.5)
                    .mapToDouble(a -> stakes.given(a, fault, sequel))
                    .min()
                    .orElse(Double.POSITIVE_INFINITY);
        }
        return whole < smaller;
    }

    /** The same harness with its loom opened at every common cause and nothing left to measure. */
    private static Loom known(Loom loom, List<Cause> truth) {
        Situation s = loom.situation();
        List<Ranking.PlaceShare> places = truth.stream()
                .flatMap(c -> c.place().stream())
                .distinct()
                .map(p -> new Ranking.PlaceShare(p, 1))
                .toList();
        Ranking certain = new Ranking(s.ranking().codes(), List.of(), places, 0, 0, 0, List.of(), truth.size());
        List<Sighting> seen = new ArrayList<>(s.seen());
        truth.stream().filter(Cause::isCommon).flatMap(HarnessNeed::usual).forEach(seen::add);
        return new Loom(
                loom.circuit,
                loom.layout,
                new Situation(
                        certain, s.openAccess(), seen, s.repaired(), s.done(), s.gauged(), ENOUGH, ENOUGH, ENOUGH));
    }

    private static Stream<Sighting> usual(Cause common) {
        return TypicalFindings.of(common.families().get(0)).stream().limit(1).flatMap(f -> common.place().stream()
                .map(p -> new Sighting(p, OptionalDouble.empty(), f.word())));
    }
}
