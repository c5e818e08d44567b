package loomcase.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.IntStream;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.plan.NextTest;
import loomcase.policy.RemedyRuling;
import loomcase.rank.Ranking;

/**
 * Entry of this stage: from suspects to what to do.
 *
 * <pre>{@code
 * VerdictMaker maker = new VerdictMaker(circuit, layout, RepairCosts.builtIn(), rates, rules);
 * Verdict verdict = maker.decide(Situation.codesOnly(ranking), next, prospects);
 * }</pre>
 *
 * <p>In this order: conflicting rules are put to somebody (ask); a posterior that is mostly outside the model, or a next
 * test that is expected to save more than it costs, means that it is too early (not enough evidence); so does replacing the
 * harness on codes alone unless the draws are nearly of one mind. Otherwise the cheapest remedy that no rule forbids.
 */
public final class VerdictMaker {
    /** Probability that nothing in the model explains what was seen from which no remedy is chosen (judgement). */
    static final double MOSTLY_OUTSIDE = 0.5;

    /** Share of draws that must agree before a harness is replaced on codes alone (judgement). */
    static final double SURE = 0.9;

    /** Share of the posterior that a remedy must cover before a contradiction about it matters (judgement). */
    static final double MATTERS = 0.2;

    /** Tests that are weighed against acting at once (judgement). */
    private static final int MOST_TESTS = 3;

    private final Circuit circuit;
    private final Layout layout;
    private final RepairCosts costs;
    private final Rates rates;
    private final Rulings.Rules rules;

    public VerdictMaker(Circuit circuit, Layout layout, RepairCosts costs, Rates rates, Rulings.Rules rules) {
        this.circuit = circuit;
        this.layout = layout;
        this.costs = costs;
        this.rates = rates;
        this.rules = rules;
    }

    /** The rates of a circuit file. */
    public static Rates rates(Circuit circuit) {
        return new Rates(
                circuit.costs().labourPerHour().doubleValue(),
                circuit.costs().downtimePerHour().doubleValue());
    }

    /**
     * Decides.
     *
     * @param situation suspects and what was seen
     * @param next tests worth taking, best first, as the planner gives them
     * @param prospects predicts those tests
     */
    public Verdict decide(Situation situation, List<NextTest> next, TestWorth.Prospects prospects) {
        return new Making(situation, next, prospects).verdict();
    }

    /**
     * The answer of {@link #decide} alone, for many cases: without intervals, break-evens and reasons, which take most of the
     * time.
     *
     * @return what {@link #decide} would give as option and as leading remedy
     */
    public Choice choose(Situation situation, List<NextTest> next, TestWorth.Prospects prospects) {
        return new Making(situation, next, prospects).choice();
    }

    /** True when only codes are known and until more is the rules forbid everything that cures. */
    public boolean wantsATest(Situation situation) {
        if (!situation.isCodesOnly()) return false;
        Weighing weighing = weighing(situation);
        Rulings rulings = weighing.rulings(OptionalInt.empty());
        Stakes stakes = weighing.stakes(question(situation), rulings);
        return stakes.cheapest(stakes.totals(), weighing.allowed(rulings)).isEmpty();
    }

    /**
     * What is chosen.
     *
     * @param option as {@link Verdict#option()}
     * @param leading the cheapest remedy that no rule forbids, whether or not it is time to act on it
     */
    public record Choice(String option, Optional<Remedy> leading) {
        /** True when there is something to do now. */
        public boolean settled() {
            return Verdict.settled(option);
        }
    }

    /**
     * What every remedy for a situation would have cost, had the truth been known.
     *
     * @param situation suspects and what was seen
     * @param truth what is wrong, one fault or several that are there at once
     */
    public Hindsight hindsight(Situation situation, List<Ranking.Member> truth) {
        Causes all = new Causes(layout);
        List<Cause> posterior = all.of(situation.ranking());
        List<Cause> known = new ArrayList<>();
        for (int i = 0; i < truth.size(); i++) known.add(all.certain(truth.get(i), Hindsight.id(i)));
        Weighing weighing = new Weighing(new Loom(circuit, layout, situation), posterior, known, rules)
                .with(weighing(situation).together());
        return new Hindsight(
                weighing.stakes(question(situation), Rulings.NONE),
                weighing.remedies().stream()
                        .filter(Remedy::isHarness)
                        .findFirst()
                        .orElseThrow(),
                IntStream.range(posterior.size(), posterior.size() + known.size())
                        .toArray());
    }

