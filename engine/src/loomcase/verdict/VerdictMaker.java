package loomcase.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.plan.NextTest;
import loomcase.policy.RemedyRuling;

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
        Weighing weighing = weighing(situation);
        Weighing.Question q = question(situation);
        Rulings rulings = weighing.rulings(OptionalInt.empty());
        boolean[] allowed = weighing.allowed(rulings);
        Stakes stakes = weighing.stakes(q, rulings);
        double[] totals = stakes.totals();
        OptionalInt best = stakes.cheapest(totals, allowed);
        Samples samples = Samples.of(weighing, q, costs, rulings);
        List<Verdict.Weighed> options = weighed(weighing, stakes, rulings, allowed, samples);
        Optional<Verdict.Weighed> leading = best.stream()
                .mapToObj(b -> weighing.remedies().get(b).id())
                .flatMap(id -> options.stream().filter(o -> o.remedy().id().equals(id)))
                .findFirst();
        Optional<TestWorth> worth =
                next.stream().findFirst().map(t -> TestWorth.of(weighing, q, rulings, t, prospects));
        Reasoning why = new Reasoning(situation, circuit.costs().currency());
        String option = option(situation, leading, conflicted(weighing, rulings), worth, why);
        return new Verdict(
                option,
                leading,
                options,
                why.replacement(options, leading),
                best.isPresent() ? new BreakEvens(weighing, q).all(best.getAsInt()) : List.of(),
                leading.map(Verdict.Weighed::wins).orElse(0.0),
                why.reasons(),
                conflicted(weighing, rulings),
                rulings.shopPolicyDiffers(),
                next.stream().findFirst(),
                worth,
                rates,
                circuit.costs().currency());
    }

    /** The answer over the number of damaged circuits and the labour rate. */
    public Sweep sweep(Situation situation) {
        Weighing weighing = weighing(situation);
        return Sweep.of(weighing, question(situation), circuit.costs().currency());
    }

    Weighing weighing(Situation situation) {
        return new Weighing(new Loom(circuit, layout, situation), new Causes(layout).of(situation.ranking()), rules);
    }

    Weighing.Question question(Situation situation) {
        return new Weighing.Question(costs.means(), rates, situation.openAccess(), OptionalInt.empty(), 0);
    }

    private static String option(
            Situation situation,
            Optional<Verdict.Weighed> leading,
            List<String> conflicts,
            Optional<TestWorth> worth,
            Reasoning why) {
        if (leading.isEmpty()) return why.allForbidden();
        if (!conflicts.isEmpty()) return why.conflict();
        if (situation.ranking().unexplained() >= MOSTLY_OUTSIDE) return why.mostlyOutside();
        if (worth.isPresent() && worth.get().pays()) return why.testFirst(worth.get(), leading.get());
        if (situation.isCodesOnly()
                && leading.get().remedy().option().equals("full-harness")
                && leading.get().wins() < SURE) return why.harnessOnCodesAlone(leading.get());
        return why.act(leading.get(), worth);
    }

    /** Remedies that matter and that one rule requires and another forbids. */
    private static List<String> conflicted(Weighing weighing, Rulings rulings) {
        List<String> out = new ArrayList<>();
        for (Remedy r : weighing.remedies()) {
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
            double cures = 0;
            for (int h = 0; h < act.cures().length; h++) cures += stakes.weight()[h] * act.cures()[h];
            out.add(new Verdict.Weighed(
                    r,
                    !allowed[i],
                    rulings.of(r.id()),
                    stakes.expected(i),
                    samples.low()[i],
                    samples.high()[i],
                    samples.wins()[i],
                    Math.min(1, cures),
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
