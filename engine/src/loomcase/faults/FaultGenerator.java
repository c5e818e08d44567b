package loomcase.faults;

import java.util.ArrayList;
import java.util.List;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;

/**
 * Entry of this stage: every hypothesis that a circuit allows, with its prior.
 *
 * <p>Hypotheses follow from the circuit alone, in a stable order; none is listed by hand. Their number is linear in
 * wires, contacts, splices, devices and pins, plus one for each pair of nets that share a branch.
 */
public final class FaultGenerator {
    /** Id of the hypothesis that nothing is wrong now. */
    public static final String NOTHING = "nothing";

    private final Circuit circuit;
    private final Layout layout;
    private final Priors priors;

    public FaultGenerator(Circuit circuit, Layout layout, Priors priors) {
        this.circuit = circuit;
        this.layout = layout;
        this.priors = priors;
    }

    /** All single hypotheses, "nothing is wrong now" first. */
    public List<Hypothesis> generate() {
        Context context = new Context(
                circuit, layout, priors, new Exposure(circuit, layout, priors), new Nets(circuit), Nets.used(circuit));
        List<Hypothesis> out = new ArrayList<>();
        out.addAll(new WireFaults(context).generate());
        out.addAll(new NeighbourFaults(context).generate());
        out.addAll(new JointFaults(context).generate());
        out.addAll(new DeviceFaults(context).generate());
        out.addAll(new ControlUnitFaults(context).generate());
        out.addAll(new CommonCauses(context).generate());
        double any = 1;
        for (Hypothesis h : out) any *= 1 - h.probability();
        out.add(
                0,
                new Hypothesis(
                        NOTHING,
                        NOTHING,
                        List.of(new PlaceId(PlaceId.Kind.ENGINE, "none")),
                        "nothing in the model is wrong now",
                        new Hypothesis.Fixed(List.of()),
                        any,
                        false));
        return List.copyOf(out);
    }

    /** What every family needs. */
    record Context(
            Circuit circuit, Layout layout, Priors priors, Exposure exposure, Nets nets, java.util.Set<String> used) {

        /** A hypothesis with fixed edits at one place. */
        Hypothesis fixed(String family, PlaceId place, String size, String words, double exposure, Edit... edits) {
            return fixed(family, List.of(place), size, words, exposure, false, List.of(edits));
        }

        Hypothesis fixed(
                String family,
                List<PlaceId> places,
                String size,
                String words,
                double exposure,
                boolean comesAndGoes,
                List<Edit> edits) {
            String id = family + " " + places.get(0).id() + (size.isEmpty() ? "" : " " + size);
            return new Hypothesis(
                    id,
                    family,
                    places,
                    words,
                    new Hypothesis.Fixed(edits),
                    priors.probability(family, exposure),
                    comesAndGoes);
        }
    }

    static PlaceId place(PlaceId.Kind kind, String id) {
        return new PlaceId(kind, id);
    }

    /** Ohms as a technician writes them. */
    static String ohms(double ohms) {
        if (ohms >= 1000) return plain(ohms / 1000) + " kohm";
        return plain(ohms) + " ohm";
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
