package loomcase.study;

import java.util.Optional;

/**
 * One case worked through to the right repair in one way.
 *
 * @param tests tests taken, and devices fitted on suspicion
 * @param minutes until everything is right; a wrong repair costs a fresh diagnosis and the right one
 * @param money the same in the circuit's currency, standing still and parts included
 * @param mends whether the first repair mends all that is wrong
 * @param codes the verdict from the codes alone; only for the planner's way
 * @param verdict the verdict after the tests; empty when a device fitted on suspicion was the right one
 * @param harnessNeeded whether the truth calls for the whole harness
 */
record Worked(
        int tests,
        double minutes,
        double money,
        boolean mends,
        Optional<Ruled> codes,
        Optional<Ruled> verdict,
        boolean harnessNeeded) {

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
