package loomcase.policy;

import java.util.List;
import java.util.Objects;

/**
 * Work that was done, as the claim rules see it.
 *
 * @param deed what was done: one of {@link #DEEDS}
 * @param line journal line, from 1; 0 when it is not in the journal
 * @param place id of the place where; empty where not said
 */
public record ClaimWork(String deed, int line, String place) {
    /** What can be done, in the journal's words. */
    public static final List<String> DEEDS =
            List.of("repaired", "replaced", "reseated", "cleaned", "rerouted", "cleared-codes");

    public ClaimWork {
        Listed.require("deed", deed, DEEDS);
        Objects.requireNonNull(place, "place");
    }

    /** Whether this is work on the engine, not on its memory. */
    public boolean isRepair() {
        return !deed.equals("cleared-codes");
    }
}
