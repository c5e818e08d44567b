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
 * @param tools what is needed for it, besides the usual hand tools
 */
public record AccessStep(
        String id,
        String label,
        double minutes,
        String caution,
        List<String> needs,
        List<String> after,
        List<String> tools) {
    public AccessStep {
        tools = List.copyOf(tools);
        needs = List.copyOf(needs);
        after = List.copyOf(after);
    }

    /** A step for which the usual hand tools do. */
    public AccessStep(String id, String label, double minutes, String caution, List<String> needs, List<String> after) {
        this(id, label, minutes, caution, needs, after, List.of());
    }
}
