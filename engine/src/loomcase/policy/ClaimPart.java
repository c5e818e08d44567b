package loomcase.policy;

import java.util.List;
import java.util.Objects;

/**
 * One line of parts, as the claim rules see it. What is not said is empty, zero or {@code false}.
 *
 * @param name in words
 * @param number part number
 * @param quantity pieces or metres, over 0
 * @param role one of {@link #ROLES}
 * @param kind one of {@link #KINDS}
 * @param location where the failed part sat
 * @param kept the failed part, or the cut-out with the fault, is kept and tagged
 */
public record ClaimPart(
        String name, String number, double quantity, String role, String kind, String location, boolean kept) {
    /** Why a part is on the claim: it failed first, it failed because of that, or the repair used it up. */
    public static final List<String> ROLES = List.of("causal", "consequential", "used");

    /** What a part is. */
    public static final List<String> KINDS =
            List.of("wire", "terminal", "section", "harness", "device", "control-unit", "fuse", "other");

    public ClaimPart {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(number, "number");
        Objects.requireNonNull(location, "location");
        Listed.require("role", role, ROLES);
        Listed.require("kind", kind, KINDS);
        if (!(quantity > 0)) throw new IllegalArgumentException("quantity is " + quantity + "; allowed is over 0");
    }
}
