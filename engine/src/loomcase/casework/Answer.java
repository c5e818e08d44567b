package loomcase.casework;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.function.DoubleConsumer;
import java.util.function.Function;
import loomcase.draw.Suspicion;
import loomcase.intake.CaseIntake;
import loomcase.intake.Intake;
import loomcase.j1939.Code;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Outcome;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.plan.CaseSoFar;
import loomcase.plan.NextTest;
import loomcase.policy.Caution;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.Predictor;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;
import loomcase.verdict.Situation;
import loomcase.verdict.Sweep;
import loomcase.verdict.Verdict;

/**
 * What one body of evidence says about one circuit: suspects, next tests, cautions.
 *
 * <p>Ranking and plan are each made on first use and kept. May be shared between threads.
 */
public final class Answer {
    private final Bench bench;
    private final CaseIntake intake;
    private Ranking ranking;

    /** Held while a plan is made, so that the ranking can be read meanwhile; taken before the answer's own lock. */
    private final Object planning = new Object();

    private List<NextTest> next;

    Answer(Bench bench, CaseIntake intake) {
        this.bench = bench;
        this.intake = intake;
    }

    /** The circuit with what was solved about it. */
    public Bench bench() {
        return bench;
    }

    /** The circuit. */
    public Circuit circuit() {
        return bench.circuit();
    }

    /** Where the wires run. */
    public Layout layout() {
        return bench.layout();
    }

    /** What the rules conclude for the circuit. */
    public PolicyOutcome policy() {
        return bench.policy();
    }

    /** The evidence, with what was assumed. */
    public Intake intake() {
        return intake.intake();
    }

    /** Ids of access steps open now. */
    public Set<String> openAccess() {
        return intake.openAccess();
    }

    /** Suspects, most probable first. */
    public Ranking ranking() {
        return ranking(share -> {});
    }

    /**
     * Suspects, most probable first.
     *
     * @param progress told the share done, 0 to 1, from several threads; told nothing when the ranking is there already
     */
    public synchronized Ranking ranking(DoubleConsumer progress) {
        if (ranking != null) return ranking;
        bench.getReady(intake().evidence());
        ranking = bench.solving(ranker -> ranker.rank(intake().evidence(), progress));
        return ranking;
    }

    /**
     * Suspects, most probable first, with every pair of faults that can matter weighed instead of the likeliest by a quick
     * rule; takes some seconds on a large harness. What follows from the ranking then follows from this one.
     *
     * @param progress told the share done, 0 to 1, from several threads; nothing while pairs are weighed
     */
    public Ranking rankingWithAllPairs(DoubleConsumer progress) {
        synchronized (planning) {
            next = null;
            return rankedWithAllPairs(progress);
        }
    }

    private synchronized Ranking rankedWithAllPairs(DoubleConsumer progress) {
        bench.getReady(intake().evidence());
        ranking = bench.solving(ranker -> ranker.rankWithAllPairs(intake().evidence(), progress));
        return ranking;
    }

    /** Has what was solved kept, so that the next command about the same complaint need not solve it again. */
    public void keep() {
        bench.solving(ranker -> {
            ranker.keep(intake().evidence());
            return true;
        });
    }

    /**
     * Tests worth taking next, best first; one that is not worth its minutes where the rules forbid to act on codes alone; else
     * empty when none is.
     */
    public List<NextTest> next() {
        synchronized (planning) {
            if (next != null) return next;
            Ranking from = ranking();
            Situation now = Advice.situation(circuit(), intake, from);
            next = bench.solving(ranker -> bench.planner()
                    .plan(
                            new CaseSoFar(from, ranker.meter(intake().evidence()), intake.openAccess(), notAgain()),
                            () -> now.isCodesOnly()
                                    && bench.verdicts(Advice.USUAL).wantsATest(now)));
            return next;
        }
    }

    /** Tests that will not be done, and those made that still count: made once more they would tell nothing new. */
    private Set<String> notAgain() {
        Set<String> out = new HashSet<>(intake.refused());
        for (Evidence.Tested t : intake().evidence().tested()) {
            out.add(t.test().question());
            // Damage found at a rub point is found again by who looks at all of the branch.
            if (t.test() instanceof Test.Look l && !t.outcome().equals(Outcome.Seen.CLEAN))
                out.add(new Test.Look(l.place()).question());
        }
        return out;
    }

