package loomcase.faults;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Copper;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.Names;
import loomcase.model.Wire;

/** Which wires are one piece of copper in a healthy harness, and what potential it carries. */
final class Nets {

    /** What a net is tied to. */
    enum Kind {
        BATTERY,
        RAIL,
        GROUND,
        SIGNAL
    }

    private final Copper copper;
    private final Map<String, Kind> kinds = new HashMap<>();
    private final Set<String> held = new HashSet<>();

    Nets(Circuit circuit) {
        this.copper = Copper.of(circuit);
        for (Joints.Ground g : circuit.grounds().values()) kinds.put(copper.net(g.id()), Kind.GROUND);
        for (ControlUnit.Pin p : circuit.controlUnit().pins().values()) {
            if (p.function() instanceof ControlUnit.Supply) kinds.put(copper.net(p.cavity()), Kind.RAIL);
            if (p.function() instanceof ControlUnit.Return) held.add(copper.net(p.cavity()));
        }
        for (Device d : circuit.batteries()) kinds.put(copper.net(d.terminals().get("positive")), Kind.BATTERY);
        held.addAll(kinds.keySet());
    }

    /** The net of a wire, named by one of its points. */
    String of(Wire wire) {
        return copper.net(wire.from());
    }

    /** The net of a point. */
    String of(String point) {
        return copper.net(point);
    }

    Kind kind(String net) {
        return kinds.getOrDefault(net, Kind.SIGNAL);
    }

    /** True where a net is held by a ground, the battery, or a supply or return of the control unit. */
    boolean isHeld(String net) {
        return held.contains(net);
    }

    /** Cavities that carry a wire, on either half of an inline pair. */
    static Set<String> used(Circuit circuit) {
        Set<String> out = new HashSet<>();
        for (Wire w : circuit.wires().values()) {
            for (String end : new String[] {w.from(), w.to()}) {
                Connector c = circuit.connectors().get(Names.connectorOf(end));
                if (c == null) continue;
                out.add(end);
                if (circuit.connectors().containsKey(c.mates())) out.add(c.mates() + "/" + Names.cavityOf(end));
            }
        }
        return out;
    }
}
