package loomcase.meter;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Device;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/**
 * The tests that a circuit allows near given suspects, and the facts about any test.
 *
 * <p>Suspected places become suspected wires, devices, branches and connectors: a cavity means its wire and its connector,
 * and to look into it; a splice its wires and its branch, a device its wires, its connector and itself; a connector or a
 * branch by itself means no wires, only looking, moving and unplugging; a condition of the engine means a gauge where a
 * sensor reports it. Tests follow from these in the order of the suspects, each once. Their number is linear in the
 * suspects.
 */
public final class Catalogue {
    private final Circuit circuit;
    private final Layout layout;
    private final Nets nets;
    private final Measurements list;

    public Catalogue(Circuit circuit, Layout layout) {
        this.circuit = circuit;
        this.layout = layout;
        this.nets = new Nets(circuit);
        this.list = Measurements.builtIn();
    }

    /** Minutes, places, harms and the row of the list for any test, also one that is not in a catalogue. */
    public TestFacts facts(Test test) {
        return TestFacts.of(circuit, nets, list, test);
    }

    /** What is suspected, sorted by kind; sets keep the order of the suspects. */
    record Suspects(
            Set<Wire> wires,
            Set<Device> devices,
            Set<String> connectors,
            Set<String> branches,
            Set<PlaceId> joints,
            Set<PlaceId> cavities,
            Set<Device> reporting) {}

    /**
     * Tests near the suspects, in a stable order.
     *
     * @param suspects places, most suspected first
     */
    public List<Test> of(Collection<PlaceId> suspects) {
        Suspects s = new Suspects(
                new LinkedHashSet<>(),
                new LinkedHashSet<>(),
                new LinkedHashSet<>(),
                new LinkedHashSet<>(),
                new LinkedHashSet<>(),
                new LinkedHashSet<>(),
                new LinkedHashSet<>());
        suspects.forEach(p -> spread(p, s));
        Map<String, Test> out = new LinkedHashMap<>();
        WireTests wires = new WireTests(circuit, nets);
        DeviceTests devices = new DeviceTests(circuit, nets);
        List<Test> all = new ArrayList<>();
        s.wires.forEach(w -> all.addAll(wires.of(w)));
        // one part may hold a whole supply or network down: unplug them one by one
        s.wires.stream()
                .filter(w -> nets.has(w.from(), ControlUnit.Supply.class) || nets.isNetwork(w.from()))
                .flatMap(w -> nets.devices(w.from()).stream())
                .distinct()
                .forEach(d -> devices.unplug(d).ifPresent(all::add));
        s.devices.forEach(d -> all.addAll(devices.of(d)));
        if (s.wires.stream().anyMatch(w -> nets.isNetwork(w.from()))
                || s.devices.stream().anyMatch(d -> d.nature() instanceof Device.Node))
            all.addAll(devices.network(s.devices));
        all.addAll(noticed(s));
        all.forEach(t -> out.putIfAbsent(t.id(), t));
        return List.copyOf(out.values());
    }

    private List<Test> noticed(Suspects s) {
        List<Test> out = new ArrayList<>();
        String op = circuit.restingPoint().id();
        Set<PlaceId> places = new LinkedHashSet<>();
        s.connectors.forEach(c -> places.add(new PlaceId(PlaceId.Kind.CONNECTOR, c)));
        s.branches.forEach(b -> places.add(new PlaceId(PlaceId.Kind.BRANCH, b)));
        for (PlaceId p : places) {
            out.add(new Test.Look(p));
            out.add(new Test.Wiggle(p, op));
        }
        s.joints.forEach(p -> out.add(new Test.Look(p)));
        s.cavities.forEach(p -> out.add(new Test.Look(p)));
        s.devices.forEach(d -> out.add(new Test.Look(d.place())));
        s.reporting.forEach(d -> out.add(new Test.Gauge(d.id())));
        return out;
    }

    private void spread(PlaceId place, Suspects s) {
        switch (place.kind()) {
            case WIRE -> wire(circuit.wires().get(place.id()), s);
            case CAVITY -> {
                s.cavities.add(place);
                s.connectors.add(Names.connectorOf(place.id()));
                at(place.id()).forEach(w -> wire(w, s));
                at(nets.mate(place.id())).forEach(w -> wire(w, s));
            }
            case SPLICE, GROUND -> {
                s.joints.add(place);
                at(place.id()).forEach(w -> wire(w, s));
            }
            case FUSE -> {
                s.joints.add(place);
                at(place.id() + "/in").forEach(w -> wire(w, s));
                at(place.id() + "/out").forEach(w -> wire(w, s));
            }
            case DEVICE -> device(circuit.devices().get(place.id()), s);
            case CONNECTOR -> connector(place.id(), s);
            case BRANCH -> s.branches.add(place.id());
            case CONTROL_UNIT -> s.connectors.addAll(circuit.controlUnit().connectors());
            case ENGINE ->
                circuit.devices().values().stream()
                        .filter(d -> d.conditions().stream().anyMatch(x -> x.id().equals(place.id())))
                        .forEach(d -> (d.isGauged() ? s.reporting : s.devices).add(d));
        }
    }

    private List<Wire> at(String point) {
        return circuit.wires().values().stream()
                .filter(w -> w.from().equals(point) || w.to().equals(point))
                .toList();
    }

    private void wire(Wire w, Suspects s) {
        if (w == null || !s.wires.add(w)) return;
        layout.runs(w.id()).forEach(r -> s.branches.add(r.branch()));
        for (String end : List.of(w.from(), w.to()))
            if (nets.isCavity(end)) {
                Connector c = circuit.connectors().get(Names.connectorOf(end));
                s.connectors.add(c.id());
                Device d = circuit.devices().get(c.mates());
                if (d != null) s.devices.add(d);
            }
    }

    private void connector(String id, Suspects s) {
        Connector c = circuit.connectors().get(id);
        s.connectors.add(id);
        Device d = circuit.devices().get(c.mates());
        if (d != null) s.devices.add(d);
    }

    private void device(Device d, Suspects s) {
        if (d == null) return;
        s.devices.add(d);
        for (String t : d.terminals().values()) {
            s.connectors.add(Names.connectorOf(t));
            at(t).forEach(w -> wire(w, s));
        }
    }
}
