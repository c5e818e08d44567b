package loomcase.casework;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.Wire;
import loomcase.rank.Ranking;

/**
 * Which wires a suspect concerns: those that its faults break, bridge, or feed something dead or drifted; a rub point the wires
 * it has rubbed through, a plug that is off all of its own.
 */
final class Concerned {
    private final Circuit circuit;

    Concerned(Circuit circuit) {
        this.circuit = circuit;
    }

    /** Ids of wires with the summed probability of the suspect's faults that touch each, most probable fault first. */
    Map<String, Double> by(Ranking.Suspect suspect) {
        Map<String, Double> out = new LinkedHashMap<>();
        for (Ranking.Member m : suspect.members()) {
            Set<String> touched = new LinkedHashSet<>();
            for (Edit e : m.edits()) touched.addAll(touched(e));
            touched.forEach(w -> out.merge(w, m.probability(), Double::sum));
        }
        return out;
    }

    private Set<String> touched(Edit edit) {
        if (edit instanceof Edit.Series s) return element(s.element());
        if (edit instanceof Edit.Bridge b) return ends(b.pointA(), b.pointB());
        if (edit instanceof Edit.Source s) return ends(s.pointA(), s.pointB());
        if (edit instanceof Edit.Value v) return device(v.device());
        if (edit instanceof Edit.Dead d) return device(d.what());
        throw new IllegalStateException("unknown edit " + edit);
    }

    private Set<String> element(String element) {
        int colon = element.indexOf(':');
        String kind = element.substring(0, colon);
        String rest = element.substring(colon + 1);
        return switch (kind) {
            case "wire" -> circuit.wires().containsKey(rest) ? Set.of(rest) : Set.of();
            case "leg" -> Set.of(Names.cavityOf(rest));
            case "device" -> device(Names.connectorOf(rest));
            default -> ends(rest);
        };
    }

    /** Wires that end at a point, on either side of a contact, in a fuse or at a splice. */
    private Set<String> ends(String... points) {
        Set<String> out = new LinkedHashSet<>();
        for (String p : points) {
            String bare = bare(p);
            if (circuit.wires().containsKey(bare)) out.add(bare);
            boolean fuse = circuit.fuses().containsKey(bare);
            for (Wire w : circuit.wires().values())
                if (w.from().equals(bare) || w.to().equals(bare) || fuse && w.endsIn(bare)) out.add(w.id());
        }
        return out;
    }

    /** A point without the mark of one side of a contact or fuse. */
    private static String bare(String point) {
        if (point.endsWith("~")) return point.substring(0, point.length() - 1);
        return point.endsWith("@a") || point.endsWith("@b") ? point.substring(0, point.length() - 2) : point;
    }

    private Set<String> device(String id) {
        Set<String> out = new LinkedHashSet<>();
        for (Connector c : circuit.connectors().values())
            if (c.mates().equals(id) && circuit.devices().containsKey(id))
                for (Wire w : circuit.wires().values()) if (w.endsIn(c.id())) out.add(w.id());
        return out;
    }
}
