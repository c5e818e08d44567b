package loomcase.plan;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.Set;
import loomcase.model.AccessStep;
import loomcase.model.Circuit;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/** The access steps that places need, and their minutes; a step shared by two places counts once. */
public final class Access {
    private final Circuit circuit;

    public Access(Circuit circuit) {
        this.circuit = circuit;
    }

    /** Ids of every step that a place needs, those needed first included and first. */
    public Set<String> steps(PlaceId place) {
        Set<String> out = new LinkedHashSet<>();
        collect(place, out);
        return out;
    }

    /** Ids of every step that any of the places needs. */
    public Set<String> steps(Collection<PlaceId> places) {
        Set<String> out = new LinkedHashSet<>();
        places.forEach(p -> collect(p, out));
        return out;
    }

    /** Minutes of the steps needed that are not open. */
    public double minutes(Collection<String> needed, Collection<String> open) {
        return needed.stream()
                .filter(s -> !open.contains(s))
                .mapToDouble(s -> circuit.access().get(s).minutes())
                .sum();
    }

    private void collect(PlaceId p, Set<String> out) {
        switch (p.kind()) {
            case BRANCH -> circuit.branches().get(p.id()).access().forEach(s -> need(s, out));
            case CONNECTOR -> circuit.connectors().get(p.id()).access().forEach(s -> need(s, out));
            case CAVITY ->
                circuit.connectors().get(Names.connectorOf(p.id())).access().forEach(s -> need(s, out));
            case SPLICE ->
                circuit.branches()
                        .get(circuit.splices().get(p.id()).branch())
                        .access()
                        .forEach(s -> need(s, out));
            case GROUND -> circuit.grounds().get(p.id()).access().forEach(s -> need(s, out));
            case FUSE -> circuit.fuses().get(p.id()).access().forEach(s -> need(s, out));
            case DEVICE ->
                circuit.devices()
                        .get(p.id())
                        .terminals()
                        .values()
                        .forEach(t -> collect(new PlaceId(PlaceId.Kind.CAVITY, t), out));
            case WIRE -> {
                String end = circuit.wires().get(p.id()).to();
                if (circuit.connectors().containsKey(Names.connectorOf(end)))
                    collect(new PlaceId(PlaceId.Kind.CAVITY, end), out);
            }
            case CONTROL_UNIT ->
                circuit.controlUnit().connectors().forEach(c -> collect(new PlaceId(PlaceId.Kind.CONNECTOR, c), out));
            case ENGINE -> {}
        }
    }

    private void need(String step, Set<String> out) {
        if (out.contains(step)) return;
        AccessStep s = circuit.access().get(step);
        s.needs().forEach(n -> need(n, out));
        out.add(step);
    }
}
