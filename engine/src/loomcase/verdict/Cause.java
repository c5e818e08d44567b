package loomcase.verdict;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.meter.Subject;
import loomcase.model.PlaceId;

/**
 * One hypothesis of the posterior as far as a repair can act on it.
 *
 * @param id its id
 * @param words the fault in plain words
 * @param family kind of fault, a key such as {@code contact.backed-out}; empty where only the place is known
 * @param group kind of fault as a remedy sees it: {@code wire}, {@code contact}, {@code seat} …
 * @param places where it is with the share at each; two faults at once have shares that add up to 2
 * @param probability share of the whole posterior, 0 to 1
 * @param comesAndGoes true for an intermittent fault
 * @param faults how many faults must be cured at once, 1 or 2
 * @param wires ids of the wires hit, where the hypothesis names them
 * @param subject the hypothesis as a test sees it; empty for what no test can be predicted for
 */
record Cause(
        String id,
        String words,
        String family,
        String group,
        Map<PlaceId, Double> places,
        double probability,
        boolean comesAndGoes,
        int faults,
        List<String> wires,
        Optional<Subject> subject) {
    static final String OUTSIDE = "outside the model";

    Cause {
        wires = List.copyOf(wires);
    }

    /** The place to name; empty for what is outside the model. */
    Optional<PlaceId> place() {
        return places.keySet().stream().findFirst();
    }

    /** Share of the cause that a remedy works on; for two faults at once the least probability that it works on both. */
    double covered(Remedy remedy) {
        double share = remedy.covers().getOrDefault(id, 0.0);
        return faults == 1 ? Math.min(1, share) : Math.max(0, Math.min(1, share - 1));
    }

    /** Faults by the way in which they are mended. */
    static String group(String family, PlaceId.Kind kind) {
        if (family.equals("contact.backed-out")
                || family.equals("common.unplugged")
                || family.equals("common.half-latched")
                || family.equals("common.swapped-cavities")) return "seat";
        if (family.equals("common.wet-connector")) return "moisture";
        if (family.equals("contact.bridge")) return "corrosion";
        if (family.startsWith("contact.")) return "contact";
        if (family.startsWith("crimp.")) return "crimp";
        return switch (kind) {
            case CAVITY, CONNECTOR -> "contact";
            case WIRE, BRANCH -> "wire";
            case SPLICE -> "splice";
            case GROUND -> "ground";
            case FUSE -> "fuse";
            case DEVICE -> "device";
            case CONTROL_UNIT -> "control-unit";
            case ENGINE -> "none";
        };
    }

    /** What a fault of this family leaves behind along the loom, by itself: a key of {@code hidden.*}. */
    static String trace(String family) {
        if (family.startsWith("common.rub-point")) return "chafe";
        if (family.equals("common.hot-spot")) return "heat";
        if (family.equals("common.crushed-clip")) return "crush";
        if (family.equals("common.fluid-path")) return "fluid";
        if (family.equals("common.wet-connector") || family.equals("contact.bridge")) return "water";
        return "none";
    }
}
