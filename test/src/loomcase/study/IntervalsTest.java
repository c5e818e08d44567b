package loomcase.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.apache.commons.math3.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the number of cases leaves open: of a share counted, and of a mean of differences. */
class IntervalsTest {
    /**
     * Clopper and Pearson, The use of confidence or fiducial limits illustrated in the case of the binomial, Biometrika 26
     * (1934): the ends are the shares of which so many, or so few, come in 25 of 1,000 draws; beside the binomial
     * distribution of Apache Commons Math.
     */
    @ParameterizedTest
    @CsvSource({"81, 84", "1, 84", "42, 84", "3, 5", "744, 750"})
    void endsOfAShareLeaveTwentyFiveInAThousandOut(int counted, int all) {
        KindResult.Share share = KindResult.Share.of(counted, all);
        assertEquals(
                0.025, 1 - new BinomialDistribution(null, all, share.low()).cumulativeProbability(counted - 1), 1e-6);
        assertEquals(0.025, new BinomialDistribution(null, all, share.high()).cumulativeProbability(counted), 1e-6);
        assertEquals((double) counted / all, share.of());
    }

    /** Closed form at the ends: all of n come with probability share to the power of n. */
    @Test
    void aShareOfNoneOrOfAllIsOpenToOneSide() {
        double twentieth = Math.pow(0.025, 1 / 20.0);
        assertEquals(0, KindResult.Share.of(0, 20).low());
        assertEquals(1 - twentieth, KindResult.Share.of(0, 20).high(), 1e-9);
        assertEquals(twentieth, KindResult.Share.of(20, 20).low(), 1e-9);
        assertEquals(1, KindResult.Share.of(20, 20).high());
        assertEquals(new KindResult.Share(0, 0, 1), KindResult.Share.of(0, 0));
    }

    /**
     * Student, The probable error of a mean, Biometrika 6 (1908): hours of sleep gained by one of two drugs over the other in
     * ten patients, mean 1.58; the interval 0.70 to 2.46 is what statistics programs print for these data (from memory).
     */
    @Test
    void differencesLieWhereStudentsOwnExampleSays() {
        RepairResult.Difference d = RepairResult.Difference.of(
                        new double[] {1.2, 2.4, 1.3, 1.3, 0, 1.0, 1.8, 0.8, 4.6, 1.4})
                .orElseThrow();
        assertEquals(1.58, d.mean(), 1e-9);
        assertEquals(0.700, d.low(), 5e-4);
        assertEquals(2.460, d.high(), 5e-4);
        assertFalse(d.open());
    }

    @Test
    void oneCaseTellsNothingAndOppositeOnesLeaveItOpen() {
        assertEquals(Optional.empty(), RepairResult.Difference.of(new double[] {3}));
        assertTrue(RepairResult.Difference.of(new double[] {30, -20, 5})
                .orElseThrow()
                .open());
    }
}
