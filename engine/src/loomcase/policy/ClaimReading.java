package loomcase.policy;

import java.util.List;
import java.util.Objects;

/**
 * One meter reading, as the claim rules see it. What is not said is empty or {@code false}.
 *
 * @param id how the claim names it, such as {@code ohms C-ECT/1 to chassis}
 * @param stage before or after the repair, as the claim puts it: one of {@link ClaimFacts#STAGES}
 * @param line journal line, from 1; 0 when it is not in the journal
 * @param test what was measured: one of {@link #TESTS}
 * @param shown value and unit, as printed
 * @param limit what it should be, as printed
 * @param judged {@code in} or {@code out} of the limit
 * @param meter which meter
 * @param leadsZeroed what the leads read held together was taken off
 * @param temperatureGiven the temperature of the wire or part is recorded
 */
public record ClaimReading(
        String id,
        String stage,
        int line,
        String test,
        String shown,
        String limit,
        String judged,
        String meter,
        boolean leadsZeroed,
        boolean temperatureGiven) {
    /** What a reading measures. */
    public static final List<String> TESTS = List.of("volts", "ohms", "drop", "isolation");

    public ClaimReading {
        Objects.requireNonNull(id, "id");
        Listed.require("stage", stage, ClaimFacts.STAGES);
        Listed.require("test", test, TESTS);
        Listed.requireOrEmpty("judged", judged, List.of("in", "out"));
        Objects.requireNonNull(shown, "shown");
        Objects.requireNonNull(limit, "limit");
        Objects.requireNonNull(meter, "meter");
    }
}
