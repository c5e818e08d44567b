package loomcase.inspect;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Watch;
import loomcase.model.Wire;

/**
 * Follows wires from a point to others, through splices, fuses and plugs between two halves of the loom, never through a
 * device or the control unit. Shortest chains are taken, so a chain is the path that the current of that code takes.
 */
final class Chains {
    /** A chain with its heading. */
    record Chain(String title, List<Stop> stops) {}

    /**
     * One stop.
     *
     * @param place what it is
     * @param point where a meter reaches it, empty for a wire or device as such
     * @param words what it is called
     */
    record Stop(PlaceId place, String point, String words) {}

    /** One step of the search. */
    private record Step(String from, Optional<Wire> by) {}

    private final Circuit circuit;
    private final Map<String, List<Wire>> at = new HashMap<>();

    Chains(Circuit circuit) {
        this.circuit = circuit;
        for (Wire w : circuit.wires().values()) {
            at.computeIfAbsent(w.from(), k -> new ArrayList<>()).add(w);
            at.computeIfAbsent(w.to(), k -> new ArrayList<>()).add(w);
        }
    }

    /** The chains of a code: its signal first, then the device's other terminals, then the control unit's own ground. */
    List<Chain> of(Watch watch) {
        List<Chain> out = new ArrayList<>();
        if (circuit.devices().containsKey(watch.device()))
            ofDevice(circuit.devices().get(watch.device()), watch, out);
        else for (String pin : watch.measure().pins()) ofPin(pin, out);
        ground(out);
        return out;
    }

    private void ofDevice(Device device, Watch watch, List<Chain> out) {
        List<Chain> rest = new ArrayList<>();
        device.terminals().forEach((role, terminal) -> {
            List<Stop> stops = toUnit(terminal);
            if (stops.isEmpty()) stops = toFeed(terminal);
            if (stops.isEmpty()) return;
            stops.add(new Stop(device.place(), Names.mating(terminal), device.label() + ", " + words(role)));
            boolean measured =
                    stops.stream().anyMatch(s -> watch.measure().pins().contains(s.point()));
            (measured ? out : rest).add(new Chain(words(role), stops));
        });
        out.addAll(rest);
    }

    private static String words(String role) {
        return role.replaceAll("([A-Z])", " $1").toLowerCase(java.util.Locale.ROOT);
    }

    /** From a pin to every device, ground and other pin that its net reaches. */
    private void ofPin(String pin, List<Chain> out) {
        Map<String, Step> seen = search(pin);
        for (String p : seen.keySet()) {
            if (p.equals(pin)) continue;
            Connector c = circuit.connectors().get(Names.connectorOf(p));
            boolean device = c != null && circuit.devices().containsKey(c.mates());
            if (!device && !circuit.grounds().containsKey(p)) continue;
            List<Stop> stops = stops(path(seen, p));
            if (device) {
                Device d = circuit.devices().get(c.mates());
                stops.add(new Stop(d.place(), Names.mating(p), d.label()));
            }
            out.add(new Chain("to " + (device ? circuit.devices().get(c.mates()).label() : "ground " + p), stops));
        }
    }

    private void ground(List<Chain> out) {
        for (ControlUnit.Pin pin : circuit.controlUnit().pins().values()) {
            if (!(pin.function() instanceof ControlUnit.GroundPin)) continue;
            Map<String, Step> seen = search(pin.cavity());
            seen.keySet().stream()
                    .filter(circuit.grounds()::containsKey)
                    .findFirst()
                    .ifPresent(g -> out.add(new Chain("control unit ground", stops(path(seen, g)))));
        }
    }

    /** From the nearest control-unit pin to a terminal; empty when its net reaches none. */
    private List<Stop> toUnit(String terminal) {
        Map<String, Step> seen = search(terminal);
        Optional<String> pin = seen.keySet().stream()
                .filter(circuit.controlUnit().pins()::containsKey)
                .findFirst();
        return pin.map(p -> stops(reversed(path(seen, p)))).orElseGet(ArrayList::new);
    }

