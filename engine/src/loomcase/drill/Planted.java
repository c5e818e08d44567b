package loomcase.drill;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.faults.Hypothesis;
import loomcase.meter.Subject;
import loomcase.model.Edit;
import loomcase.model.PlaceId;

/**
 * A fault as it is in the engine.
 *
 * @param id of its hypothesis
 * @param family kind of fault
 * @param words the fault in plain words, with what was hit
 * @param places where it is, the place to name first
 * @param edits what it does while it is there
 * @param showing when it is there
 */
public record Planted(String id, String family, String words, List<PlaceId> places, List<Edit> edits, Showing showing) {
    /** Ohms between wires that touch each other. */
    private static final double TOUCHING_OHMS = Edit.SHORT_OHMS;

    public Planted {
        places = List.copyOf(places);
        edits = List.copyOf(edits);
    }

    /** The place to name. */
    public PlaceId place() {
        return places.get(0);
    }

    /**
     * Every place that names this fault as well as {@link #place} does, and at which a repair mends it: either cavity of a
     * bridge or a swap, the wire of a splice's leg, either of two wires that touch.
     */
    List<PlaceId> alike() {
        boolean cavities = place().kind() == PlaceId.Kind.CAVITY;
        boolean leg = place().kind() == PlaceId.Kind.SPLICE && places.size() == 2;
        boolean touching = place().kind() == PlaceId.Kind.BRANCH && family.startsWith("wire.short-");
        return cavities || leg || touching ? places : List.of(place());
    }

    /** The fault as a test sees it while it is there. */
    Subject subject() {
        return new Subject(family, places, showing == Showing.MOVED || showing == Showing.AT_RANDOM, edits)
                .at(Hypothesis.rubPoint(id, family));
    }

    /**
     * A hypothesis made into a fault.
     *
     * @param hits numbers of the neighbours hit, for a common cause
     */
    public static Planted of(Hypothesis h, List<Integer> hits, Showing showing) {
        if (h.cause() instanceof Hypothesis.Fixed f)
            return new Planted(h.id(), h.family(), h.words(), h.places(), f.edits(), showing);
        Hypothesis.AnyOf a = (Hypothesis.AnyOf) h.cause();
        List<Hypothesis.Hit> hit = hits.stream().map(a.hits()::get).toList();
        List<Edit> edits = new ArrayList<>();
        hit.forEach(x -> edits.addAll(x.edits()));
        if (a.together())
            for (int i = 1; i < hit.size(); i++)
                if (!hit.get(i - 1).point().equals(hit.get(i).point()))
                    edits.add(new Edit.Bridge(hit.get(i - 1).point(), hit.get(i).point(), TOUCHING_OHMS));
        Set<PlaceId> places = new LinkedHashSet<>(h.places());
        hit.forEach(x -> places.add(x.place()));
        String which = hit.stream().map(x -> x.place().id()).collect(Collectors.joining(", "));
        return new Planted(h.id(), h.family(), h.words() + ": " + which, List.copyOf(places), edits, showing);
    }
}
