package loomcase.check;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.Watch;
import loomcase.model.Wire;

/** Proves by names alone that the wiring is complete: no electrical value is looked at. */
final class WiringProof {
    private final Circuit circuit;
    private final Map<String, Set<String>> joined = new LinkedHashMap<>();
    private final Set<String> ends = new HashSet<>();
    private final List<String> problems = new ArrayList<>();

    WiringProof(Circuit circuit) {
        this.circuit = circuit;
        for (Wire w : circuit.wires().values()) {
            ends.add(w.from());
            ends.add(w.to());
            join(w.from(), w.to());
        }
        for (String fuse : circuit.fuses().keySet()) join(fuse + "/in", fuse + "/out");
        for (Connector c : circuit.connectors().values())
            if (circuit.connectors().containsKey(c.mates()))
                c.rows().forEach(row -> row.forEach(cavity -> join(c.id() + "/" + cavity, c.mates() + "/" + cavity)));
    }

    private void join(String a, String b) {
        joined.computeIfAbsent(a, k -> new LinkedHashSet<>()).add(b);
        joined.computeIfAbsent(b, k -> new LinkedHashSet<>()).add(a);
    }

    List<String> problems() {
        terminalsAndPins();
        wireEnds();
        splices();
        if (problems.isEmpty()) circuitsOfCodes();
        return problems;
    }

    private void require(boolean holds, String sentence) {
        if (!holds) problems.add(sentence);
    }

    private void terminalsAndPins() {
        for (Device d : circuit.devices().values())
            d.terminals()
                    .forEach((role, cavity) -> require(
                            ends.contains(cavity),
                            "device " + d.id() + ": terminal " + role + " at " + cavity
                                    + " is reached by no wire; add the wire or drop the terminal"));
        for (String pin : circuit.controlUnit().pins().keySet())
            require(
                    ends.contains(pin),
                    "control-unit pin " + pin + ": is reached by no wire; add the wire or drop the pin");
    }

    private void wireEnds() {
        Set<String> mated = new HashSet<>(circuit.controlUnit().pins().keySet());
        circuit.devices().values().forEach(d -> mated.addAll(d.terminals().values()));
        for (Wire w : circuit.wires().values())
            for (String end : List.of(w.from(), w.to())) {
                Connector c = circuit.connectors().get(Names.connectorOf(end));
                if (c == null) continue;
                String partner = c.mates() + "/" + Names.cavityOf(end);
                boolean inline = circuit.connectors().containsKey(c.mates());
                require(
                        mated.contains(end) || inline && ends.contains(partner),
                        "wire " + w.id() + ": ends at " + end + ", where nothing is on the other side; "
                                + (inline ? "add a wire at " + partner : "give " + c.mates() + " a function there"));
            }
    }

    private void splices() {
        for (String splice : circuit.splices().keySet()) {
            long legs = circuit.wires().values().stream()
                    .filter(w -> w.from().equals(splice) || w.to().equals(splice))
                    .count();
            require(
                    legs >= 2,
                    "splice " + splice + ": joins " + (legs == 1 ? "1 wire" : "no wire")
                            + "; a splice needs two or more, so add the others or drop it");
        }
    }

    /** A watch that names a device must measure a pin that wires join to it. */
    private void circuitsOfCodes() {
        for (Watch w : circuit.watches()) {
            if (w.device().isEmpty()) continue;
            Device device = circuit.devices().get(w.device());
            Set<String> reach = reach(w.measure().pins());
            require(
                    device.terminals().values().stream().anyMatch(reach::contains),
                    "watch " + w.code() + " (" + w.label() + "): measures "
                            + String.join(" and ", w.measure().pins()) + ", which no wires join to device "
                            + device.id() + "; name the pin of its circuit or another device");
        }
    }

    private Set<String> reach(List<String> from) {
        Set<String> seen = new HashSet<>(from);
        ArrayDeque<String> open = new ArrayDeque<>(from);
        while (!open.isEmpty())
            for (String next : joined.getOrDefault(open.remove(), Set.of())) if (seen.add(next)) open.add(next);
        return seen;
    }
}