    /** From a ground stud or the battery to a terminal. */
    private List<Stop> toFeed(String terminal) {
        Map<String, Step> seen = search(terminal);
        Optional<String> end = seen.keySet().stream()
                .filter(p -> circuit.grounds().containsKey(p) || circuit.isAtBattery(p))
                .findFirst();
        return end.map(p -> stops(reversed(path(seen, p)))).orElseGet(ArrayList::new);
    }

    /** Every point that a start is joined to, nearest first, with the step that led there. */
    private Map<String, Step> search(String start) {
        Map<String, Step> seen = new LinkedHashMap<>();
        seen.put(start, new Step("", Optional.empty()));
        ArrayDeque<String> open = new ArrayDeque<>(List.of(start));
        while (!open.isEmpty()) {
            String p = open.remove();
            for (Wire w : at.getOrDefault(p, List.of())) {
                String other = w.from().equals(p) ? w.to() : w.from();
                if (seen.putIfAbsent(other, new Step(p, Optional.of(w))) == null) open.add(other);
            }
            across(p).ifPresent(other -> {
                if (seen.putIfAbsent(other, new Step(p, Optional.empty())) == null) open.add(other);
            });
        }
        return seen;
    }

    /** The far side of a fuse, or of a plug whose mate is another plug of the loom. */
    private Optional<String> across(String point) {
        String owner = Names.connectorOf(point);
        if (circuit.fuses().containsKey(owner)) return Optional.of(owner + (point.endsWith("/in") ? "/out" : "/in"));
        Connector c = circuit.connectors().get(owner);
        if (c == null || !circuit.connectors().containsKey(c.mates())) return Optional.empty();
        String cavity = Names.cavityOf(point);
        return circuit.connectors().get(c.mates()).has(cavity)
                ? Optional.of(c.mates() + "/" + cavity)
                : Optional.empty();
    }

    /** Points and the wires between them, from the start of the search to a point. */
    private static List<Object> path(Map<String, Step> seen, String to) {
        List<Object> out = new ArrayList<>();
        for (String p = to; !p.isEmpty(); p = seen.get(p).from()) {
            out.add(0, p);
            seen.get(p).by().ifPresent(w -> out.add(0, w));
        }
        return out;
    }

    private static List<Object> reversed(List<Object> path) {
        List<Object> out = new ArrayList<>(path);
        java.util.Collections.reverse(out);
        return out;
    }

    private List<Stop> stops(List<Object> path) {
        List<Stop> out = new ArrayList<>();
        for (Object each : path) {
            if (each instanceof Wire w)
                out.add(new Stop(
                        new PlaceId(PlaceId.Kind.WIRE, w.id()),
                        "",
                        w.circuit() + ", " + w.size().name() + (w.colour().isEmpty() ? "" : ", " + w.colour())));
            else out.add(point((String) each));
        }
        return out;
    }

    private Stop point(String p) {
        String owner = Names.connectorOf(p);
        if (circuit.splices().containsKey(p))
            return new Stop(
                    new PlaceId(PlaceId.Kind.SPLICE, p),
                    p,
                    circuit.splices().get(p).label());
        if (circuit.grounds().containsKey(p))
            return new Stop(
                    new PlaceId(PlaceId.Kind.GROUND, p),
                    p,
                    circuit.grounds().get(p).label());
        if (circuit.fuses().containsKey(owner))
            return new Stop(
                    new PlaceId(PlaceId.Kind.FUSE, owner),
                    p,
                    circuit.fuses().get(owner).label());
        ControlUnit.Pin pin = circuit.controlUnit().pins().get(p);
        String label = circuit.connectors().get(owner).label();
        return new Stop(new PlaceId(PlaceId.Kind.CAVITY, p), p, pin == null ? label : label + ", " + pin.label());
    }
}
