package loomcase.model;

import java.util.stream.Stream;

/** Which plugs belong to a place. */
public final class Plugs {
    private Plugs() {}

    /**
     * Ids of the plugs that work at a place takes apart: the plug itself, the plug of a cavity, those at the ends of a wire,
     * those of a device or of the control unit; none for a splice, branch, ground or fuse. Each once.
     */
    public static Stream<String> at(Circuit circuit, PlaceId place) {
        String id = place.id();
        return switch (place.kind()) {
            case CONNECTOR -> Stream.of(id);
            case CAVITY -> Stream.of(Names.connectorOf(id));
            case WIRE -> {
                Wire w = circuit.wires().get(id);
                yield Stream.of(w.from(), w.to())
                        .map(Names::connectorOf)
                        .filter(circuit.connectors()::containsKey)
                        .distinct();
            }
            case DEVICE ->
                circuit.connectors().values().stream()
                        .filter(c -> c.mates().equals(id))
                        .map(Connector::id);
            case CONTROL_UNIT -> circuit.controlUnit().connectors().stream();
            default -> Stream.of();
        };
    }
}
