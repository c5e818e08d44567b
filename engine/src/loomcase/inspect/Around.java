package loomcase.inspect;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.journal.Fact;
import loomcase.model.AccessStep;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Device;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.model.Zone;

/** A place and what of the circuit belongs to it: its points, its wires, what else lies in it. */
final class Around {
    /** More points than anyone reads at once; the control unit's own plugs are shown plug by plug. */
    private static final int MOST_POINTS = 80;

    private final Circuit circuit;
    private final Layout layout;
    private final PlaceId place;

    /**
     * @throws InputProblem when the circuit has no such place
     */
    Around(Circuit circuit, Layout layout, PlaceId place) {
        this.circuit = circuit;
        this.layout = layout;
        this.place = place;
        if (!known()) throw new InputProblem("place '" + place + "' is not in circuit " + circuit.id());
    }

    private boolean known() {
        String id = place.id();
        return switch (place.kind()) {
            case BRANCH -> circuit.branches().containsKey(id);
            case CONNECTOR -> circuit.connectors().containsKey(id);
            case CAVITY ->
                circuit.connectors().containsKey(Names.connectorOf(id))
                        && circuit.connectors().get(Names.connectorOf(id)).has(Names.cavityOf(id));
            case SPLICE -> circuit.splices().containsKey(id);
            case WIRE -> circuit.wires().containsKey(id);
            case DEVICE -> circuit.devices().containsKey(id);
            case CONTROL_UNIT -> circuit.controlUnit().id().equals(id);
            case GROUND -> circuit.grounds().containsKey(id);
            case FUSE -> circuit.fuses().containsKey(id);
            case ENGINE -> false;
        };
    }

    String label() {
        String id = place.id();
        return switch (place.kind()) {
            case BRANCH -> circuit.branches().get(id).label();
            case CONNECTOR -> circuit.connectors().get(id).label();
            case CAVITY ->
                "cavity of the "
                        + circuit.connectors().get(Names.connectorOf(id)).label();
            case SPLICE -> circuit.splices().get(id).label();
            case WIRE -> circuit.wires().get(id).circuit();
            case DEVICE -> circuit.devices().get(id).label();
            case CONTROL_UNIT -> circuit.controlUnit().label();
            case GROUND -> circuit.grounds().get(id).label();
            case FUSE -> circuit.fuses().get(id).label();
            case ENGINE -> "";
        };
    }

    /** What the circuit file says of it, in short sentences. */
    List<String> facts() {
        String id = place.id();
        return switch (place.kind()) {
            case BRANCH -> ofBranch(circuit.branches().get(id));
            case CONNECTOR -> ofPlug(circuit.connectors().get(id));
            case CAVITY -> ofPlug(circuit.connectors().get(Names.connectorOf(id)));
            case SPLICE ->
                List.of("in branch " + circuit.splices().get(id).branch() + ", "
                        + metres(circuit.splices().get(id).metresAlong()) + " from junction "
                        + circuit.branches()
                                .get(circuit.splices().get(id).branch())
                                .from());
            case WIRE ->
                List.of(
                        wire(circuit.wires().get(id)),
                        "from " + circuit.wires().get(id).from() + " to "
                                + circuit.wires().get(id).to() + ", "
                                + metres(layout.metres(circuit.wires().get(id))));
            case DEVICE -> List.of(circuit.devices().get(id).nature().word().replace('-', ' '));
            case CONTROL_UNIT ->
                List.of(
                        "J1939 address " + circuit.controlUnit().address(),
                        "plugs " + String.join(", ", circuit.controlUnit().connectors())
                                + "; point at a plug for its cavities");
            case GROUND ->
                List.of("hangs at junction " + circuit.grounds().get(id).at());
            case FUSE ->
                List.of(String.format(
                        Locale.ROOT, "%.4g A", circuit.fuses().get(id).amperes()));
            case ENGINE -> List.of();
        };
    }

    private List<String> ofBranch(Branch b) {
        List<String> out = new ArrayList<>();
        out.add("from junction " + b.from() + " to " + b.to() + ", " + metres(b.metres()) + ", " + b.clips()
                + " clips");
        out.add(surroundings(b.zone()));
        b.rubPoints()
                .forEach(r -> out.add("rub point " + r.id() + " at " + metres(r.metresAlong()) + ": " + r.label()));
        return out;
    }

    private static List<String> ofPlug(Connector c) {
        return List.of(
                "plugs onto " + c.mates() + ", hangs at junction " + c.at(),
                "terminals " + c.terminal() + ", " + (c.sealed() ? "sealed" : "not sealed"),
                surroundings(c.zone()));
    }

    private static String surroundings(Zone z) {
        return String.format(
                Locale.ROOT,
                "zone %s: up to %.0f °C, vibration %s, %s",
                z.id(),
                z.celsius(),
                z.vibration().toString().toLowerCase(Locale.ROOT),
                z.fluid().toString().toLowerCase(Locale.ROOT).replace('_', ' '));
    }

    private static String metres(double metres) {
        return String.format(Locale.ROOT, "%.2f m", metres);
    }

    private static String wire(Wire w) {
        return w.size().name()
                + (w.colour().isEmpty() ? "" : ", " + w.colour())
                + (w.insulation().isEmpty() ? "" : ", " + w.insulation());
    }

    /** The points that a meter can reach here. */
    List<String> points() {
        String id = place.id();
        List<String> out =
                switch (place.kind()) {
                    case CONNECTOR -> cavities(circuit.connectors().get(id));
                    case CAVITY, SPLICE, GROUND -> List.of(id);
                    case FUSE -> List.of(id + "/in", id + "/out");
                    case WIRE ->
                        List.of(
                                circuit.wires().get(id).from(),
                                circuit.wires().get(id).to());
                    case DEVICE ->
                        circuit.devices().get(id).terminals().values().stream()
                                .distinct()
                                .toList();
                    case BRANCH ->
                        layout.in(id).stream().map(Wire::from).distinct().toList();
                    case CONTROL_UNIT, ENGINE -> List.of();
                };
        return out.subList(0, Math.min(MOST_POINTS, out.size()));
    }

