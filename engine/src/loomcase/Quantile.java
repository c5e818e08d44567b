package loomcase;

import java.util.Arrays;

/** The value below which a share of some numbers lies. */
public final class Quantile {
    private Quantile() {}

    /**
     * @param numbers in any order
     * @param share 0 to 1
     * @return 0 when there are no numbers
     */
    public static double of(double[] numbers, double share) {
        if (numbers.length == 0) return 0;
        double[] sorted = numbers.clone();
        Arrays.sort(sorted);
        return sorted[(int) Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
    }
}
