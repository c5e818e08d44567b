package loomcase.model;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Which access steps a place needs, those needed first included.
 *
 * @param circuit the circuit whose steps they are
 */
public record Access(Circuit circuit) {

    /** Ids of the steps before a place can be worked at, in the order of need. */
    public Set<String> steps(PlaceId place) {
        Set<String> out = new LinkedHashSet<>();
        direct(place).forEach(s -> need(s, out));
        return out;
    }

    /** Ids of the steps before all of the places can be worked at, each once, in the order of need. */
    public Set<String> steps(Collection<PlaceId> places) {
        Set<String> out = new LinkedHashSet<>();
        places.forEach(p -> out.addAll(steps(p)));
        return out;
    }

    /** Minutes of those steps that are not open yet. */
    public double minutes(Collection<String> steps, Collection<String> open) {
        return steps.stream()
                .filter(s -> !open.contains(s))
                .mapToDouble(s -> circuit.access().get(s).minutes())
                .sum();
    }

    private Collection<String> direct(PlaceId p) {
        return switch (p.kind()) {
            case BRANCH -> circuit.branches().get(p.id()).access();
            case CONNECTOR -> circuit.connectors().get(p.id()).access();
            case CAVITY -> circuit.connectors().get(Names.connectorOf(p.id())).access();
            case SPLICE ->
                circuit.branches().get(circuit.splices().get(p.id()).branch()).access();
            case GROUND -> circuit.grounds().get(p.id()).access();
            case FUSE -> circuit.fuses().get(p.id()).access();
            case DEVICE ->
                circuit.devices().get(p.id()).terminals().values().stream()
                        .flatMap(t -> steps(new PlaceId(PlaceId.Kind.CAVITY, t)).stream())
                        .toList();
            case WIRE -> atEnd(circuit.wires().get(p.id()).to());
            case CONTROL_UNIT ->
                circuit.controlUnit().connectors().stream()
                        .flatMap(c -> steps(new PlaceId(PlaceId.Kind.CONNECTOR, c)).stream())
                        .toList();
            case ENGINE -> List.of();
        };
    }

    private Collection<String> atEnd(String point) {
        return circuit.connectors().containsKey(Names.connectorOf(point))
                ? steps(new PlaceId(PlaceId.Kind.CAVITY, point))
                : List.of();
    }

    private void need(String step, Set<String> out) {
        if (out.contains(step)) return;
        circuit.access().get(step).needs().forEach(n -> need(n, out));
        out.add(step);
    }
}
