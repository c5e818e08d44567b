package loomcase.draw;

import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/**
 * What a picture lays over the harness.
 *
 * @param shares probability, 0 to 1, that the fault lies in a place; a place not named counts as 0
 * @param marks the top places, which get a numbered callout; at most one mark a place
 * @param trace ids of wires to draw as a path over the branches, usually those of the first suspect
 */
public record Suspicion(Map<PlaceId, Double> shares, List<Mark> marks, List<String> trace) {
    /** Below this share a place is drawn as not suspected (judgement). */
    static final double SEEN = 0.005;

    /** Wires and cavities are many and small: without a mark they are drawn only from this share up (judgement). */
    static final double SEEN_SMALL = 0.02;

    /**
     * A callout.
     *
     * @param rank number shown, 1 to 99
     * @param place where it points
     * @param label a few words about the fault
     */
    public record Mark(int rank, PlaceId place, String label) {
        public Mark {
            if (rank < 1 || rank > 99)
                throw new IllegalArgumentException("rank " + rank + " of " + place + " is not within 1 to 99");
        }
    }

    public Suspicion {
        shares.forEach((place, share) -> {
            if (!(share >= 0 && share <= 1 + 1e-9))
                throw new IllegalArgumentException("share " + share + " of " + place + " is not within 0 to 1");
        });
        shares = Collections.unmodifiableMap(new LinkedHashMap<>(shares));
        marks = List.copyOf(marks);
        trace = List.copyOf(trace);
        Set<PlaceId> once = new HashSet<>();
        for (Mark m : marks)
            if (!once.add(m.place())) throw new IllegalArgumentException(m.place() + " is marked twice");
    }

    /** A harness on which nothing is suspected. */
    public static Suspicion none() {
        return new Suspicion(Map.of(), List.of(), List.of());
    }

    /** The share of a place, 0 to 1. */
    public double of(PlaceId place) {
        return Math.min(1, shares.getOrDefault(place, 0.0));
    }

    /** The mark on a place. */
    public Optional<Mark> mark(PlaceId place) {
        return marks.stream().filter(m -> m.place().equals(place)).findFirst();
    }

    /** Whether a place is to stand out. */
    boolean shows(PlaceId place) {
        boolean small = place.kind() == PlaceId.Kind.WIRE || place.kind() == PlaceId.Kind.CAVITY;
        return of(place) >= (small ? SEEN_SMALL : SEEN) || mark(place).isPresent();
    }

    /** The share as a person reads it. */
    static String percent(double share) {
        if (share <= 0) return "0 %";
        if (share < 0.01) return "<1 %";
        if (share < 1 && share > 0.99) return ">99 %";
        return Math.round(share * 100) + " %";
    }

    /**
     * Makes sure that everything named is in the circuit.
     *
     * @throws IllegalArgumentException naming the place or wire that is not
     */
    void check(Circuit circuit) {
        shares.keySet().forEach(p -> require(has(circuit, p), "place " + p, circuit));
        marks.forEach(m -> require(has(circuit, m.place()), "place " + m.place(), circuit));
        trace.forEach(w -> require(circuit.wires().containsKey(w), "wire " + w, circuit));
    }

    private static void require(boolean holds, String what, Circuit circuit) {
        if (!holds) throw new IllegalArgumentException(what + " is not in circuit " + circuit.id());
    }

    private static boolean has(Circuit c, PlaceId place) {
        String id = place.id();
        switch (place.kind()) {
            case BRANCH:
                return c.branches().containsKey(id);
            case CONNECTOR:
                return c.connectors().containsKey(id);
            case CAVITY:
                Connector k = c.connectors().get(Names.connectorOf(id));
                return k != null && k.has(Names.cavityOf(id));
            case SPLICE:
                return c.splices().containsKey(id);
            case WIRE:
                return c.wires().containsKey(id);
            case DEVICE:
                return c.devices().containsKey(id);
            case CONTROL_UNIT:
                return c.controlUnit().id().equals(id);
            case GROUND:
                return c.grounds().containsKey(id);
            case FUSE:
                return c.fuses().containsKey(id);
            case ENGINE:
                return true;
        }
        throw new IllegalStateException("unknown kind of place " + place);
    }
}
