package loomcase.verdict;

import java.util.OptionalDouble;

/**
 * How much would have to differ for the answer to be another one.
 *
 * @param quantity what is varied
 * @param now its value in this case
 * @param low least value tried
 * @param high greatest value tried
 * @param at where the answer flips, nearest to {@code now}; empty when it does not between {@code low} and {@code high}
 * @param becomes the option that it becomes there, empty when it does not flip
 * @param harnessAt where the full harness becomes the answer; empty when it does nowhere in the range
 */
public record BreakEven(
        Quantity quantity,
        double now,
        double low,
        double high,
        OptionalDouble at,
        String becomes,
        OptionalDouble harnessAt) {
    /** What is varied. */
    public enum Quantity {
        /** Probability that a repair of one place leaves further damage behind, 0 to 1. */
        HIDDEN_DAMAGE("hidden-damage"),
        /** Number of damaged circuits at the place. */
        CIRCUITS("circuits"),
        /** Labour rate in currency an hour. */
        LABOUR_RATE("labour-rate");

        private final String word;

        Quantity(String word) {
            this.word = word;
        }

        /** The word in JSON. */
        public String word() {
            return word;
        }
    }
}