    /**
     * Whether faults that are known call for the whole harness.
     *
     * @param situation what was seen and opened; its suspects do not count
     * @param truth what is wrong, one fault or several that are there at once
     */
    public HarnessNeed harnessNeed(Situation situation, List<Ranking.Member> truth) {
        Causes all = new Causes(layout);
        List<Cause> known = truth.stream().map(m -> all.certain(m, m.id())).toList();
        return HarnessNeed.of(new Loom(circuit, layout, situation), known, rules, question(situation));
    }

    /** A test and what it is worth. */
    private record Tried(NextTest test, TestWorth worth) {}

    /**
     * The first test that pays, else the first: a gauge that comes first because nobody acts on a condition of the engine without
     * it may not pay, and a test of the harness behind it may.
     */
    private static Optional<Tried> firstThatPays(List<NextTest> next, Function<NextTest, TestWorth> worth) {
        Optional<Tried> first = Optional.empty();
        for (NextTest t : next.subList(0, Math.min(MOST_TESTS, next.size()))) {
            Tried tried = new Tried(t, worth.apply(t));
            if (tried.worth.pays()) return Optional.of(tried);
            if (first.isEmpty()) first = Optional.of(tried);
        }
        return first;
    }

    /** One decision on its way. */
    private final class Making {
        private final Situation situation;
        private final List<NextTest> plan;
        private final Optional<Tried> next;
        private final Weighing weighing;
        private final Weighing.Question q;
        private final Rulings rulings;
        private final boolean[] allowed;
        private final Stakes stakes;
        private final OptionalInt best;
        private final Reasoning why;

        Making(Situation situation, List<NextTest> next, TestWorth.Prospects prospects) {
            this.situation = situation;
            this.plan = next;
            weighing = weighing(situation);
            q = question(situation);
            rulings = weighing.rulings(OptionalInt.empty());
            allowed = weighing.allowed(rulings);
            stakes = weighing.stakes(q, rulings);
            best = stakes.cheapest(stakes.totals(), allowed);
            this.next = firstThatPays(next, t -> TestWorth.of(weighing, q, rulings, t, prospects));
            why = new Reasoning(situation, circuit.costs().currency());
        }

        Verdict verdict() {
            List<Verdict.Weighed> options =
                    weighed(weighing, stakes, rulings, allowed, Samples.of(weighing, q, costs, rulings));
            Optional<Verdict.Weighed> leading = leading(options);
            List<String> conflicts = conflicted(weighing, rulings);
            String option = option(situation, options, leading, conflicts, next.map(Tried::worth), why);
            why.doneBefore(weighing.doneBefore());
            next.filter(n -> option.equals(Verdict.NOT_ENOUGH) && n.worth.pays() && !n.test.equals(plan.get(0)))
                    .ifPresent(n -> why.planBeginsWith(plan.get(0).test().words()));
            return new Verdict(
                    option,
                    leading,
                    options,
                    why.replacement(options, leading, Verdict.settled(option)),
                    best.isPresent() ? new BreakEvens(weighing, q).all(best.getAsInt()) : List.of(),
                    leading.map(Verdict.Weighed::wins).orElse(0.0),
                    why.reasons(),
                    conflicts,
                    rulings.shopPolicyDiffers(),
                    next.map(Tried::test),
                    next.map(Tried::worth),
                    rates,
                    circuit.costs().currency());
        }

        Choice choice() {
            boolean drawsMatter = situation.isCodesOnly()
                    && best.isPresent()
                    && weighing.remedies().get(best.getAsInt()).isHarness();
            Samples samples = drawsMatter ? Samples.of(weighing, q, costs, rulings) : Samples.none(allowed.length);
            List<Verdict.Weighed> options = weighed(weighing, stakes, rulings, allowed, samples);
            Optional<Verdict.Weighed> leading = leading(options);
            return new Choice(
                    option(situation, options, leading, conflicted(weighing, rulings), next.map(Tried::worth), why),
                    leading.map(Verdict.Weighed::remedy));
        }

