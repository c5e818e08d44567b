package loomcase.proof;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.model.Circuit;
import loomcase.model.Conductor;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.Wire;

/**
 * What a meter can reach of a wire: the nearest plug cavities on its two sides, and the wires between them.
 *
 * @param from cavity or stud on one side
 * @param to cavity or stud on the other
 * @param wires the wires between, the wire itself among them
 * @param ohms resistance of the copper between at 20 °C, see {@link Conductor}
 */
record Stretch(String from, String to, List<Wire> wires, double ohms) {
    private static final double CELSIUS = 20;

    Stretch {
        wires = List.copyOf(wires);
    }

    /** The stretch through a wire; empty when one of its sides reaches no plug, as between two splices of a stub. */
    static Optional<Stretch> through(Circuit circuit, Layout layout, Wire wire) {
        List<Wire> left = new ArrayList<>();
        List<Wire> right = new ArrayList<>();
        Optional<String> from = reach(circuit, wire, wire.from(), left);
        Optional<String> to = reach(circuit, wire, wire.to(), right);
        if (from.isEmpty() || to.isEmpty()) return Optional.empty();
        List<Wire> all = new ArrayList<>(left);
        all.add(wire);
        all.addAll(right);
        double ohms = 0;
        for (Wire w : all) ohms += layout.metres(w) * w.size().ohmsPerMetre(CELSIUS);
        return Optional.of(new Stretch(from.get(), to.get(), all, ohms));
    }

    /** The nearest point that a meter reaches from one end of a wire, going away from it; fewest wires, then file order. */
    private static Optional<String> reach(Circuit circuit, Wire wire, String end, List<Wire> way) {
        if (measurable(circuit, end)) return Optional.of(end);
        Map<String, Wire> cameBy = new HashMap<>();
        Map<String, String> cameFrom = new HashMap<>();
        Deque<String> next = new ArrayDeque<>(List.of(end));
        cameFrom.put(end, end);
        while (!next.isEmpty()) {
            String here = next.remove();
            if (measurable(circuit, here)) {
                for (String p = here; !p.equals(end); p = cameFrom.get(p)) way.add(cameBy.get(p));
                return Optional.of(here);
            }
            for (Wire w : circuit.wires().values()) {
                if (w.id().equals(wire.id())) continue;
                String other = w.from().equals(here) ? w.to() : w.to().equals(here) ? w.from() : null;
                if (other == null || cameFrom.containsKey(other)) continue;
                cameFrom.put(other, here);
                cameBy.put(other, w);
                next.add(other);
            }
        }
        return Optional.empty();
    }

    private static boolean measurable(Circuit circuit, String point) {
        return circuit.connectors().containsKey(Names.connectorOf(point))
                || circuit.grounds().containsKey(point)
                || circuit.fuses().containsKey(Names.connectorOf(point));
    }

    /** True when a healthy harness ties it to the chassis. */
    boolean grounded(Circuit circuit) {
        return wires.stream()
                .anyMatch(w -> circuit.grounds().containsKey(w.from())
                        || circuit.grounds().containsKey(w.to()));
    }
}