    /** Starts on another core what {@link #next} gives, for whoever shows the ranking first; what goes wrong is told there. */
    public void planAhead() {
        CompletableFuture.runAsync(this::next);
    }

    /**
     * What to do, with its reasons and its money; made anew each time it is asked for.
     *
     * @throws loomcase.InputProblem when the shop's file of repair costs cannot be used
     */
    public Verdict verdict(Advice advice) {
        return bench.verdicts(advice)
                .decide(
                        situation(),
                        next(),
                        (test, subjects, weights) -> bench.solving(ranker ->
                                Advice.given(ranker.meter(intake().evidence()).outcomes(test, subjects, weights))));
    }

    /** The answer over the number of damaged circuits and the labour rate, for drawing. */
    public Sweep sweep(Advice advice) {
        return bench.verdicts(advice).sweep(situation());
    }

    private Situation situation() {
        return Advice.situation(circuit(), intake, ranking());
    }

    /** What the watches of a code measure under a suspect's edits, beside the healthy values. */
    public List<Predictor.Reading> readings(List<Edit> edits, Code code) {
        return bench.solving(ranker -> ranker.readings(intake().evidence(), edits, code));
    }

    /** The answer laid over the harness, for drawing. */
    public Suspicion suspicion() {
        return suspicion(1);
    }

    /**
     * The answer laid over the harness, with the wires of one suspect traced.
     *
     * @param traced rank of that suspect, from 1
     */
    public Suspicion suspicion(int traced) {
        return Marking.suspicion(circuit(), ranking(), traced);
    }

    /** What tests would show, with what was solved so far kept; the function must not keep what it is given. */
    public <T> T predicting(Function<MeterPrediction, T> work) {
        return bench.solving(ranker -> work.apply(ranker.meter(intake().evidence())));
    }

    /** Cautions for working at the places of a suspect. */
    public List<String> cautions(Ranking.Suspect suspect) {
        List<String> ids = new ArrayList<>();
        for (Ranking.PlaceShare share :
                suspect.places().subList(0, Math.min(4, suspect.places().size())))
            addWithNeighbours(share.place(), ids);
        return cautions(ids);
    }

    /** Cautions for working at a place. */
    public List<String> cautions(PlaceId place) {
        List<String> ids = new ArrayList<>();
        addWithNeighbours(place, ids);
        return cautions(ids);
    }

    /** Cautions for taking a proposed test. */
    public List<String> cautions(NextTest test) {
        List<String> ids = new ArrayList<>();
        for (String point : points(test.test())) ids.add(Names.connectorOf(point));
        List<String> out = new ArrayList<>();
        test.harms().forEach(h -> out.addAll(policy().warnings(h.key())));
        if (!test.hazard().isEmpty()) out.add(sentence(test.hazard()));
        out.addAll(cautions(ids));
        return out.stream().distinct().toList();
    }

    private List<String> cautions(List<String> placeIds) {
        return policy().cautions().stream()
                .filter(c -> placeIds.contains(c.placeId()))
                .map(Caution::text)
                .distinct()
                .toList();
    }

    private void addWithNeighbours(PlaceId place, List<String> ids) {
        ids.add(place.id());
        if (place.kind() == PlaceId.Kind.CAVITY) ids.add(Names.connectorOf(place.id()));
        if (place.kind() == PlaceId.Kind.SPLICE)
            ids.add(circuit().splices().get(place.id()).branch());
        if (place.kind() == PlaceId.Kind.WIRE) layout().runs(place.id()).forEach(r -> ids.add(r.branch()));
    }

    private static String sentence(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1) + ".";
    }

    /** The points or places that a test is about. */
    public static List<String> points(Test test) {
        if (test instanceof Test.Numeric n) return List.of(n.pointA(), n.pointB());
        if (test instanceof Test.JumperAndWatch j) return List.of(j.from(), j.to());
        if (test instanceof Test.UnplugAndWatch u) return List.of(u.connector());
        if (test instanceof Test.Wiggle w) return List.of(w.place().id());
        if (test instanceof Test.Look l) return List.of(l.place().id());
        if (test instanceof Test.SwapWithNeighbour s) return List.of(s.device(), s.other());
        if (test instanceof Test.Gauge g) return List.of(g.device());
        throw new IllegalStateException("unknown test " + test);
    }
}
