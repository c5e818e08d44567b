package loomcase.plan;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.faults.Priors;
import loomcase.meter.Catalogue;
import loomcase.meter.Harm;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Outcomes;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.meter.TestFacts;
import loomcase.model.Access;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/**
 * Entry of this stage: which tests to take next, best first.
 *
 * <p>The hypotheses left are the listed members of the ranking with a share worth planning for, of two faults at once each
 * that the first may be with each that the second may be; tests come from the catalogue near their places. Every test is
 * predicted under every hypothesis, its outcomes parted, and {@link Lookahead} finds the expected minutes to a settled case
 * with each test first: access still closed plus the test itself, then what follows, then the way to the place settled on as
 * far as it is closed still, and the minutes lost when that place is wrong, with the way to the right one, everything closed
 * again for the check run. Tests that may do harm which the rules forbid are never
 * proposed.
 *
 * <p><b>Bounded:</b> at most {@value #MOST_HYPOTHESES} hypotheses and {@value #MOST_PLACES} places are planned for.
 */
public final class Planner {
    private static final int MOST_HYPOTHESES = 40;
    private static final int MOST_PLACES = 14;
    private static final double WORTH_PLANNING = 2e-3;

    /** The same for one of many combinations of two faults: each takes predictions of its own. */
    private static final double BOTH_WORTH_PLANNING = 5e-3;

    private static final int DEPTH = 1;

    /** Share from which a condition of the engine leads. */
    private static final double LEADS = 0.5;

    private final Circuit circuit;
    private final Access access;
    private final Catalogue catalogue;
    private final double wrongMinutes;
    private final double wrongShownMinutes;
    private final double secondMinutes;
    private final Set<Harm> forbidden;
    private final List<String> steps;

    /**
     * @param forbidden harms for which a test is never proposed, as the rules say
     */
    public Planner(Circuit circuit, Layout layout, Priors priors, Set<Harm> forbidden) {
        this.forbidden = Set.copyOf(forbidden);
        this.circuit = circuit;
        this.access = new Access(circuit);
        this.catalogue = new Catalogue(circuit, layout);
        this.wrongMinutes = priors.get("plan.wrong-place-minutes");
        this.wrongShownMinutes = priors.get("plan.wrong-place-shown-minutes");
        this.secondMinutes = priors.get("plan.second-place-minutes");
        this.steps = List.copyOf(circuit.access().keySet());
    }

    /**
     * Proposals, best first; empty when no test is worth its minutes.
     *
     * @param ranking suspects as they stand
     * @param meter predicts tests
     * @param open ids of access steps already open
     * @param refused ids or questions of tests that will not be done, or not again
     */
    public List<NextTest> plan(
            Ranking ranking, MeterPrediction meter, Collection<String> open, Collection<String> refused) {
        Prepared p = prepare(ranking, meter, refused);
        return withGauge(p, proposals(p, open), open);
    }

    /**
     * The test with the least expected minutes though none saves any, for who may repair nothing before something was measured
     * or looked at; empty when there is none to propose.
     *
     * @param ranking suspects as they stand
     * @param meter predicts tests
     * @param open ids of access steps already open
     * @param refused ids or questions of tests that will not be done, or not again
     */
    public Optional<NextTest> planAnyway(
            Ranking ranking, MeterPrediction meter, Collection<String> open, Collection<String> refused) {
        Prepared p = prepare(ranking, meter, refused, 1);
        Lookahead lookahead = new Lookahead(p.decision);
        BitSet opened = bits(open);
        double settle = lookahead.settle(p.decision.weight(), opened);
        return p.decision.tests().stream()
                .map(t -> lookahead.first(p.decision.weight(), opened, t, DEPTH))
                .min(Comparator.comparingDouble(Lookahead.Choice::expectedMinutes))
                .map(c -> proposal(p, c, settle, opened, open));
    }

    private List<NextTest> proposals(Prepared p, Collection<String> open) {
        if (p.left.size() < 2) return List.of();
        Lookahead lookahead = new Lookahead(p.decision);
        BitSet opened = bits(open);
        double settle = lookahead.settle(p.decision.weight(), opened);
        return lookahead.all(p.decision.weight(), opened, DEPTH).stream()
                .filter(c -> c.expectedMinutes() < settle - 1e-9)
                .map(c -> proposal(p, c, settle, opened, open))
                .toList();
    }

