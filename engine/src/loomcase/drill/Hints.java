package loomcase.drill;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.model.Access;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/** Hints, each nearer than the one before: what kind of thing, what must be opened, which connector or branch. */
final class Hints {
    /** How many there are. */
    static final int MOST = 3;

    private static final Map<String, String> KINDS = Map.of(
            "wire", "a wire",
            "contact", "a contact in a plug",
            "crimp", "where a wire enters its terminal",
            "splice", "a joint of several wires",
            "fuse", "a fuse",
            "ground", "a ground stud",
            "device", "a part that the harness plugs into",
            "control-unit", "the control unit itself",
            "common", "one event that hit several wires or contacts",
            "condition", "no wire and no part: the engine itself");

    private Hints() {}

    static String text(Circuit circuit, Planted fault, int number) {
        if (number == 1) return "it is " + KINDS.getOrDefault(fault.family().split("\\.")[0], "in the harness");
        if (fault.place().kind() == PlaceId.Kind.ENGINE)
            return number == 2
                    ? "measure what the sensor reports with a gauge of your own"
                    : "the sensor says what is so, and nothing of the harness is to be mended: claim " + Request.ENGINE;
        if (number == 2) {
            Set<String> steps = new Access(circuit).steps(fault.place());
            return steps.isEmpty()
                    ? "nothing has to be opened to get at it"
                    : "to get at it you open: "
                            + steps.stream()
                                    .map(s -> circuit.access().get(s))
                                    .map(AccessStep::label)
                                    .collect(Collectors.joining(", "));
        }
        return "look near " + near(circuit, fault.place());
    }

    private static String near(Circuit circuit, PlaceId place) {
        return switch (place.kind()) {
            case CAVITY -> "connector " + Names.connectorOf(place.id());
            case SPLICE -> "branch " + circuit.splices().get(place.id()).branch();
            case WIRE ->
                List.of(
                                circuit.wires().get(place.id()).from(),
                                circuit.wires().get(place.id()).to())
                        .stream()
                        .map(Names::connectorOf)
                        .collect(Collectors.joining(" and "));
            default -> place.toString();
        };
    }
}
