package loomcase.faults;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/**
 * What work does to the base rates: at a plug that was apart, or whose terminals were moved, a slip is far more probable than
 * at one that nobody touched.
 *
 * <p>Probabilities are those of the {@code work.slip.*} rows of the priors file, each for one plug: it was left off; it was
 * not pushed home; one of its terminals was not seated (shared among its terminals); two of its terminals changed places
 * (shared among all pairs, also those that are not neighbours, of which an untouched plug has no hypothesis). The last two
 * only where terminals were moved; a plug that was only apart gets the first two. A base rate that is higher stays.
 *
 * <p>Cost: linear in hypotheses, plus a hypothesis for each pair of wired cavities of a plug whose terminals were moved.
 */
final class WorkSlips {
    private static final String SWAPPED = "common.swapped-cavities";

    private WorkSlips() {}

    /**
     * Hypotheses with the work weighed in, in stable order, new ones last.
     *
     * @param hypotheses of the circuit, from {@link FaultGenerator}
     * @param worked plugs that were apart, and whether terminals were moved in them
     */
    static List<Hypothesis> weigh(
            Circuit circuit, Priors priors, List<Hypothesis> hypotheses, Map<String, Boolean> worked) {
        if (worked.isEmpty()) return hypotheses;
        Map<String, List<String>> cavities = new TreeMap<>();
        worked.keySet().forEach(c -> cavities.put(c, wired(circuit, c)));
        Set<String> ids = new HashSet<>();
        List<Hypothesis> out = new ArrayList<>();
        for (Hypothesis h : hypotheses) {
            ids.add(h.id());
            String plug = Names.connectorOf(h.place().id());
            boolean here = worked.containsKey(plug)
                    && (h.place().kind() == PlaceId.Kind.CONNECTOR || h.place().kind() == PlaceId.Kind.CAVITY);
            out.add(
                    here
                            ? raised(
                                    h,
                                    slip(
                                            priors,
                                            h.family(),
                                            worked.get(plug),
                                            cavities.get(plug).size()))
                            : h);
        }
        worked.forEach((plug, moved) -> {
            if (moved) out.addAll(swaps(circuit, priors, plug, cavities.get(plug), ids));
        });
        return List.copyOf(out);
    }

    private static double slip(Priors priors, String family, boolean moved, int cavities) {
        return switch (family) {
            case "common.unplugged" -> priors.get("work.slip.unplugged");
            case "common.half-latched" -> priors.get("work.slip.half-latched");
            case "contact.backed-out" -> moved ? priors.get("work.slip.not-seated") / cavities : 0;
            case SWAPPED -> moved ? priors.get("work.slip.swapped") / pairs(cavities) : 0;
            default -> 0;
        };
    }

    private static double pairs(int n) {
        return Math.max(1, n * (n - 1) / 2.0);
    }

    private static Hypothesis raised(Hypothesis h, double probability) {
        return new Hypothesis(
                h.id(),
                h.family(),
                h.places(),
                h.words(),
                h.cause(),
                Math.max(h.probability(), probability),
                h.comesAndGoes());
    }

    private static List<Hypothesis> swaps(
            Circuit circuit, Priors priors, String plug, List<String> cavities, Set<String> known) {
        List<Hypothesis> out = new ArrayList<>();
        double each = priors.get("work.slip.swapped") / pairs(cavities.size());
        for (int i = 0; i < cavities.size(); i++)
            for (int j = i + 1; j < cavities.size(); j++) {
                String a = cavities.get(i);
                String b = cavities.get(j);
                String id = SWAPPED + " " + a + " " + Names.cavityOf(b);
                if (known.contains(id) || known.contains(SWAPPED + " " + b + " " + Names.cavityOf(a))) continue;
                List<Edit> edits = TerminalSlips.swapped(circuit, a, b);
                out.add(new Hypothesis(
                        id,
                        SWAPPED,
                        List.of(new PlaceId(PlaceId.Kind.CAVITY, a), new PlaceId(PlaceId.Kind.CAVITY, b)),
                        "terminals of cavities " + a + " and " + Names.cavityOf(b) + " swapped in the "
                                + circuit.connectors().get(plug).label(),
                        new Hypothesis.Fixed(edits),
                        each,
                        false));
            }
        return out;
    }

    /** Cavities of a plug that carry a wire, in the order of its face. */
    private static List<String> wired(Circuit circuit, String plug) {
        Set<String> ends = new LinkedHashSet<>();
        for (Wire w : circuit.wires().values()) {
            ends.add(w.from());
            ends.add(w.to());
        }
        return circuit.connectors().get(plug).rows().stream()
                .flatMap(List::stream)
                .map(x -> plug + "/" + x)
                .filter(ends::contains)
                .toList();
    }
}
