package loomcase.study;

import java.util.SplittableRandom;

/** Numbers drawn from a {@link SplittableRandom}, whose sequence is the same on every machine. */
final class Numbers {
    private Numbers() {}

    /** A standard normal number, by the polar method (G. Marsaglia and T. A. Bray, SIAM Review 6 (1964) 260). */
    static double normal(SplittableRandom random) {
        while (true) {
            double x = 2 * random.nextDouble() - 1;
            double y = 2 * random.nextDouble() - 1;
            double s = x * x + y * y;
            if (s > 0 && s < 1) return x * Math.sqrt(-2 * StrictMath.log(s) / s);
        }
    }

    /** How many failures come before the first success, for a mean of at least 1: 1, 2, 3 … */
    static int geometric(double mean, SplittableRandom random) {
        int n = 1;
        while (n < 126 && random.nextDouble() > 1 / mean) n++;
        return n;
    }
}