    /**
     * A condition of the engine that leads is seen by an instrument of its own before anybody acts on it, whether or not that
     * saves minutes: what is done about it, or left undone, is no work on the harness and not reckoned here (common practice,
     * no source).
     */
    private List<NextTest> withGauge(Prepared p, List<NextTest> paying, Collection<String> open) {
        Optional<String> owed = leadingCondition(p);
        if (owed.isEmpty()
                || paying.stream().limit(1).anyMatch(t -> t.test().id().equals(owed.get()))) return paying;
        Lookahead lookahead = new Lookahead(p.decision);
        BitSet opened = bits(open);
        double settle = lookahead.settle(p.decision.weight(), opened);
        List<NextTest> out = new ArrayList<>();
        p.decision.tests().stream()
                .filter(t -> t.id().equals(owed.get()))
                .map(t -> lookahead.first(p.decision.weight(), opened, t, DEPTH))
                .forEach(c -> out.add(proposal(p, c, settle, opened, open)));
        paying.stream().filter(t -> !t.test().id().equals(owed.get())).forEach(out::add);
        return out;
    }

    /** Id of the gauge that shows the condition of the engine which is as probable as all else together, if there is one. */
    private static Optional<String> leadingCondition(Prepared p) {
        Map<String, Double> share = new LinkedHashMap<>();
        for (int h = 0; h < p.left.size(); h++) {
            double weight = p.decision.weight()[h];
            Subject all = p.left.get(h).subject();
            for (Subject one : all.both().isEmpty() ? List.of(all) : all.both())
                if (one.isCondition() && one.edits().get(0) instanceof Edit.Value v)
                    share.merge(new Test.Gauge(v.device()).id(), weight, Double::sum);
        }
        return share.entrySet().stream()
                .filter(e -> e.getValue() >= LEADS)
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey);
    }

    /**
     * The next test by each of some ways of choosing; a way is absent when no test is worth its minutes or it finds none.
     *
     * @param ways ways asked for
     * @param ranking suspects as they stand
     * @param meter predicts tests
     * @param open ids of access steps already open
     * @param refused ids or questions of tests that will not be done, or not again
     */
    public Map<Way, NextTest> next(
            Set<Way> ways,
            Ranking ranking,
            MeterPrediction meter,
            Collection<String> open,
            Collection<String> refused) {
        Prepared p = prepare(ranking, meter, refused);
        List<NextTest> paying = proposals(p, open);
        Map<Way, NextTest> out = new EnumMap<>(Way.class);
        if (ways.contains(Way.PLANNER))
            withGauge(p, paying, open).stream().findFirst().ifPresent(t -> out.put(Way.PLANNER, t));
        if (paying.isEmpty()) return out;
        BitSet opened = bits(open);
        Lookahead lookahead = new Lookahead(p.decision);
        double settle = lookahead.settle(p.decision.weight(), opened);
        for (Way way : ways) {
            if (way != Way.PLANNER)
                way.choose(p)
                        .map(t -> lookahead.first(p.decision.weight(), opened, t, DEPTH))
                        .ifPresent(c -> out.put(way, proposal(p, c, settle, opened, open)));
        }
        return out;
    }

    /**
     * A ranking made into a decision.
     *
     * @param left hypotheses planned for, in the decision's order
     * @param tests tests by id
     * @param outcomes outcomes of each test, in the decision's order
     */
    record Prepared(
            Decision decision,
            List<Ranking.Member> left,
            Map<String, Test> tests,
            Map<String, List<Outcomes.Likely>> outcomes) {}

    Prepared prepare(Ranking ranking, MeterPrediction meter, Collection<String> refused) {
        return prepare(ranking, meter, refused, 2);
    }

    /** @param least hypotheses left from which on tests are looked for */
    private Prepared prepare(Ranking ranking, MeterPrediction meter, Collection<String> refused, int least) {
        List<Ranking.Member> left = members(ranking);
        List<Subject> subjects = left.stream().map(Ranking.Member::subject).toList();
        List<Double> weights = left.stream().map(Ranking.Member::probability).toList();
        Map<String, List<Outcomes.Likely>> outcomes = new LinkedHashMap<>();
        Map<String, Test> byId = new LinkedHashMap<>();
        List<Decision.Test> abstracted = new ArrayList<>();
        List<Test> allowed = left.size() < least
                ? List.of()
                : catalogue.of(places(left)).stream()
                        .filter(t -> !refused.contains(t.id())
                                && !refused.contains(t.question())
                                && catalogue.facts(t).harms().stream().noneMatch(forbidden::contains))
                        .toList();
        List<List<Outcomes.Likely>> all = meter.outcomes(allowed, subjects, weights);
        for (int i = 0; i < allowed.size(); i++) {
            Test t = allowed.get(i);
            List<Outcomes.Likely> parted = all.get(i);
            if (parted.size() < 2) continue;
            outcomes.put(t.id(), parted);
            byId.put(t.id(), t);
            double minutes = catalogue.facts(t).minutes();
            abstracted.add(new Decision.Test(t.id(), minutes, bits(stepsOf(t)), chances(parted)));
        }
        return new Prepared(decision(ranking, left, abstracted), left, byId, outcomes);
    }

    private static List<Ranking.Member> members(Ranking ranking) {
        return ranking.suspects().stream()
                .flatMap(s -> (s.twoFaults() ? s.together(BOTH_WORTH_PLANNING) : s.members()).stream())
                .filter(m -> m.probability() > WORTH_PLANNING)
                .sorted(Comparator.comparingDouble((Ranking.Member m) -> -m.probability())
                        .thenComparing(Ranking.Member::id))
                .limit(MOST_HYPOTHESES)
                .toList();
    }

    private static List<PlaceId> places(List<Ranking.Member> left) {
        Set<PlaceId> out = new LinkedHashSet<>();
        for (Ranking.Member m : left)
            for (PlaceId place : m.subject().named()) if (out.size() < MOST_PLACES) out.add(place);
        return List.copyOf(out);
    }

    /** What is settled on: a place or two, and whether a fault there stays, so that the check run shows it when it is missed. */
    private record Settled(Set<PlaceId> places, boolean shown) {}

    private Decision decision(Ranking ranking, List<Ranking.Member> left, List<Decision.Test> tests) {
        boolean active = ranking.codesActive();
        Map<Settled, Integer> number = new LinkedHashMap<>();
        int[] place = new int[left.size()];
        double[] weight = new double[left.size()];
        double sum = left.stream().mapToDouble(Ranking.Member::probability).sum();
        for (int h = 0; h < place.length; h++) {
            Subject subject = left.get(h).subject();
            Settled on = new Settled(subject.named(), active && !subject.comesAndGoes());
            place[h] = number.computeIfAbsent(on, k -> number.size());
            weight[h] = left.get(h).probability() / sum;
        }
        double[] settle = new double[number.size()];
        BitSet[] steps = new BitSet[number.size()];
        double[] wrong = new double[number.size()];
        int[][] covers = new int[number.size()][];
        number.forEach((on, n) -> {
            Set<PlaceId> p = on.places;
            settle[n] = (p.size() - 1) * secondMinutes;
            steps[n] = bits(access.steps(p));
            wrong[n] = (on.shown ? wrongShownMinutes : wrongMinutes) + access.minutes(access.steps(p), List.of());
            covers[n] = number.entrySet().stream()
                    .filter(e -> p.containsAll(e.getKey().places))
                    .mapToInt(Map.Entry::getValue)
                    .toArray();
        });
        double[] minutes = this.steps.stream()
                .mapToDouble(s -> circuit.access().get(s).minutes())
                .toArray();
        return new Decision(weight, place, covers, settle, steps, wrong, tests, minutes);
    }

    private static double[][] chances(List<Outcomes.Likely> parted) {
        return parted.stream()
                .map(o -> o.given().stream().mapToDouble(Double::doubleValue).toArray())
                .toArray(double[][]::new);
    }

    private NextTest proposal(
            Prepared p, Lookahead.Choice choice, double settle, BitSet opened, Collection<String> open) {
        Decision.Test chosen = choice.test().orElseThrow();
        Test test = p.tests.get(chosen.id());
        TestFacts facts = catalogue.facts(test);
        List<String> closed =
                stepsOf(test).stream().filter(s -> !open.contains(s)).toList();
        return new NextTest(
                test,
                p.decision.minutes(chosen, opened),
                choice.expectedMinutes(),
                settle,
                closed,
                p.outcomes.get(chosen.id()).stream()
                        .map(o -> outcome(o, p.left))
                        .toList(),
                List.copyOf(facts.harms()),
                facts.hazard());
    }

    private static NextTest.Outcome outcome(Outcomes.Likely o, List<Ranking.Member> left) {
        double total = 0;
        double most = -1;
        int best = 0;
        for (int h = 0; h < left.size(); h++) {
            double w = left.get(h).probability() * o.given().get(h);
            total += w;
            if (w <= most) continue;
            most = w;
            best = h;
        }
        return new NextTest.Outcome(
                o.outcome().words(),
                Math.min(1, o.probability()),
                left.get(best).words(),
                total == 0 ? 0 : most / total);
    }

    /** Every access step that a test needs, those needed first included. */
    private Set<String> stepsOf(Test test) {
        return access.steps(catalogue.facts(test).places());
    }

    private BitSet bits(Collection<String> ids) {
        BitSet out = new BitSet();
        for (String id : ids) {
            int n = steps.indexOf(id);
            if (n >= 0) out.set(n);
        }
        return out;
    }
}
