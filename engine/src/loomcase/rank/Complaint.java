package loomcase.rank;

/**
 * Weighs that an engine was brought in because of its codes.
 *
 * <p>Prior odds are those of an engine picked at random. One with codes was brought in: surely when a fault shows codes of its
 * own, otherwise with a small probability r, for old codes only. So with L the likelihood of all codes under a hypothesis and
 * S that part of it in which every code seen is a stray, the weight is {@code (L − S) + r·S}. "Nothing is wrong", a fault that
 * shows nothing and a fault all of whose codes were missed are alike in this: none of them brought the engine in.
 *
 * <p>The priors file gives the share of engines with codes on which nothing is wrong; r follows from it: {@code r·P(some
 * stray) = share/(1 − share) · Σ odds·P(some code of its own)} over all faults. Without codes nobody was brought in by them
 * and r is 1.
 *
 * @param withoutCause r, above 0, at most 1
 */
record Complaint(double withoutCause) {
    /** No codes: every engine is looked at alike. */
    static final Complaint NONE = new Complaint(1);

    Complaint {
        if (!(withoutCause > 0 && withoutCause <= 1))
            throw new IllegalArgumentException(
                    "brought in without cause: " + withoutCause + " is not above 0, at most 1");
    }

    /**
     * @param share of engines with codes on which nothing is wrong and nothing came and went
     * @param caused sum over all faults of odds times the probability that some code of their own is seen
     * @param someStray probability that a healthy engine shows some code
     */
    static Complaint withCodes(double share, double caused, double someStray) {
        return new Complaint(Math.min(1, share / (1 - share) * caused / someStray));
    }

    /**
     * Natural logarithm of the weight.
     *
     * @param log that of L
     * @param logStrays that of S
     */
    double weigh(double log, double logStrays) {
        return log + Math.log1p(-(1 - withoutCause) * Math.exp(Math.min(0, logStrays - log)));
    }
}
