package loomcase.draw;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.draw.Loom.Leaf;
import loomcase.draw.Loom.Part;
import loomcase.draw.Loom.Shape;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.PlaceId;

/** What hangs on a junction: plugs with what they plug into, fuses, grounds; each is given out once. */
final class LeafBuilder {
    private final Circuit circuit;
    private final Suspicion suspicion;
    private final Set<String> used = new HashSet<>();
    private final Map<String, List<Leaf>> extra = new LinkedHashMap<>();

    LeafBuilder(Circuit circuit, Suspicion suspicion) {
        this.circuit = circuit;
        this.suspicion = suspicion;
    }

    /** Hangs a further part, such as a short wire, on a junction. */
    void add(String junction, Part part) {
        extra.computeIfAbsent(junction, k -> new ArrayList<>()).add(new Leaf(List.of(part), part.label()));
    }

    /** Plugs of the control unit at the root junction, each with its suspected cavities; taken out of the leaves. */
    List<List<Part>> unitPlugs(String root) {
        List<List<Part>> out = new ArrayList<>();
        for (Connector c : circuit.connectors().values())
            if (c.at().equals(root) && c.mates().equals(circuit.controlUnit().id())) {
                used.add(c.id());
                out.add(plug(c));
            }
        for (Device d : circuit.devices().values())
            if (circuit.connectors().values().stream().noneMatch(c -> c.mates().equals(d.id())))
                extra.computeIfAbsent(root, k -> new ArrayList<>())
                        .add(new Leaf(List.of(device(d)), d.label() + ", on no plug"));
        for (Joints.Splice s : circuit.splices().values())
            if (!circuit.branches().containsKey(s.branch()))
                add(root, Part.of(PlaceId.Kind.SPLICE, Shape.SPLICE, s.id(), s.label()));
        return out;
    }

    /** Rows of a junction: plugs, fuses, grounds, then anything added. */
    List<Leaf> at(String junction) {
        List<Leaf> out = new ArrayList<>();
        for (Connector c : circuit.connectors().values())
            if (c.at().equals(junction) && used.add(c.id())) out.add(row(c));
        for (Joints.Fuse f : circuit.fuses().values())
            if (f.at().equals(junction))
                out.add(new Leaf(List.of(Part.of(PlaceId.Kind.FUSE, Shape.FUSE, f.id(), f.label())), f.label()));
        for (Joints.Ground g : circuit.grounds().values())
            if (g.at().equals(junction))
                out.add(new Leaf(List.of(Part.of(PlaceId.Kind.GROUND, Shape.GROUND, g.id(), g.label())), g.label()));
        out.addAll(extra.getOrDefault(junction, List.of()));
        return out;
    }

    /** Words for a true engine condition. */
    String conditionLabel(String id) {
        for (Device d : circuit.devices().values())
            for (Device.Condition c : d.conditions()) if (c.id().equals(id)) return c.label();
        return id.equals("none") ? "nothing wrong now" : id;
    }

    private Leaf row(Connector c) {
        List<Part> parts = new ArrayList<>(plug(c));
        Device device = circuit.devices().get(c.mates());
        if (device != null) {
            if (!used.add("device " + device.id())) return new Leaf(parts, c.label() + ", also into " + device.id());
            for (Connector more : circuit.connectors().values())
                if (more.mates().equals(c.mates()) && more.at().equals(c.at()) && used.add(more.id()))
                    parts.addAll(plug(more));
            parts.add(device(device));
            return new Leaf(parts, device.label());
        }
        Connector other = circuit.connectors().get(c.mates());
        if (other != null && other.at().equals(c.at()) && used.add(other.id())) {
            parts.addAll(plug(other));
            return new Leaf(parts, common(c.label(), other.label()));
        }
        return new Leaf(parts, c.label() + (c.mates().isEmpty() ? "" : ", into " + c.mates()));
    }

    /** The words that two halves of one plug share, when they share a beginning. */
    static String common(String a, String b) {
        int i = 0;
        while (i < Math.min(a.length(), b.length()) && a.charAt(i) == b.charAt(i)) i++;
        boolean whole = i == a.length() || i == b.length();
        int cut = whole ? i : a.substring(0, i).lastIndexOf(' ');
        String shared = cut < 1 ? "" : a.substring(0, cut).replaceAll("[ ,;:–-]+$", "");
        return shared.length() < 4 ? a : shared;
    }

    private Part device(Device d) {
        return Part.of(PlaceId.Kind.DEVICE, Shape.DEVICE, d.id(), d.label());
    }

    private List<Part> plug(Connector c) {
        List<Part> out = new ArrayList<>();
        out.add(Part.of(PlaceId.Kind.CONNECTOR, Shape.PLUG, c.id(), c.label()));
        List<PlaceId> cavities = new ArrayList<>();
        for (List<String> line : c.rows())
            for (String cavity : line) {
                PlaceId p = new PlaceId(PlaceId.Kind.CAVITY, c.id() + "/" + cavity);
                if (suspicion.shows(p)) cavities.add(p);
            }
        cavities.sort(Comparator.comparingDouble((PlaceId p) -> -suspicion.of(p)));
        for (PlaceId p : cavities)
            out.add(new Part(
                    java.util.Optional.of(p),
                    Shape.CELL,
                    p.id().substring(c.id().length()),
                    "cavity " + p.id() + " of " + c.label()));
        return out;
    }
}
