package loomcase.model;

import java.util.List;

/**
 * Something to take off or move before a place can be reached.
 *
 * @param id the id in the circuit file
 * @param label the work, in words
 * @param minutes time to do and later undo it
 * @param caution what can hurt here, empty for none
 * @param needs steps that must come before
 * @param after what the step calls for when closing up
 */
public record AccessStep(
        String id, String label, double minutes, String caution, List<String> needs, List<String> after) {
    public AccessStep {
        needs = List.copyOf(needs);
        after = List.copyOf(after);
    }
}
