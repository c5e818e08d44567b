package loomcase.verdict;

/**
 * Expected cost of one remedy over the whole posterior, in its parts.
 *
 * @param access labour for opening and closing
 * @param labour labour for the work and the checks after it
 * @param parts parts and sealing
 * @param downtime standing still during the work
 * @param comeback when it does not cure: a fresh diagnosis, in the same visit or at a comeback, and what then cures
 * @param failure when the repair itself fails within the warranty
 * @param hidden when further damage was left behind
 */
public record ExpectedCost(
        double access, double labour, double parts, double downtime, double comeback, double failure, double hidden) {
    /** What is paid now. */
    public double now() {
        return access + labour + parts + downtime;
    }

    /** Now and later. */
    public double total() {
        return now() + comeback + failure + hidden;
    }
}
