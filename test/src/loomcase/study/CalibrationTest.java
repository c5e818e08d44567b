package loomcase.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.BinomialDistribution;
import org.apache.commons.math3.util.CombinatoricsUtils;
import org.junit.jupiter.api.Test;

/** Calibration error and what of it chance explains, beside the binomial distribution. */
class CalibrationTest {
    private static final int CASES = 36;
    private static final double STATED = 0.85;

    private static Calibration alike(int n, double stated) {
        double[] all = new double[n];
        Arrays.fill(all, stated);
        return new Calibration(all, new boolean[n]);
    }

    /** Worked by hand: 2 of 4 right at 0.75, 4 of 4 right at 0.95. */
    @Test
    void errorOfAWorkedExample() {
        double[] stated = {0.75, 0.75, 0.75, 0.75, 0.95, 0.95, 0.95, 0.95};
        boolean[] right = {true, true, false, false, true, true, true, true};
        assertEquals(0.5 * 0.25 + 0.5 * 0.05, new Calibration(stated, right).error(), 1e-12);
    }

    /**
     * With one class the error is |X − np|/n of a binomial X, whose mean is De Moivre's 2ν·C(n,ν)·p^ν·q^(n−ν+1) with ν = the
     * whole part of np, plus 1 (P. Diaconis and S. Zabell, "Closed form summation for classical distributions: variations on
     * a theme of De Moivre", Statistical Science 6 (1991) 284; formula from memory, held against the sum below).
     */
    @Test
    void meanByChanceIsDeMoivresMeanDeviation() {
        int v = (int) Math.floor(CASES * STATED) + 1;
        double deMoivre = 2
                * v
                * CombinatoricsUtils.binomialCoefficientDouble(CASES, v)
                * Math.pow(STATED, v)
                * Math.pow(1 - STATED, CASES - v + 1);
        BinomialDistribution x = new BinomialDistribution(null, CASES, STATED);
        double sum = 0;
        for (int k = 0; k <= CASES; k++) sum += x.probability(k) * Math.abs(k - CASES * STATED);
        assertEquals(sum, deMoivre, 1e-9);
        // Four standard errors of 4,000 draws.
        assertEquals(deMoivre / CASES, alike(CASES, STATED).byChance().mean(), 0.0023);
    }

    /** The 95th percentile beside that of the binomial distribution of Apache Commons Math. */
    @Test
    void mostByChanceIsTheBinomialQuantile() {
        BinomialDistribution x = new BinomialDistribution(null, CASES, STATED);
        double most = alike(CASES, STATED).byChance().most();
        double within = 0;
        double below = 0;
        for (int k = 0; k <= CASES; k++) {
            double error = Math.abs(k - CASES * STATED) / CASES;
            if (error <= most + 1e-9) within += x.probability(k);
            if (error < most - 1e-9) below += x.probability(k);
        }
        assertTrue(below < 0.95 && within >= 0.95, below + " below " + most + ", " + within + " within");
    }

    /** Classes are independent, so their means add up by their sizes. */
    @Test
    void classesAddUp() {
        double[] both = new double[60];
        Arrays.fill(both, 0, 20, 0.35);
        Arrays.fill(both, 20, 60, 0.95);
        double expected = (20 * alike(20, 0.35).byChance().mean()
                        + 40 * alike(40, 0.95).byChance().mean())
                / 60;
        assertEquals(expected, new Calibration(both, new boolean[60]).byChance().mean(), 0.003);
    }

    @Test
    void certaintyLeavesNothingToChance() {
        assertEquals(new KindResult.Chance(0, 0), alike(12, 1).byChance());
    }

    /** Of rankings whose shares are true, 5 in 100 are called off; of rankings that are 0.15 too sure, nearly all. */
    @Test
    void trueSharesAreSeldomCalledOff() {
        SplittableRandom random = new SplittableRandom(8);
        int off = 0;
        int tooSure = 0;
        double[] stated = new double[100];
        for (int run = 0; run < 200; run++) {
            boolean[] right = new boolean[stated.length];
            boolean[] lower = new boolean[stated.length];
            for (int i = 0; i < stated.length; i++) {
                stated[i] = 0.4 + 0.6 * random.nextDouble();
                double draw = random.nextDouble();
                right[i] = draw < stated[i];
                lower[i] = draw < stated[i] - 0.15;
            }
            Calibration honest = new Calibration(stated, right);
            double most = honest.byChance().most();
            if (honest.error() > most) off++;
            if (new Calibration(stated, lower).error() > most) tooSure++;
        }
        // 10 expected of 200, standard deviation 3.1.
        assertTrue(off >= 1 && off <= 22, "called off " + off);
        assertTrue(tooSure > 120, "found " + tooSure);
    }
}
