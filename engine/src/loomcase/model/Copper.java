package loomcase.model;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Which points are one piece of copper in a healthy harness: joined by wires, splices, fuses and inline contacts.
 *
 * @param nets the net of every joined point, named by one of its points
 * @param joined points joined to a point directly, in file order; a point joined twice stands there twice
 */
public record Copper(Map<String, String> nets, Map<String, List<String>> joined) {
    public Copper {
        nets = Map.copyOf(nets);
        joined = Map.copyOf(joined);
    }

    /** The copper of a circuit, by union–find; cost near linear in wires and contacts. */
    public static Copper of(Circuit circuit) {
        Map<String, String> parent = new HashMap<>();
        Map<String, List<String>> joined = new HashMap<>();
        for (Wire w : circuit.wires().values()) join(w.from(), w.to(), parent, joined);
        for (Joints.Fuse f : circuit.fuses().values()) join(f.id() + "/in", f.id() + "/out", parent, joined);
        for (Connector c : circuit.connectors().values()) {
            if (!circuit.connectors().containsKey(c.mates())) continue;
            for (List<String> row : c.rows())
                for (String cavity : row) join(c.id() + "/" + cavity, c.mates() + "/" + cavity, parent, joined);
        }
        Map<String, String> nets = new HashMap<>();
        joined.keySet().forEach(point -> nets.put(point, root(point, parent)));
        joined.replaceAll((point, others) -> List.copyOf(others));
        return new Copper(nets, joined);
    }

    private static void join(String a, String b, Map<String, String> parent, Map<String, List<String>> joined) {
        joined.computeIfAbsent(a, k -> new ArrayList<>()).add(b);
        joined.computeIfAbsent(b, k -> new ArrayList<>()).add(a);
        parent.put(root(a, parent), root(b, parent));
    }

    private static String root(String point, Map<String, String> parent) {
        String up = parent.getOrDefault(point, point);
        if (up.equals(point)) return point;
        String top = root(up, parent);
        parent.put(point, top);
        return top;
    }

    /** The net of a point; a point that nothing joins is a net by itself. */
    public String net(String point) {
        return nets.getOrDefault(point, point);
    }

    /**
     * Nets on which a device with this hazard is.
     *
     * @param hazard a word of the circuit file, see {@link Device}
     */
    public Set<String> netsWith(Circuit circuit, String hazard) {
        return circuit.devices().values().stream()
                .filter(d -> d.hazards().contains(hazard))
                .flatMap(d -> d.terminals().values().stream())
                .map(this::net)
                .collect(Collectors.toSet());
    }

    /** Points joined to a point directly. */
    public List<String> joinedTo(String point) {
        return joined.getOrDefault(point, List.of());
    }
}
