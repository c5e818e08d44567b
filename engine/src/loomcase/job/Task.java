package loomcase.job;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One line of the sheet, to tick.
 *
 * @param words what to do
 * @param minutes time for it, where the circuit file gives one; for an access step this includes putting back
 * @param tools what is needed besides the usual hand tools
 * @param cautions what can hurt here
 * @param step access step it belongs to
 */
public record Task(
        String words, OptionalDouble minutes, List<String> tools, List<String> cautions, Optional<String> step) {
    public Task {
        tools = List.copyOf(tools);
        cautions = List.copyOf(cautions);
    }

    static Task of(String words, List<String> cautions) {
        return new Task(words, OptionalDouble.empty(), List.of(), cautions, Optional.empty());
    }

    static Task of(String words) {
        return of(words, List.of());
    }
}
