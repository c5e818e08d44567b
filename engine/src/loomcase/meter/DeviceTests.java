package loomcase.meter;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.ControlUnit;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.PerPoint;
import loomcase.model.Watch;

/** Tests of one device: volts at its unplugged plug, its own ohms, unplug or jumper and watch, swap; and of the network. */
final class DeviceTests {
    /** Fused lead without a resistor (judgement). */
    private static final double LEAD_OHMS = 0.1;

    /** Resistor in a lead from a supply (M06: 1 kohm lead). */
    private static final double SAFE_LEAD_OHMS = 1000;

    private static final Set<Integer> CIRCUIT_FMIS = Set.of(2, 3, 4, 5, 6, 8, 9);

    private final Circuit circuit;
    private final Nets nets;

    DeviceTests(Circuit circuit, Nets nets) {
        this.circuit = circuit;
        this.nets = nets;
    }

    List<Test> of(Device d) {
        List<Test> out = new ArrayList<>();
        if (d.nature() instanceof Device.Battery) return atPosts(d);
        List<String> plugs = d.terminals().values().stream()
                .map(Names::connectorOf)
                .distinct()
                .toList();
        if (plugs.size() != 1) return out;
        String plug = plugs.get(0);
        atPlug(d, plug, out);
        ohms(d, plug, out);
        List<Code> codes = codes(d);
        if (!codes.isEmpty()) {
            unplug(d).ifPresent(out::add);
            jumper(d, plug, codes, circuit.restingPoint().id()).ifPresent(out::add);
            neighbour(d).ifPresent(n -> out.add(new Test.SwapWithNeighbour(d.id(), n.id())));
        }
        return out;
    }

    /** Volts of a battery at rest, with most outputs on, and with the engine running. */
    private List<Test> atPosts(Device battery) {
        String post = battery.terminals().get("positive");
        List<Setup> setups = new ArrayList<>(List.of(Points.rest(circuit), Points.loaded(circuit)));
        Points.running(circuit).ifPresent(setups::add);
        return setups.stream()
                .distinct()
                .<Test>map(s -> new Test.Volts(post, Names.CHASSIS, s))
                .toList();
    }

    /** Unplug it and watch its codes, those of its supply and of its network. */
    Optional<Test> unplug(Device d) {
        List<String> plugs = d.terminals().values().stream()
                .map(Names::connectorOf)
                .distinct()
                .toList();
        List<Code> codes = codes(d);
        return plugs.size() != 1 || codes.isEmpty()
                ? Optional.empty()
                : Optional.of(new Test.UnplugAndWatch(
                        plugs.get(0), codes, circuit.restingPoint().id()));
    }

    private void atPlug(Device d, String plug, List<Test> out) {
        Setup apart = Points.rest(circuit).unplug(List.of(plug));
        Map<String, String> t = d.terminals();
        String ret = t.getOrDefault("return", t.getOrDefault("ground", ""));
        for (String role : List.of("supply", "signal", "power")) {
            if (!t.containsKey(role)) continue;
            if (!ret.isEmpty()) out.add(new Test.Volts(t.get(role), ret, apart));
            out.add(new Test.Volts(t.get(role), Names.CHASSIS, apart));
        }
    }

    private void ohms(Device d, String plug, List<Test> out) {
        List<String> roles = d.nature() instanceof Device.Ntc
                ? List.of("signal", "return")
                : d.nature() instanceof Device.VariableReluctance
                        ? List.of("positive", "negative")
                        : d.nature() instanceof Device.Load
                                ? List.of("a", "b")
                                : d.nature() instanceof Device.Relay
                                        ? List.of("coilA", "coilB")
                                        : d.nature() instanceof Device.MotorWithPosition
                                                ? List.of("motorA", "motorB")
                                                : List.of();
        if (roles.isEmpty()) return;
        String a = Names.mating(d.terminals().get(roles.get(0)));
        String b = Names.mating(d.terminals().get(roles.get(1)));
        out.add(new Test.Ohms(a, b, Setup.off().unplug(List.of(plug))));
    }

