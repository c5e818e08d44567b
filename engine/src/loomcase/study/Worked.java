package loomcase.study;

import java.util.List;
import java.util.Optional;
import loomcase.verdict.HarnessNeed;

/**
 * One case worked through to the right repair in one way.
 *
 * @param tests tests taken, and devices fitted on suspicion
 * @param minutes until everything is right, tests and repairs that did not do among them
 * @param money the same in the circuit's currency, standing still and parts included
 * @param back whether the engine left with a fault and came back
 * @param codes the verdict from the codes alone; only for the planner's way
 * @param verdicts what was done, in order, each verdict after the tests that led to it; at least one
 * @param harness whether the truth calls for the whole harness, and by what
 */
record Worked(
        int tests,
        double minutes,
        double money,
        boolean back,
        Optional<Ruled> codes,
        List<Ruled> verdicts,
        HarnessNeed harness) {
    Worked {
        verdicts = List.copyOf(verdicts);
    }

    /** What was done first. */
    Ruled first() {
        return verdicts.get(0);
    }

    /**
     * A verdict beside the truth.
     *
     * @param option as the verdict says it
     * @param settled whether it is something to do
     * @param mends whether its cheapest remedy mends all that is wrong
     */
    record Ruled(String option, boolean settled, boolean mends) {
        boolean harness() {
            return option.equals("full-harness");
        }
    }
}
