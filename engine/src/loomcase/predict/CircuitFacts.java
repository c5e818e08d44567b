package loomcase.predict;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import java.util.TreeSet;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Device;
import loomcase.model.Watch;
import loomcase.model.Zone;
import loomcase.policy.PlaceFact;
import loomcase.policy.WatchedCode;

/** States a circuit as the plain facts that the rules see. */
public final class CircuitFacts {
    private CircuitFacts() {}

    /** Every code that the control unit can set. */
    public static List<WatchedCode> codes(Circuit circuit) {
        return circuit.watches().stream()
                .map(w -> new WatchedCode(
                        w.spn(),
                        w.fmi(),
                        w.circuitKind(),
                        w.device(),
                        w.rail(),
                        "",
                        w.measure().phase()))
                .distinct()
                .toList();
    }

    /** Every place that a caution may be wanted for: connectors, branches, devices. */
    public static List<PlaceFact> places(Circuit circuit) {
        TreeMap<String, TreeSet<String>> kinds = new TreeMap<>();
        for (Watch w : circuit.watches())
            if (!w.device().isEmpty())
                kinds.computeIfAbsent(w.device(), k -> new TreeSet<>()).add(w.circuitKind());
        List<PlaceFact> out = new ArrayList<>();
        for (Connector c : circuit.connectors().values()) {
            Device d = circuit.devices().get(c.mates());
            out.add(
                    d == null
                            ? new PlaceFact(
                                    c.id(), "connector", "", "", c.zone().celsius(), false, false, false, false)
                            : device(c.id(), "connector", d, c.zone(), kinds));
            if (d != null) out.add(device(d.id(), "device", d, c.zone(), kinds));
        }
        circuit.branches()
                .values()
                .forEach(b -> out.add(
                        new PlaceFact(b.id(), "branch", "", "", b.zone().celsius(), false, false, false, false)));
        return out.stream().distinct().toList();
    }

    private static PlaceFact device(
            String id, String kind, Device d, Zone zone, TreeMap<String, TreeSet<String>> kinds) {
        return new PlaceFact(
                id,
                kind,
                d.nature().word(),
                String.join(" ", kinds.getOrDefault(d.id(), new TreeSet<>())),
                zone.celsius(),
                d.hazards().contains("moving"),
                d.hazards().contains("fuel"),
                d.hazards().contains("coolant"),
                d.hazards().contains("boosted"));
    }
}
