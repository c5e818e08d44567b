package loomcase.policy;

import java.util.Objects;

/**
 * An access step that the journal says was opened, as the claim rules see it.
 *
 * @param step id of the step
 * @param label what is taken off or moved, in words
 * @param openedLine journal line on which it was opened, from 1
 * @param closedLine journal line on which it was closed again; 0 when it was not
 */
public record ClaimAccess(String step, String label, int openedLine, int closedLine) {
    public ClaimAccess {
        Objects.requireNonNull(step, "step");
        Objects.requireNonNull(label, "label");
    }
}
