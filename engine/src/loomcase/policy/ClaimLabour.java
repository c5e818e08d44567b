package loomcase.policy;

import java.util.List;
import java.util.Objects;

/**
 * One line of labour, as the claim rules see it.
 *
 * @param id how the claim names the line
 * @param kind what it is for: one of {@link #KINDS}
 * @param step id of the access step, for {@code access}; empty otherwise
 * @param minutes claimed, 0 or more
 * @param straightTime it has no set time and is claimed as it took
 * @param explained why it took that long is said
 */
public record ClaimLabour(
        String id, String kind, String step, double minutes, boolean straightTime, boolean explained) {
    /** What labour can be for. */
    public static final List<String> KINDS = List.of("diagnosis", "access", "repair", "proof");

    public ClaimLabour {
        Objects.requireNonNull(id, "id");
        Listed.require("kind", kind, KINDS);
        Objects.requireNonNull(step, "step");
        if (!(minutes >= 0 && Double.isFinite(minutes)))
            throw new IllegalArgumentException("minutes is " + minutes + "; allowed is 0 or more");
    }
}
