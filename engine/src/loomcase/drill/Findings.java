package loomcase.drill;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import loomcase.journal.Finding;

/** What an eye sees of a fault, by its family. */
final class Findings {
    private static final Map<String, Finding> BY_FAMILY = table();

    private Findings() {}

    private static Map<String, Finding> table() {
        Map<String, Finding> t = new LinkedHashMap<>();
        t.put("wire.open", Finding.BROKEN_STRANDS);
        t.put("wire.resistive", Finding.GREEN_COPPER);
        t.put("wire", Finding.CHAFE);
        t.put("contact.backed-out", Finding.PUSHED_OUT_TERMINAL);
        t.put("contact.bridge", Finding.WATER_IN_PLUG);
        t.put("contact.resistive", Finding.GREEN_COPPER);
        t.put("contact", Finding.SPREAD_TERMINAL);
        t.put("crimp", Finding.BROKEN_STRANDS);
        t.put("splice", Finding.GREEN_COPPER);
        t.put("fuse", Finding.BLOWN_FUSE);
        t.put("ground", Finding.LOOSE_STUD);
        t.put("device", Finding.MELTED);
        t.put("control-unit", Finding.BURNT_TERMINAL);
        t.put("common.rub-point", Finding.CHAFE);
        t.put("common.hot-spot", Finding.MELTED);
        t.put("common.crushed-clip", Finding.PINCHED);
        t.put("common.fluid-path", Finding.OIL_IN_PLUG);
        t.put("common.unplugged", Finding.NOT_PLUGGED_IN);
        t.put("common.half-latched", Finding.LOOSE_LATCH);
        t.put("common.wet-connector", Finding.WATER_IN_PLUG);
        t.put("common.branch-cut", Finding.CUT);
        t.put("common.swapped-cavities", Finding.EARLIER_REPAIR);
        return Map.copyOf(t);
    }

    /** The finding for a fault; an old mark that has nothing to do with the complaint when there is none. */
    static Finding of(Optional<Planted> fault) {
        String key = fault.map(Planted::family).orElse("");
        while (true) {
            Finding f = BY_FAMILY.get(key);
            if (f != null) return f;
            int dot = key.lastIndexOf('.');
            if (dot < 0) return Finding.EARLIER_REPAIR;
            key = key.substring(0, dot);
        }
    }
}
