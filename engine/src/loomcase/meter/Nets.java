package loomcase.meter;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
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

/** Which points are one piece of copper in the healthy harness, and what hangs on each. */
final class Nets {
    private final Circuit circuit;
    private final Copper copper;
    private final Map<String, List<String>> cavities = new LinkedHashMap<>();
    private final Map<String, List<ControlUnit.Pin>> pins = new HashMap<>();
    private final Map<String, List<Device>> devices = new HashMap<>();
    private final Map<String, String> grounds = new HashMap<>();

    Nets(Circuit circuit) {
        this.circuit = circuit;
        this.copper = Copper.of(circuit);
        for (Joints.Ground g : circuit.grounds().values()) grounds.put(copper.net(g.id()), g.id());
        for (Wire w : circuit.wires().values())
            for (String end : List.of(w.from(), w.to())) if (isCavity(end)) add(cavities, copper.net(end), end);
        for (ControlUnit.Pin p : circuit.controlUnit().pins().values()) add(pins, copper.net(p.cavity()), p);
        for (Device d : circuit.devices().values()) d.terminals().values().forEach(t -> add(devices, copper.net(t), d));
    }

    private static <T> void add(Map<String, List<T>> map, String key, T value) {
        List<T> list = map.computeIfAbsent(key, k -> new ArrayList<>());
        if (!list.contains(value)) list.add(value);
    }

    /** The net of a point; the part side of a cavity counts as the same net. */
    String of(String point) {
        return copper.net(point.endsWith("~") ? point.substring(0, point.length() - 1) : point);
    }

    /** True for a cavity of a connector of the harness. */
    boolean isCavity(String point) {
        return circuit.connectors().containsKey(Names.connectorOf(point)) && point.contains("/");
    }

    /** Cavities with a wire on the net of a point, in file order. */
    List<String> cavities(String point) {
        return cavities.getOrDefault(of(point), List.of());
    }

    /** Control-unit pins on the net of a point. */
    List<ControlUnit.Pin> pins(String point) {
        return pins.getOrDefault(of(point), List.of());
    }

    /** Devices with a terminal on the net of a point. */
    List<Device> devices(String point) {
        return devices.getOrDefault(of(point), List.of());
    }

    boolean has(String point, Class<? extends ControlUnit.PinFunction> function) {
        return pins(point).stream().anyMatch(p -> function.isInstance(p.function()));
    }

    boolean isGround(String point) {
        return point.equals(Names.CHASSIS) || grounds.containsKey(of(point)) || has(point, ControlUnit.GroundPin.class);
    }

    boolean isFeed(String point) {
        return has(point, ControlUnit.Power.class)
                || devices(point).stream()
                        .anyMatch(d -> d.nature() instanceof Device.Battery
                                && of(d.terminals().get("positive")).equals(of(point)));
    }

    boolean isNetwork(String point) {
        return has(point, ControlUnit.Network.class);
    }

    /** Connectors that must be apart so that nothing but wire hangs on the net of a point. */
    List<String> connectors(String point) {
        return cavities(point).stream().map(Names::connectorOf).distinct().toList();
    }

    /** Cavities that can be reached from one end of a wire without passing it, in file order. */
    List<String> beyond(Wire wire, String end) {
        Set<String> seen = new HashSet<>(Set.of(end));
        ArrayDeque<String> open = new ArrayDeque<>(seen);
        while (!open.isEmpty()) {
            String here = open.remove();
            for (String next : copper.joinedTo(here))
                if (!wireBetween(wire, here, next) && seen.add(next)) open.add(next);
        }
        return cavities(end).stream().filter(seen::contains).toList();
    }

    private static boolean wireBetween(Wire w, String a, String b) {
        return w.from().equals(a) && w.to().equals(b) || w.from().equals(b) && w.to().equals(a);
    }

    /** The other half of an inline cavity, or the cavity itself. */
    String mate(String cavity) {
        Connector c = circuit.connectors().get(Names.connectorOf(cavity));
        return c != null && circuit.connectors().containsKey(c.mates())
                ? c.mates() + "/" + Names.cavityOf(cavity)
                : cavity;
    }
}
