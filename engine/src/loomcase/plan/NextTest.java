package loomcase.plan;

import java.util.List;
import loomcase.meter.Harm;
import loomcase.meter.Test;

/**
 * A test proposed.
 *
 * @param test what to do
 * @param minutes access still closed and the test itself
 * @param expectedMinutes expected minutes from here to a settled case when this test is taken first
 * @param settleNow expected minutes when nothing more is tested and the best place is taken to be right
 * @param steps access steps still to open for it
 * @param outcomes what it may show and what that would mean, most probable first
 * @param harms ways in which it can do harm; those that rule it out are not proposed
 * @param hazard what else to beware of, empty for nothing
 */
public record NextTest(
        Test test,
        double minutes,
        double expectedMinutes,
        double settleNow,
        List<String> steps,
        List<Outcome> outcomes,
        List<Harm> harms,
        String hazard) {

    /** True when it is expected to save minutes over settling now; one that does not is made for certainty before work. */
    public boolean saves() {
        return expectedMinutes < settleNow;
    }

    /**
     * One outcome the test may have.
     *
     * @param words the outcome
     * @param probability of it, over all suspects
     * @param meaning the fault it would point at first
     * @param then probability of that fault after this outcome
     */
    public record Outcome(String words, double probability, String meaning, double then) {}

    public NextTest {
        steps = List.copyOf(steps);
        outcomes = List.copyOf(outcomes);
        harms = List.copyOf(harms);
    }
}
