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
 * @param families kind of fault, a key such as {@code contact.backed-out}, two for two faults at once; empty where only the
 *     place is known
 * @param group kind of fault as a remedy sees it: {@code wire}, {@code contact}, {@code seat} …
 * @param places where it is with the share at each; two faults at once have shares that add up to 2
 * @param probability share of the whole posterior, 0 to 1; 0 for what is only half of two faults at once
 * @param comesAndGoes true for an intermittent fault
 * @param halves of two faults at once, for each the ids of the causes that it may be with the share of each, adding up to
 *     1; empty for a single fault
 * @param wires ids of the wires hit, where the hypothesis names them
 * @param subject the hypothesis as a test sees it; empty for what no test can be predicted for
 */
record Cause(
        String id,
        String words,
        List<String> families,
        String group,
        Map<PlaceId, Double> places,
        double probability,
        boolean comesAndGoes,
        List<Map<String, Double>> halves,
        List<String> wires,
        Optional<Subject> subject) {
    static final String OUTSIDE = "outside the model";

    Cause {
        families = List.copyOf(families);
        halves = halves.stream().map(Map::copyOf).toList();
        wires = List.copyOf(wires);
    }

    /** The place to name; empty for what is outside the model. */
    Optional<PlaceId> place() {
        return places.keySet().stream().findFirst();
    }

    /** True when two independent faults must both be cured. */
    boolean isPair() {
        return !halves.isEmpty();
    }

    /** True for what may have hurt more wires, contacts or leads at one place than the codes name. */
    boolean isCommon() {
        return families.size() == 1 && families.get(0).startsWith("common.");
    }

    /** True for a true condition of the engine, which no repair of the harness mends. */
    boolean isCondition() {
        return families.equals(List.of("condition.engine"));
    }

    /**
     * Share of the cause that a remedy works on. Where each of two faults lies does not hang on the other, so for both it is
     * the product.
     */
    double covered(Remedy remedy) {
        double both = isPair() ? 1 : Math.min(1, remedy.covers().getOrDefault(id, 0.0));
        for (Map<String, Double> half : halves) {
            double sum = 0;
            for (Map.Entry<String, Double> e : half.entrySet())
                sum += e.getValue() * Math.min(1, remedy.covers().getOrDefault(e.getKey(), 0.0));
            both *= sum;
        }
        return both;
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

    /** What a single fault leaves behind along the loom, by itself: a key of {@code hidden.*}. */
    String trace() {
        return families.isEmpty() ? "none" : trace(families.get(0));
    }

    /** The same by its family. */
    static String trace(String family) {
        if (family.startsWith("common.rub-point")) return "chafe";
        if (family.equals("common.hot-spot")) return "heat";
        if (family.equals("common.crushed-clip")) return "crush";
        if (family.equals("common.fluid-path")) return "fluid";
        if (family.equals("common.wet-connector") || family.equals("contact.bridge")) return "water";
        return "none";
    }
}
