package loomcase.policy;

import java.util.Comparator;
import java.util.Objects;

/**
 * A warning to read before working at a place.
 *
 * @param placeId id of the place, as in the fact
 * @param text what to do or not to do, one sentence or two
 * @param rule name of the rule that says so
 * @param source where the warning comes from
 */
public record Caution(String placeId, String text, String rule, String source) {
    static final Comparator<Caution> ORDER =
            Comparator.comparing(Caution::placeId).thenComparing(Caution::rule).thenComparing(Caution::text);

    public Caution {
        Objects.requireNonNull(placeId, "placeId");
        if (text.isBlank()) {
            throw new IllegalArgumentException("the caution for place " + placeId + " has no text");
        }
    }
}