    /** Circuit codes of the device, then those of its supply and, for a node, of the network. */
    private List<Code> codes(Device d) {
        Set<Code> out = new TreeSet<>();
        Set<String> rails = new LinkedHashSet<>();
        for (Watch w : circuit.watches())
            if (w.device().equals(d.id()) && CIRCUIT_FMIS.contains(w.fmi())) {
                out.add(new Code(w.spn(), w.fmi()));
                if (!w.rail().isEmpty()) rails.add(w.rail());
            }
        for (Watch w : circuit.watches()) {
            if (w.circuitKind().equals("supply") && rails.contains(w.rail())) out.add(new Code(w.spn(), w.fmi()));
            if (w.circuitKind().equals("network") && d.nature() instanceof Device.Node)
                out.add(new Code(w.spn(), w.fmi()));
        }
        return List.copyOf(out);
    }

    private Optional<Test> jumper(Device d, String plug, List<Code> codes, String op) {
        Map<String, String> t = d.terminals();
        if (d.nature() instanceof Device.Ntc)
            return Optional.of(new Test.JumperAndWatch(plug, t.get("signal"), t.get("return"), LEAD_OHMS, codes, op));
        boolean pullDown = t.containsKey("signal") && nets.has(t.get("signal"), ControlUnit.PullDown.class);
        if (!pullDown || !t.containsKey("supply")) return Optional.empty();
        return Optional.of(new Test.JumperAndWatch(plug, t.get("supply"), t.get("signal"), SAFE_LEAD_OHMS, codes, op));
    }

    /** The first other device that is the same part electrically. */
    private Optional<Device> neighbour(Device d) {
        if (d.nature() instanceof Device.Node || d.nature() instanceof Device.Relay) return Optional.empty();
        return circuit.devices().values().stream()
                .filter(o -> !o.id().equals(d.id()) && part(o.nature()).equals(part(d.nature())))
                .findFirst();
    }

    /** The nature without what depends on the operating point. */
    private static Device.Nature part(Device.Nature n) {
        PerPoint same = PerPoint.always(0);
        if (n instanceof Device.Ntc t) return new Device.Ntc(t.ohmsAt25(), t.beta(), same);
        if (n instanceof Device.Ratiometric r) return bare(r);
        if (n instanceof Device.VariableReluctance v) return new Device.VariableReluctance(v.coilOhms(), same);
        if (n instanceof Device.MotorWithPosition m)
            return new Device.MotorWithPosition(m.motorOhms(), bare(m.position()));
        return n;
    }

    private static Device.Ratiometric bare(Device.Ratiometric r) {
        return new Device.Ratiometric(
                PerPoint.always(0), r.supplyOhms(), r.outputOhms(), r.minimumSupplyVolts(), r.unpowered());
    }

    /** Ohms between the two network lines with the battery off, and volts of each, at a plug that carries both. */
    List<Test> network(Collection<Device> suspects) {
        List<Test> out = new ArrayList<>();
        List<Device> at = new ArrayList<>();
        // a probe on the pair is the service plug
        circuit.devices().values().stream()
                .filter(d -> d.nature() instanceof Device.Load l && l.word().equals("probe") && pair(d).isPresent())
                .forEach(at::add);
        suspects.stream().filter(d -> pair(d).isPresent() && !at.contains(d)).forEach(at::add);
        for (Device d : at) {
            String[] lines = pair(d).orElseThrow();
            out.add(new Test.Ohms(lines[0], lines[1], Setup.batteryOff()));
            for (String line : lines) out.add(new Test.Volts(line, Names.CHASSIS, Points.rest(circuit)));
        }
        return out;
    }

    private Optional<String[]> pair(Device d) {
        String high = "";
        String low = "";
        for (String t : d.terminals().values())
            for (ControlUnit.Pin p : nets.pins(t))
                if (p.function() instanceof ControlUnit.Network n) {
                    if (n.high()) high = t;
                    else low = t;
                }
        return high.isEmpty() || low.isEmpty() ? Optional.empty() : Optional.of(new String[] {high, low});
    }
}
