package loomcase.predict;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Copper;
import loomcase.model.Device;
import loomcase.model.Layout;
import loomcase.model.Watch;
import loomcase.model.Wire;
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

    /** Every place that a caution may be wanted for: connectors, branches, devices, ground studs, fuses. */
    public static List<PlaceFact> places(Circuit circuit) {
        TreeMap<String, TreeSet<String>> kinds = new TreeMap<>();
        for (Watch w : circuit.watches())
            if (!w.device().isEmpty())
                kinds.computeIfAbsent(w.device(), k -> new TreeSet<>()).add(w.circuitKind());
        Set<Wire> boosted = boosted(circuit);
        Layout layout = new Layout(circuit);
        List<PlaceFact> out = new ArrayList<>();
        for (Connector c : circuit.connectors().values()) {
            Device d = circuit.devices().get(c.mates());
            out.add(
                    d == null
                            ? passed(
                                    c.id(),
                                    "connector",
                                    c.zone(),
                                    boosted.stream().anyMatch(w -> w.endsIn(c.id())))
                            : device(c.id(), "connector", d, c.zone(), kinds));
            if (d != null) out.add(device(d.id(), "device", d, c.zone(), kinds));
        }
        Set<String> branches = boosted.stream()
                .flatMap(w -> layout.runs(w.id()).stream())
                .map(Layout.Run::branch)
                .collect(Collectors.toSet());
        for (Branch b : circuit.branches().values())
            out.add(passed(b.id(), "branch", b.zone(), branches.contains(b.id())));
        // What returns by a stud is not fused: the battery's negative comes off first.
        circuit.grounds()
                .values()
                .forEach(g -> out.add(new PlaceFact(
                        g.id(), "ground", "", "power", celsius(circuit, g.at()), false, false, false, false)));
        circuit.fuses()
                .values()
                .forEach(f -> out.add(
                        new PlaceFact(f.id(), "fuse", "", "", celsius(circuit, f.at()), false, false, false, false)));
        return out.stream().distinct().toList();
    }

    /** Wires that reach a device driven with a boosted voltage: it is dangerous along the whole wire. */
    private static Set<Wire> boosted(Circuit circuit) {
        Copper copper = Copper.of(circuit);
        Set<String> nets = copper.netsWith(circuit, "boosted");
        return circuit.wires().values().stream()
                .filter(w -> nets.contains(copper.net(w.from())))
                .collect(Collectors.toSet());
    }

    /** The hottest zone of the branches that meet at a junction of the loom, degrees Celsius. */
    private static double celsius(Circuit circuit, String junction) {
        return circuit.branches().values().stream()
                .filter(b -> b.from().equals(junction) || b.to().equals(junction))
                .mapToDouble(b -> b.zone().celsius())
                .max()
                .orElse(0);
    }

    /** A place where no device is: only wires pass. */
    private static PlaceFact passed(String id, String kind, Zone zone, boolean boosted) {
        return new PlaceFact(id, kind, "", "", zone.celsius(), false, false, false, boosted);
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
