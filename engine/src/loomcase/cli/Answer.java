package loomcase.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import loomcase.faults.Priors;
import loomcase.intake.Intake;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;
import loomcase.plan.Planner;
import loomcase.policy.PolicyOutcome;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;

/** Everything that {@code rank} shows, gathered for the text, the JSON and the picture. */
record Answer(
        Circuit circuit, Ranker ranker, Intake intake, Ranking ranking, List<NextTest> next, PolicyOutcome policy) {

    /** Where the wires run. */
    Layout layout() {
        return ranker.layout();
    }

    /** Cautions for working at the places of a suspect. */
    List<String> cautions(Ranking.Suspect suspect) {
        List<String> ids = new ArrayList<>();
        for (Ranking.PlaceShare share :
                suspect.places().subList(0, Math.min(4, suspect.places().size())))
            addWithNeighbours(share.place(), ids);
        return CircuitInput.cautions(policy, ids);
    }

    /** Cautions for taking the next test. */
    List<String> cautions(NextTest test) {
        List<String> ids = new ArrayList<>();
        for (String point : points(test.test())) ids.add(Names.connectorOf(point));
        List<String> out = new ArrayList<>();
        test.harms().forEach(h -> out.addAll(policy.warnings(h.key())));
        if (!test.hazard().isEmpty()) out.add(sentence(test.hazard()));
        out.addAll(CircuitInput.cautions(policy, ids));
        return out.stream().distinct().toList();
    }

    private static String sentence(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1) + ".";
    }

    /** The points or places that a test is about. */
    static List<String> points(Test test) {
        if (test instanceof Test.Numeric n) return List.of(n.pointA(), n.pointB());
        if (test instanceof Test.JumperAndWatch j) return List.of(j.from(), j.to());
        if (test instanceof Test.UnplugAndWatch u) return List.of(u.connector());
        if (test instanceof Test.Wiggle w) return List.of(w.place().id());
        if (test instanceof Test.Look l) return List.of(l.place().id());
        if (test instanceof Test.SwapWithNeighbour s) return List.of(s.device(), s.other());
        throw new IllegalStateException("unknown test " + test);
    }

    private void addWithNeighbours(PlaceId place, List<String> ids) {
        ids.add(place.id());
        if (place.kind() == PlaceId.Kind.CAVITY) ids.add(Names.connectorOf(place.id()));
        if (place.kind() == PlaceId.Kind.SPLICE)
            ids.add(circuit.splices().get(place.id()).branch());
        if (place.kind() == PlaceId.Kind.WIRE) layout().runs(place.id()).forEach(r -> ids.add(r.branch()));
    }

    /**
     * Ranks and plans.
     *
     * @param open ids of access steps already open
     * @param refused ids of tests that will not be done
     * @param err where progress is shown
     */
    static Answer of(
            Circuit circuit,
            CircuitInput input,
            Intake intake,
            Collection<String> open,
            Collection<String> refused,
            PrintWriter err) {
        PolicyOutcome policy = input.policy(circuit);
        Priors priors = input.priors();
        Ranker ranker = new Ranker(circuit, priors, policy);
        ProgressLine progress = ProgressLine.of("weighing hypotheses", err);
        Ranking ranking = ranker.rank(intake.evidence(), progress::share);
        progress.clear();
        List<NextTest> next = new Planner(circuit, ranker.layout(), priors, CircuitInput.forbidden(policy))
                .plan(ranking, ranker.meter(intake.evidence()), open, refused);
        return new Answer(circuit, ranker, intake, ranking, next, policy);
    }
}
