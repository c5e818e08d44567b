package loomcase.predict;

/**
 * Which codes a hypothesis would show, as far as they differ from a healthy engine's.
 *
 * @param codes numbers in the {@link CodeTable}, ascending
 * @param probability of each being shown, same order
 * @param settled false when the network found no consistent state at some instant
 */
public record Prediction(int[] codes, double[] probability, boolean settled) {
    /** Nothing differs from a healthy engine. */
    public static final Prediction NONE = new Prediction(new int[0], new double[0], true);

    /** Differences smaller than this are none. */
    static final double SAME = 1e-7;

    /** Keeps the entries that differ from the healthy ones. */
    static Prediction of(double[] shown, double[] healthy, boolean settled) {
        int n = 0;
        for (int c = 0; c < shown.length; c++) if (Math.abs(shown[c] - healthy[c]) > SAME) n++;
        int[] codes = new int[n];
        double[] probability = new double[n];
        n = 0;
        for (int c = 0; c < shown.length; c++)
            if (Math.abs(shown[c] - healthy[c]) > SAME) {
                codes[n] = c;
                probability[n++] = shown[c];
            }
        return new Prediction(codes, probability, settled);
    }

    /** The probability of a code, or {@code otherwise} where it does not differ from the healthy engine. */
    public double of(int code, double otherwise) {
        int at = java.util.Arrays.binarySearch(codes, code);
        return at < 0 ? otherwise : probability[at];
    }
}
