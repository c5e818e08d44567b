package loomcase.intake;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.model.Circuit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/** Which plugs work has touched, as a case tells it. */
final class Worked {
    private Worked() {}

    /**
     * Plugs apart before these codes were read, but after work began, and whether terminals were moved in them.
     *
     * <p>Without work nothing counts: plugs taken apart for a test alone are not evidence of a slip. Terminals count as moved
     * where a cavity, a wire or a plug was repaired or replaced; a part that was replaced or a plug that was reseated or
     * cleaned was only apart.
     */
    static Map<String, Boolean> before(Circuit circuit, List<Fact> facts, Fact.Codes codes) {
        Map<String, Boolean> out = new TreeMap<>();
        boolean began = false;
        for (Fact f : facts) {
            if (f == codes) break;
            if (f instanceof Fact.Work w && w.spot().isPresent()) {
                began = true;
                boolean moved = w.deed() == Fact.Deed.REPAIRED || w.deed() == Fact.Deed.REPLACED;
                plugs(circuit, w.spot().get())
                        .forEach(p -> out.merge(p, moved && terminals(w.spot().get()), Boolean::logicalOr));
            }
            if (began && f instanceof Fact.Reading r)
                r.setup().unplugged().forEach(p -> out.merge(p, false, Boolean::logicalOr));
            if (began && f instanceof Fact.Watched x)
                x.setup().unplugged().forEach(p -> out.merge(p, false, Boolean::logicalOr));
        }
        return out;
    }

    private static boolean terminals(Spot spot) {
        PlaceId.Kind kind = spot.place().kind();
        return kind == PlaceId.Kind.CAVITY || kind == PlaceId.Kind.CONNECTOR || kind == PlaceId.Kind.WIRE;
    }

    private static Stream<String> plugs(Circuit circuit, Spot spot) {
        String id = spot.place().id();
        return switch (spot.place().kind()) {
            case CONNECTOR -> Stream.of(id);
            case CAVITY -> Stream.of(Names.connectorOf(id));
            case WIRE -> {
                Wire w = circuit.wires().get(id);
                yield Stream.of(w.from(), w.to()).map(Names::connectorOf).filter(circuit.connectors()::containsKey);
            }
            case DEVICE ->
                circuit.connectors().values().stream()
                        .filter(c -> c.mates().equals(id))
                        .map(c -> c.id());
            case CONTROL_UNIT -> circuit.controlUnit().connectors().stream();
            default -> Stream.of();
        };
    }
}
