package loomcase.policy;

/**
 * The trouble codes were read once, as the claim rules see it.
 *
 * @param stage before or after the repair, as the claim puts it: one of {@link ClaimFacts#STAGES}
 * @param line journal line, from 1; 0 when it is not in the journal
 * @param active how many were active, 0 or more
 * @param stored how many were stored, 0 or more
 * @param counted every code has its occurrence count
 * @param timed the time is recorded
 */
public record ClaimCodes(String stage, int line, int active, int stored, boolean counted, boolean timed) {
    public ClaimCodes {
        Listed.require("stage", stage, ClaimFacts.STAGES);
    }
}
