package loomcase.meter;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.model.Finding;
import loomcase.model.PlaceId;

/** What an eye sees of a fault, by its family, the most usual first; common practice, no source. */
public final class TypicalFindings {
    private static final Map<String, List<Finding>> BY_FAMILY = table();

    /** Marks of old that have nothing to do with the complaint. */
    private static final List<Finding> OLD_MARKS_ON_WIRES =
            List.of(Finding.CHAFE, Finding.EARLIER_REPAIR, Finding.MISSING_CLIP);

    private static final List<Finding> OLD_MARKS_IN_PLUGS =
            List.of(Finding.SPREAD_TERMINAL, Finding.EARLIER_REPAIR, Finding.MISSING_SEAL);

    private TypicalFindings() {}

    private static Map<String, List<Finding>> table() {
        Map<String, List<Finding>> t = new LinkedHashMap<>();
        t.put("wire", List.of(Finding.CHAFE, Finding.PINCHED, Finding.MELTED));
        t.put("wire.open", List.of(Finding.BROKEN_STRANDS, Finding.CUT, Finding.CHAFE));
        t.put("wire.resistive", List.of(Finding.GREEN_COPPER, Finding.BROKEN_STRANDS));
        t.put("contact", List.of(Finding.SPREAD_TERMINAL, Finding.BENT_PIN, Finding.BURNT_TERMINAL));
        t.put("contact.backed-out", List.of(Finding.PUSHED_OUT_TERMINAL));
        t.put("contact.bridge", List.of(Finding.WATER_IN_PLUG, Finding.GREEN_COPPER, Finding.BENT_PIN));
        t.put("contact.resistive", List.of(Finding.GREEN_COPPER, Finding.BURNT_TERMINAL, Finding.SPREAD_TERMINAL));
        t.put("contact.fretted", List.of(Finding.SPREAD_TERMINAL, Finding.GREEN_COPPER));
        t.put("crimp", List.of(Finding.BROKEN_STRANDS, Finding.GREEN_COPPER));
        t.put("splice", List.of(Finding.GREEN_COPPER, Finding.MELTED));
        t.put("fuse", List.of(Finding.BLOWN_FUSE));
        t.put("ground", List.of(Finding.LOOSE_STUD, Finding.GREEN_COPPER));
        t.put("device", List.of(Finding.MELTED));
        t.put("control-unit", List.of(Finding.BURNT_TERMINAL));
        t.put("common.rub-point", List.of(Finding.CHAFE, Finding.BROKEN_STRANDS));
        t.put("common.hot-spot", List.of(Finding.MELTED));
        t.put("common.crushed-clip", List.of(Finding.PINCHED, Finding.MISSING_CLIP));
        t.put("common.fluid-path", List.of(Finding.OIL_IN_PLUG, Finding.COOLANT_IN_PLUG, Finding.WATER_IN_PLUG));
        t.put("common.unplugged", List.of(Finding.NOT_PLUGGED_IN));
        t.put("common.half-latched", List.of(Finding.LOOSE_LATCH, Finding.NOT_PLUGGED_IN));
        t.put("common.wet-connector", List.of(Finding.WATER_IN_PLUG, Finding.COOLANT_IN_PLUG, Finding.OIL_IN_PLUG));
        t.put("common.branch-cut", List.of(Finding.CUT));
        t.put("common.swapped-cavities", List.of(Finding.EARLIER_REPAIR));
        return Map.copyOf(t);
    }

    /** What is usually seen of a fault, the most usual first; empty where nothing is. */
    public static List<Finding> of(String family) {
        String key = family;
        while (true) {
            List<Finding> found = BY_FAMILY.get(key);
            if (found != null) return found;
            int dot = key.lastIndexOf('.');
            if (dot < 0) return List.of();
            key = key.substring(0, dot);
        }
    }

    /** What somebody may take for the fault at a place where none is to be seen. */
    public static List<Finding> oldMarks(PlaceId place) {
        return switch (place.kind()) {
            case WIRE, BRANCH, SPLICE -> OLD_MARKS_ON_WIRES;
            default -> OLD_MARKS_IN_PLUGS;
        };
    }
}
