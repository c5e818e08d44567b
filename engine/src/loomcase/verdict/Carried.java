package loomcase.verdict;

import java.util.ArrayDeque;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import loomcase.model.Circuit;
import loomcase.model.ControlUnit;
import loomcase.model.Copper;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.Names;
import loomcase.model.Watch;
import loomcase.model.Wire;

/** What a wire is part of: the current it may be asked for, its fuse, the kinds of circuit, boosted voltage. */
final class Carried {
    /** Amperes taken for a signal, pulled up or down by kilohms. */
    private static final double SIGNAL_AMPERES = 0.02;

    private final Circuit circuit;
    private final Copper copper;
    private final Set<String> boosted;

    /**
     * Most current and where the figure comes from.
     *
     * @param fused a fuse stands upstream
     */
    record Load(double amperes, String basis, boolean fused) {}

    Carried(Circuit circuit) {
        this.circuit = circuit;
        this.copper = Copper.of(circuit);
        this.boosted = copper.netsWith(circuit, "boosted");
    }

    /** The most that a wire can be asked to carry for long: its fuse, else its driver's or rail's limit, else a signal. */
    Load load(Wire wire) {
        Set<String> points = reach(wire.from());
        Optional<Joints.Fuse> fuse = circuit.fuses().values().stream()
                .filter(f -> points.contains(f.id() + "/out"))
                .findFirst();
        double limit = 0;
        String basis = "";
        for (String p : points) {
            ControlUnit.Pin pin = circuit.controlUnit().pins().get(p);
            if (pin == null) continue;
            double here = limit(pin.function());
            if (here > limit) {
                limit = here;
                basis = "limit of pin " + p;
            }
        }
        boolean ground = points.stream().anyMatch(circuit.grounds()::containsKey);
        if (fuse.isPresent() && (limit == 0 || fuse.get().amperes() <= limit))
            return new Load(fuse.get().amperes(), "rating of fuse " + fuse.get().id(), true);
        if (limit > 0) return new Load(limit, basis, fuse.isPresent() || limited(points));
        if (ground) return new Load(groundAmperes(), "largest fuse of the unit's feeds, taken for a ground", true);
        return new Load(SIGNAL_AMPERES, "a signal (judgement)", limited(points));
    }

    /** A wire that ends at a control-unit pin with a limited or resistive input needs no fuse. */
    private boolean limited(Set<String> points) {
        return points.stream().anyMatch(circuit.controlUnit().pins()::containsKey);
    }

    private double groundAmperes() {
        return circuit.fuses().values().stream()
                .filter(f -> reach(f.id() + "/out").stream()
                        .map(circuit.controlUnit().pins()::get)
                        .anyMatch(p -> p != null && p.function() instanceof ControlUnit.Power))
                .mapToDouble(Joints.Fuse::amperes)
                .max()
                .orElse(10);
    }

    private double limit(ControlUnit.PinFunction f) {
        if (f instanceof ControlUnit.LowSide l) return l.limitAmperes();
        if (f instanceof ControlUnit.HighSide h) return h.limitAmperes();
        if (f instanceof ControlUnit.Supply s)
            return circuit.controlUnit().rails().get(s.rail()).limitAmperes();
        return 0;
    }

    /** Points on one piece of copper without passing a fuse, and through the closed contact of a relay. */
    private Set<String> reach(String from) {
        Set<String> seen = new HashSet<>(Set.of(from));
        ArrayDeque<String> open = new ArrayDeque<>(seen);
        while (!open.isEmpty()) {
            String here = open.remove();
            String owner = Names.connectorOf(here);
            boolean fuse = circuit.fuses().containsKey(owner);
            for (String next : copper.joinedTo(here))
                if (!(fuse && Names.connectorOf(next).equals(owner)) && seen.add(next)) open.add(next);
            for (Device d : circuit.devices().values())
                if (d.nature() instanceof Device.Relay) {
                    String a = d.terminals().get("contactA");
                    String b = d.terminals().get("contactB");
                    String other = here.equals(a) ? b : here.equals(b) ? a : "";
                    if (other != null && !other.isEmpty() && seen.add(other)) open.add(other);
                }
        }
        return seen;
    }

    /** Kinds of circuit that a wire is part of, as the rules name them, sorted. */
    List<String> kinds(Wire wire) {
        String net = copper.net(wire.from());
        Set<String> out = new TreeSet<>();
        for (Watch w : circuit.watches())
            if (w.measure().pins().stream().anyMatch(p -> copper.net(p).equals(net))) out.add(w.circuitKind());
        for (Map.Entry<String, ControlUnit.Pin> p : circuit.controlUnit().pins().entrySet()) {
            if (!copper.net(p.getKey()).equals(net)) continue;
            if (p.getValue().function() instanceof ControlUnit.Supply) out.add("supply");
            if (p.getValue().function() instanceof ControlUnit.Power) out.add("power");
            if (p.getValue().function() instanceof ControlUnit.Network) out.add("network");
        }
        return List.copyOf(out);
    }

    /** Whether the wire reaches a device that is driven with a boosted voltage. */
    boolean boosted(Wire wire) {
        return boosted.contains(copper.net(wire.from()));
    }
}
