package loomcase.faults;

import java.util.List;
import java.util.Optional;
import loomcase.model.Edit;
import loomcase.model.PlaceId;

/**
 * One thing that may be wrong.
 *
 * @param id stable name, made from family, place and size
 * @param family key of the base rate in the priors file, such as {@code contact.open}
 * @param places where it is; the first is the place to name, the others share in it
 * @param words the fault in plain words
 * @param cause what it does to the circuit
 * @param probability prior probability that it is present, 0 to 1
 * @param comesAndGoes true for an intermittent fault
 */
public record Hypothesis(
        String id,
        String family,
        List<PlaceId> places,
        String words,
        Cause cause,
        double probability,
        boolean comesAndGoes) {

    /** What a hypothesis does to the circuit. */
    public sealed interface Cause {}

    /** Always the same edits; none for "nothing is wrong now". */
    public record Fixed(List<Edit> edits) implements Cause {
        public Fixed {
            edits = List.copyOf(edits);
        }
    }

    /**
     * One cause that hits each of several neighbours with the same probability, independently: which were hit is for the
     * codes to say. At least {@code least} are hit.
     *
     * @param hits what each hit does
     * @param hitShare probability that a given one is hit, 0 to 1
     * @param least smallest number of hits that still counts as this cause
     * @param together true when those hit also touch each other
     */
    public record AnyOf(List<Hit> hits, double hitShare, int least, boolean together) implements Cause {
        public AnyOf {
            hits = List.copyOf(hits);
            if (!(hitShare > 0 && hitShare < 1))
                throw new IllegalArgumentException("hit share " + hitShare + " is not between 0 and 1");
        }
    }

    /**
     * One neighbour that a common cause may hit.
     *
     * @param place wire or cavity hit
     * @param point a point of its net, for touching others
     * @param net its net, the same for two that are one piece of copper
     * @param held true where the net is held by ground, the battery or a supply, so that it moves any other that it touches
     * @param edits what the hit does by itself
     * @param left probability that work has left the hit as it was, above 0, 1 where none was done
     */
    public record Hit(PlaceId place, String point, String net, boolean held, List<Edit> edits, double left) {
        public Hit {
            edits = List.copyOf(edits);
            if (!(left > 0 && left <= 1))
                throw new IllegalArgumentException(place + ": left " + left + " is not above 0, at most 1");
        }

        /** The same after work that leaves it with this probability. */
        Hit leaving(double odds) {
            return new Hit(place, point, net, held, edits, left * odds);
        }
    }

    public Hypothesis {
        places = List.copyOf(places);
        if (!(probability >= 0 && probability <= 1))
            throw new IllegalArgumentException(id + ": probability " + probability + " is not within 0 to 1");
    }

    /** The place to name. */
    public PlaceId place() {
        return places.get(0);
    }

    /** The rub point of a branch at which it lies, when it is wear at one. */
    public Optional<String> rubPoint() {
        return rubPoint(id, family);
    }

    /** The same of a fault known by its id and family; the generator names a rub point last. */
    public static Optional<String> rubPoint(String id, String family) {
        return family.startsWith("common.rub-point.")
                ? Optional.of(id.substring(id.lastIndexOf(' ') + 1))
                : Optional.empty();
    }
}
