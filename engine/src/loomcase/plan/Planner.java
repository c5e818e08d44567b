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
import java.util.function.BooleanSupplier;
import java.util.function.ToDoubleFunction;
import loomcase.faults.Priors;
import loomcase.meter.Catalogue;
import loomcase.meter.Harm;
import loomcase.meter.Outcomes;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.meter.TestFacts;
import loomcase.model.Access;
import loomcase.model.Circuit;
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
 * again for the check run, and the hours that a device or control unit fitted there in vain would have paid. Tests that may
 * do harm which the rules forbid are never proposed.
 *
 * <p><b>Bounded:</b> at most {@value #MOST_HYPOTHESES} hypotheses and {@value #MOST_PLACES} places are planned for.
 */
public final class Planner {
    private static final int MOST_HYPOTHESES = 40;
    private static final int MOST_PLACES = 14;
    private static final double WORTH_PLANNING = 2e-3;

    /** The same for one of many combinations of two faults: each takes predictions of its own. */
    private static final double BOTH_WORTH_PLANNING = 5e-3;

    private final Circuit circuit;
    private final Access access;
    private final Catalogue catalogue;
    private final double wrongMinutes;
    private final double wrongShownMinutes;
    private final double secondMinutes;
    private final Set<Harm> forbidden;
    private final ToDoubleFunction<PlaceId> partMinutes;
    private final List<String> steps;

    /**
     * @param forbidden harms for which a test is never proposed, as the rules say
     * @param partMinutes minutes that the part which is fitted at a place would have paid
     */
    public Planner(
            Circuit circuit, Layout layout, Priors priors, Set<Harm> forbidden, ToDoubleFunction<PlaceId> partMinutes) {
        this.partMinutes = partMinutes;
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
     */
    public List<NextTest> plan(CaseSoFar from) {
        return plan(from, () -> false);
    }

    /**
     * The same, or where that gives none the test with the least expected minutes though none saves any, for who may repair
     * nothing before something was measured or looked at.
     *
     * @param anyway asked where no test saves minutes: whether one is wanted all the same
     */
    public List<NextTest> plan(CaseSoFar from, BooleanSupplier anyway) {
        Outset outset = outset(from, 2);
        List<NextTest> proposals = outset.withGauge(outset.paying());
        if (!proposals.isEmpty() || !anyway.getAsBoolean()) return proposals;
        return quickest(outset, from).stream().toList();
    }

    /**
     * The next test by each of some ways of choosing; a way is absent when no test is worth its minutes or it finds none, and
     * none is wanted all the same.
     *
     * @param ways ways asked for
     * @param anyway asked where a way gives no test: whether one is wanted all the same
     */
    public Map<Way, NextTest> next(Set<Way> ways, CaseSoFar from, BooleanSupplier anyway) {
        Outset outset = outset(from, 2);
        List<NextTest> paying = outset.paying();
        Map<Way, NextTest> out = new EnumMap<>(Way.class);
        for (Way way : ways) outset.next(way, paying).ifPresent(t -> out.put(way, t));
        if (out.size() < ways.size() && anyway.getAsBoolean())
            quickest(outset, from).ifPresent(t -> ways.forEach(way -> out.putIfAbsent(way, t)));
        return out;
    }

    /** Where one hypothesis is left nothing is to be parted, so no tests were predicted; a look may be wanted all the same. */
    private Optional<NextTest> quickest(Outset outset, CaseSoFar from) {
        return (outset.parts() ? outset : outset(from, 1)).quickest();
    }

    /** @param least hypotheses left from which on tests are looked for */
    private Outset outset(CaseSoFar from, int least) {
        return new Outset(prepare(from, least), from.open(), bits(from.open()));
    }

    /** @param least hypotheses left from which on tests are looked for */
    private Prepared prepare(CaseSoFar from, int least) {
        List<Ranking.Member> left = members(from.ranking());
        List<Subject> subjects = left.stream().map(Ranking.Member::subject).toList();
        List<Double> weights = left.stream().map(Ranking.Member::probability).toList();
        Map<String, Prepared.Tried> tried = new LinkedHashMap<>();
        List<Decision.Test> abstracted = new ArrayList<>();
        List<Test> allowed = left.size() < least
                ? List.of()
                : catalogue.of(places(left)).stream()
                        .filter(t -> !from.refused().contains(t.id())
                                && !from.refused().contains(t.question())
                                && catalogue.facts(t).harms().stream().noneMatch(forbidden::contains))
                        .toList();
        List<List<Outcomes.Likely>> all = from.meter().outcomes(allowed, subjects, weights);
        for (int i = 0; i < allowed.size(); i++) {
            Test t = allowed.get(i);
            List<Outcomes.Likely> parted = all.get(i);
            if (parted.size() < 2) continue;
            TestFacts facts = catalogue.facts(t);
            Set<String> needs = access.steps(facts.places());
            tried.put(t.id(), new Prepared.Tried(t, facts, List.copyOf(needs), parted));
            abstracted.add(new Decision.Test(t.id(), facts.minutes(), bits(needs), chances(parted)));
        }
        return new Prepared(decision(from.ranking(), left, abstracted), left, tried);
    }

    /** What is planned for; a condition of the engine is never alone, or no instrument could tell it from anything. */
    private static List<Ranking.Member> members(Ranking ranking) {
        List<Ranking.Member> worth = members(ranking, WORTH_PLANNING);
        return worth.size() == 1 && worth.get(0).subject().isCondition()
                ? members(ranking, 0).stream().limit(2).toList()
                : worth;
    }

    private static List<Ranking.Member> members(Ranking ranking, double above) {
        return ranking.suspects().stream()
                .flatMap(s -> (s.twoFaults() ? s.together(BOTH_WORTH_PLANNING) : s.members()).stream())
                .filter(m -> m.probability() > above)
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
        double[] vain = new double[number.size()];
        int[][] covers = new int[number.size()][];
        number.forEach((on, n) -> {
            Set<PlaceId> p = on.places;
            settle[n] = (p.size() - 1) * secondMinutes;
            steps[n] = bits(access.steps(p));
            wrong[n] = (on.shown ? wrongShownMinutes : wrongMinutes) + access.minutes(access.steps(p), List.of());
            vain[n] = p.stream().mapToDouble(partMinutes).sum();
            covers[n] = number.entrySet().stream()
                    .filter(e -> p.containsAll(e.getKey().places))
                    .mapToInt(Map.Entry::getValue)
                    .toArray();
        });
        double[] minutes = this.steps.stream()
                .mapToDouble(s -> circuit.access().get(s).minutes())
                .toArray();
        return new Decision(weight, place, covers, settle, steps, wrong, vain, tests, minutes);
    }

    private static double[][] chances(List<Outcomes.Likely> parted) {
        return parted.stream()
                .map(o -> o.given().stream().mapToDouble(Double::doubleValue).toArray())
                .toArray(double[][]::new);
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
