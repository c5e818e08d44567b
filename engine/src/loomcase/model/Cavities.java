package loomcase.model;

import java.util.LinkedHashSet;
import java.util.Set;

/** Which cavities of a harness hold something that a meter can read; the others are blanks. */
public final class Cavities {
    private Cavities() {}

    /** Cavities with a pin of the control unit or a terminal of a device opposite. */
    public static Set<String> facing(Circuit circuit) {
        Set<String> out = new LinkedHashSet<>(circuit.controlUnit().pins().keySet());
        circuit.devices().values().forEach(d -> out.addAll(d.terminals().values()));
        return out;
    }

    /** Cavities with a wire, with something opposite, or opposite one of those. */
    public static Set<String> filled(Circuit circuit) {
        Set<String> out = facing(circuit);
        for (Wire w : circuit.wires().values()) {
            keep(circuit, w.from(), out);
            keep(circuit, w.to(), out);
        }
        for (Connector c : circuit.connectors().values()) {
            Connector other = circuit.connectors().get(c.mates());
            if (other == null) continue;
            for (String cavity :
                    c.rows().stream().flatMap(java.util.List::stream).toList())
                if (other.has(cavity) && out.contains(other.id() + "/" + cavity)) out.add(c.id() + "/" + cavity);
        }
        return out;
    }

    private static void keep(Circuit circuit, String point, Set<String> out) {
        if (circuit.connectors().containsKey(Names.connectorOf(point))) out.add(point);
    }
}