    private static List<String> cavities(Connector c) {
        return c.rows().stream()
                .flatMap(List::stream)
                .map(cavity -> c.id() + "/" + cavity)
                .toList();
    }

    /** The control unit's signal name or the device's terminal role at a point. */
    String roleOf(String point) {
        ControlUnit.Pin pin = circuit.controlUnit().pins().get(point);
        if (pin != null) return pin.label();
        for (Device d : circuit.devices().values())
            for (var t : d.terminals().entrySet()) if (t.getValue().equals(point)) return d.id() + " " + t.getKey();
        return "";
    }

    /** Wires that end at a point; of a branch, those that run in it from there. */
    List<Wire> wiresAt(String point) {
        return circuit.wires().values().stream()
                .filter(w -> w.from().equals(point) || w.to().equals(point))
                .filter(w -> place.kind() != PlaceId.Kind.BRANCH
                        || layout.in(place.id()).contains(w))
                .toList();
    }

    private List<Wire> wires() {
        if (place.kind() == PlaceId.Kind.WIRE) return List.of(circuit.wires().get(place.id()));
        Set<Wire> out = new LinkedHashSet<>();
        points().forEach(p -> out.addAll(wiresAt(p)));
        return List.copyOf(out);
    }

    /** Points at both ends of every wire here, followed through splices to the next cavities. */
    Set<String> ends() {
        Set<String> out = new LinkedHashSet<>(points());
        List<String> open = new ArrayList<>();
        for (Wire w : wires()) open.addAll(List.of(w.from(), w.to()));
        while (!open.isEmpty()) {
            String p = open.remove(open.size() - 1);
            if (!out.add(p) && !circuit.splices().containsKey(p)) continue;
            if (!circuit.splices().containsKey(p)) continue;
            for (Wire w : circuit.wires().values())
                if (w.from().equals(p) || w.to().equals(p)) {
                    String other = w.from().equals(p) ? w.to() : w.from();
                    if (!out.contains(other)) open.add(other);
                }
        }
        return out;
    }

    /** Whether this is the device, or its plug. */
    boolean isDevice(String device) {
        if (device.isEmpty()) return false;
        if (place.id().equals(device)) return true;
        Connector c = circuit.connectors().get(Names.connectorOf(place.id()));
        return c != null && c.mates().equals(device);
    }

    /** Whether a place lies in this one: itself, a cavity of the plug, a splice or wire of the branch. */
    boolean covers(PlaceId other) {
        if (other.equals(place)) return true;
        return switch (place.kind()) {
            case CONNECTOR ->
                other.kind() == PlaceId.Kind.CAVITY
                        && Names.connectorOf(other.id()).equals(place.id());
            case BRANCH ->
                other.kind() == PlaceId.Kind.WIRE
                                && layout.runs(other.id()).stream()
                                        .anyMatch(r -> r.branch().equals(place.id()))
                        || other.kind() == PlaceId.Kind.SPLICE
                                && circuit.splices().get(other.id()).branch().equals(place.id());
            default -> false;
        };
    }

    /** Whether a point or id of a test or reading belongs here. */
    boolean covers(String pointOrId) {
        String point = pointOrId.endsWith("~") ? pointOrId.substring(0, pointOrId.length() - 1) : pointOrId;
        return point.equals(place.id())
                || place.kind() != PlaceId.Kind.BRANCH && points().contains(point)
                || place.kind() == PlaceId.Kind.BRANCH
                        && circuit.splices().containsKey(point)
                        && circuit.splices().get(point).branch().equals(place.id());
    }

    /** Whether a line of a case speaks of this place. */
    boolean isIn(Fact fact) {
        if (fact instanceof Fact.Reading r) return covers(r.a()) || covers(r.b());
        if (fact instanceof Fact.Watched w) return w.setup().unplugged().contains(place.id());
        if (fact instanceof Fact.Moved m) return covers(m.spot().place());
        if (fact instanceof Fact.Seen s) return covers(s.spot().place());
        if (fact instanceof Fact.Swapped s)
            return covers(s.part().place()) || covers(s.with().place());
        if (fact instanceof Fact.Gauged g) return covers(g.part().place());
        if (fact instanceof Fact.Work w)
            return w.spot().isPresent() && covers(w.spot().get().place());
        return false;
    }

    /** Access steps needed to reach it, those needed first in front. */
    List<AccessStep> access() {
        Set<String> out = new LinkedHashSet<>();
        own().forEach(s -> need(s, out));
        return out.stream().map(circuit.access()::get).toList();
    }

    private List<String> own() {
        String id = place.id();
        return switch (place.kind()) {
            case BRANCH -> circuit.branches().get(id).access();
            case CONNECTOR, CAVITY ->
                circuit.connectors().get(Names.connectorOf(id)).access();
            case SPLICE ->
                circuit.branches().get(circuit.splices().get(id).branch()).access();
            case GROUND -> circuit.grounds().get(id).access();
            case FUSE -> circuit.fuses().get(id).access();
            case DEVICE ->
                circuit.devices().get(id).terminals().values().stream()
                        .flatMap(t -> circuit.connectors().get(Names.connectorOf(t)).access().stream())
                        .toList();
            case WIRE, CONTROL_UNIT, ENGINE -> List.of();
        };
    }

    private void need(String step, Set<String> out) {
        circuit.access().get(step).needs().forEach(n -> need(n, out));
        out.add(step);
    }
}
