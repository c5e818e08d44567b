package loomcase.meter;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Edit;
import loomcase.model.PlaceId;

/**
 * A hypothesis as far as a test can see it.
 *
 * @param family kind of fault, a key such as {@code contact.backed-out}; decides how often a look finds it
 * @param places where it is, the place to name first
 * @param comesAndGoes true for an intermittent fault
 * @param edits what it does to the circuit while present; none for "nothing is wrong"
 * @param both the two faults of a hypothesis that takes two; empty for one
 * @param rubPoint the rub point of its branch at which it lies, where it lies at one
 */
public record Subject(
        String family,
        List<PlaceId> places,
        boolean comesAndGoes,
        List<Edit> edits,
        List<Subject> both,
        Optional<String> rubPoint) {
    /** Family of two independent faults. */
    public static final String PAIR = "pair";

    /** A healthy engine. */
    public static final Subject NOTHING = new Subject("nothing", List.of(), false, List.of());

    public Subject {
        places = List.copyOf(places);
        edits = List.copyOf(edits);
        both = List.copyOf(both);
    }

    /** A single fault. */
    public Subject(String family, List<PlaceId> places, boolean comesAndGoes, List<Edit> edits) {
        this(family, places, comesAndGoes, edits, List.of(), Optional.empty());
    }

    /** The same fault, that lies at a rub point of its branch, or at none. */
    public Subject at(Optional<String> point) {
        return new Subject(family, places, comesAndGoes, edits, both, point);
    }

    /** Two faults at once, in order of the ids of their hypotheses. */
    public static Subject both(String oneId, Subject one, String otherId, Subject other) {
        return oneId.compareTo(otherId) < 0 ? both(one, other) : both(other, one);
    }

    /** Two faults at once; of two edits of one element that of the second holds. Each comes and goes by itself. */
    public static Subject both(Subject first, Subject second) {
        return new Subject(
                PAIR,
                joined(first.places, second.places),
                false,
                joined(first.edits, second.edits),
                List.of(first, second),
                Optional.empty());
    }

    private static <T> List<T> joined(List<T> first, List<T> second) {
        List<T> out = new ArrayList<>(first);
        out.addAll(second);
        return out;
    }

    /** True of a true condition of the engine, by itself. */
    public boolean isCondition() {
        return family.startsWith("condition");
    }

    /** The places to name: of each fault the first. */
    public Set<PlaceId> named() {
        Set<PlaceId> out = new LinkedHashSet<>();
        if (both.isEmpty()) places.stream().limit(1).forEach(out::add);
        for (Subject one : both) out.addAll(one.named());
        return out;
    }
}
