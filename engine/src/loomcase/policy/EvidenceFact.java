package loomcase.policy;

/**
 * How much is known, as the repair rules see it; one fact for each verdict.
 *
 * @param readings meter readings taken
 * @param tests other tests taken: unplug or jumper and watch, wiggle, swap
 * @param looks places looked at
 * @param topPlace probability of the most probable place, 0 to 1
 * @param topBranch probability of the most probable branch with everything in it, 0 to 1
 * @param unexplained probability that nothing in the circuit explains the codes, 0 to 1
 */
public record EvidenceFact(int readings, int tests, int looks, double topPlace, double topBranch, double unexplained) {
    /** True when there is nothing but codes. */
    public boolean isCodesOnly() {
        return readings + tests + looks == 0;
    }
}
