package loomcase.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.intake.Intake;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;
import loomcase.policy.PolicyOutcome;
import loomcase.rank.Ranking;

/** Everything that {@code rank} shows, gathered for the text, the JSON and the picture. */
record Answer(
        Circuit circuit, Layout layout, Intake intake, Ranking ranking, Optional<NextTest> next, PolicyOutcome policy) {

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
        for (String point : test.points()) ids.add(Names.connectorOf(point));
        return CircuitInput.cautions(policy, ids);
    }

    private void addWithNeighbours(PlaceId place, List<String> ids) {
        ids.add(place.id());
        if (place.kind() == PlaceId.Kind.CAVITY) ids.add(Names.connectorOf(place.id()));
        if (place.kind() == PlaceId.Kind.SPLICE)
            ids.add(circuit.splices().get(place.id()).branch());
        if (place.kind() == PlaceId.Kind.WIRE) layout.runs(place.id()).forEach(r -> ids.add(r.branch()));
    }
}
