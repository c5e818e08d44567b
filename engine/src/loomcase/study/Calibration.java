package loomcase.study;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import loomcase.Quantile;

/**
 * How far stated probabilities can be believed.
 *
 * <p>Rankings fall into ten classes by how sure they were; the expected calibration error is Σ (count/all)·|right − stated|
 * over the classes (M. P. Naeini, G. F. Cooper, M. Hauskrecht, AAAI 2015; from memory). A few cases scatter, so it is above
 * zero even when every share stated is true. What such true shares would show is found by drawing right or wrong of every
 * case from its own stated share, many times: consistency resampling (J. Bröcker and L. A. Smith, Weather and Forecasting
 * 22 (2007) 651; from memory).
 *
 * @param stated probability stated, one for each ranking
 * @param right whether it was right
 */
record Calibration(double[] stated, boolean[] right) {
    private static final int CLASSES = 10;
    private static final int DRAWS = 4000;
    private static final long SEED = 36;

    static Calibration of(List<Score> scores) {
        boolean[] right = new boolean[scores.size()];
        for (int i = 0; i < right.length; i++) right[i] = scores.get(i).right();
        return new Calibration(scores.stream().mapToDouble(Score::stated).toArray(), right);
    }

    private static int number(double stated) {
        return Math.min(CLASSES - 1, (int) (CLASSES * stated));
    }

    /** The classes, least sure first. */
    List<KindResult.Bin> classes() {
        int[] count = new int[CLASSES];
        int[] hits = new int[CLASSES];
        double[] sum = new double[CLASSES];
        for (int i = 0; i < stated.length; i++) {
            int c = number(stated[i]);
            count[c]++;
            sum[c] += stated[i];
            if (right[i]) hits[c]++;
        }
        return IntStream.range(0, CLASSES)
                .mapToObj(c -> new KindResult.Bin(
                        count[c] == 0 ? 0 : sum[c] / count[c],
                        count[c] == 0 ? 0 : hits[c] / (double) count[c],
                        count[c]))
                .toList();
    }

    /** Expected calibration error, 0 to 1. */
    double error() {
        return error(right);
    }

    private double error(boolean[] outcome) {
        double[] miss = new double[CLASSES];
        for (int i = 0; i < stated.length; i++) miss[number(stated[i])] += (outcome[i] ? 1 : 0) - stated[i];
        return Arrays.stream(miss).map(Math::abs).sum() / Math.max(1, stated.length);
    }

    /** What the error would be if every probability stated were true; always the same draws. */
    KindResult.Chance byChance() {
        SplittableRandom random = new SplittableRandom(SEED);
        double[] errors = new double[DRAWS];
        boolean[] outcome = new boolean[stated.length];
        for (int d = 0; d < DRAWS; d++) {
            for (int i = 0; i < outcome.length; i++) outcome[i] = random.nextDouble() < stated[i];
            errors[d] = error(outcome);
        }
        return new KindResult.Chance(Arrays.stream(errors).average().orElse(0), Quantile.of(errors, 0.95));
    }
}
