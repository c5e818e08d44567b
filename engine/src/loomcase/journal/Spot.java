package loomcase.journal;

import java.util.Optional;
import loomcase.model.PlaceId;

/**
 * A place a technician looked at, moved or worked on.
 *
 * @param place the place
 * @param rubPoint rub point on it, when the place is a branch and that very point is meant
 */
public record Spot(PlaceId place, Optional<String> rubPoint) {
    public Spot {
        if (place.kind() == PlaceId.Kind.ENGINE)
            throw new IllegalArgumentException("the engine as such is no place to look at; name a part");
        if (rubPoint.isPresent() && place.kind() != PlaceId.Kind.BRANCH)
            throw new IllegalArgumentException("rub point " + rubPoint.get() + " lies on a branch, not on " + place);
    }

    /** A place as a whole. */
    public static Spot of(PlaceId.Kind kind, String id) {
        return new Spot(new PlaceId(kind, id), Optional.empty());
    }

    /** How a person writes it: {@code KIND:ID}, or {@code rub-point:BRANCH@RUBPOINT}. */
    public String written() {
        return rubPoint.map(r -> "rub-point:" + place.id() + "@" + r)
                .orElseGet(() -> place.kind().word() + ":" + place.id());
    }

    @Override
    public String toString() {
        return rubPoint.map(r -> "rub point " + r + " on " + place).orElseGet(place::toString);
    }
}
