package loomcase.predict;

import org.apache.commons.math3.special.Erf;

/** The normal distribution function. */
public final class Normal {
    /** Beyond this many standard deviations the tail is taken as none. */
    private static final double FAR = 8;

    private Normal() {}

    /** Φ(z). */
    public static double cumulative(double z) {
        if (z < -FAR) return 0;
        if (z > FAR) return 1;
        return 0.5 * Erf.erfc(-z / Math.sqrt(2));
    }
}
