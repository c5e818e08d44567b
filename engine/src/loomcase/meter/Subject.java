package loomcase.meter;

import java.util.List;
import loomcase.model.Edit;
import loomcase.model.PlaceId;

/**
 * A hypothesis as far as a test can see it.
 *
 * @param family kind of fault, a key such as {@code contact.backed-out}; decides how often a look finds it
 * @param places where it is, the place to name first
 * @param comesAndGoes true for an intermittent fault
 * @param edits what it does to the circuit while present; none for "nothing is wrong"
 */
public record Subject(String family, List<PlaceId> places, boolean comesAndGoes, List<Edit> edits) {
    /** A healthy engine. */
    public static final Subject NOTHING = new Subject("nothing", List.of(), false, List.of());

    public Subject {
        places = List.copyOf(places);
        edits = List.copyOf(edits);
    }
}