        private Optional<Verdict.Weighed> leading(List<Verdict.Weighed> options) {
            return best.stream()
                    .mapToObj(b -> weighing.remedies().get(b).id())
                    .flatMap(id -> options.stream().filter(o -> o.remedy().id().equals(id)))
                    .findFirst();
        }
    }

    /** The answer over the number of damaged circuits and the labour rate. */
    public Sweep sweep(Situation situation) {
        Weighing weighing = weighing(situation);
        return Sweep.of(weighing, question(situation), circuit.costs().currency());
    }

    Weighing weighing(Situation situation) {
        Weighing singles =
                new Weighing(new Loom(circuit, layout, situation), new Causes(layout).of(situation.ranking()), rules);
        return singles.with(Joining.of(singles, question(situation)));
    }

    Weighing.Question question(Situation situation) {
        return new Weighing.Question(costs.means(), rates, situation.openAccess(), OptionalInt.empty(), 0);
    }

    private static String option(
            Situation situation,
            List<Verdict.Weighed> options,
            Optional<Verdict.Weighed> leading,
            List<String> conflicts,
            Optional<TestWorth> worth,
            Reasoning why) {
        if (options.stream().noneMatch(Verdict.Weighed::mends))
            return situation.ranking().unexplained() >= MOSTLY_OUTSIDE ? why.mostlyOutside() : why.nothingMends();
        if (leading.isEmpty()) return why.allForbidden();
        if (!conflicts.isEmpty()) return why.conflict();
        if (situation.ranking().unexplained() >= MOSTLY_OUTSIDE) return why.mostlyOutside();
        if (worth.isPresent() && worth.get().pays()) return why.testFirst(worth.get(), leading.get());
        if (situation.isCodesOnly()
                && leading.get().remedy().isHarness()
                && leading.get().wins() < SURE) return why.harnessOnCodesAlone(leading.get());
        return why.act(leading.get(), worth);
    }

    /** Remedies that matter and that one rule requires and another forbids. */
    private static List<String> conflicted(Weighing weighing, Rulings rulings) {
        List<String> out = new ArrayList<>();
        // What is made of single remedies has what is said of them, each of which is asked for itself.
        for (Remedy r : weighing.singles()) {
            if (!rulings.says(r.id(), RemedyRuling.Effect.REQUIRE)
                    || !rulings.says(r.id(), RemedyRuling.Effect.FORBID)
                    || weighing.facts().probability(r) < MATTERS) continue;
            List<RemedyRuling> said = rulings.of(r.id());
            out.add(r.id() + " is required by " + names(said, RemedyRuling.Effect.REQUIRE) + " and forbidden by "
                    + names(said, RemedyRuling.Effect.FORBID));
        }
        return out;
    }

    private static String names(List<RemedyRuling> said, RemedyRuling.Effect effect) {
        return String.join(
                ", ",
                said.stream()
                        .filter(r -> r.effect() == effect)
                        .map(RemedyRuling::rule)
                        .toList());
    }

    private static List<Verdict.Weighed> weighed(
            Weighing weighing, Stakes stakes, Rulings rulings, boolean[] allowed, Samples samples) {
        List<Verdict.Weighed> out = new ArrayList<>();
        for (int i = 0; i < allowed.length; i++) {
            Remedy r = weighing.remedies().get(i);
            Stakes.Act act = stakes.acts().get(i);
            out.add(new Verdict.Weighed(
                    r,
                    !allowed[i],
                    rulings.of(r.id()),
                    stakes.expected(i),
                    samples.low()[i],
                    samples.high()[i],
                    samples.wins()[i],
                    Math.min(1, stakes.cures(i)),
                    act.now().accessMinutes(),
                    act.now().workMinutes()));
        }
        out.sort(Comparator.comparingDouble((Verdict.Weighed w) -> w.cost().total())
                .thenComparing(w -> w.remedy().size())
                .thenComparing(w -> w.remedy().id()));
        return out;
    }

    /** Money in words, whole units. */
    static String money(double amount, String currency) {
        return String.format(Locale.ROOT, "%,.0f", amount).replace(',', ' ') + " " + currency;
    }
}
