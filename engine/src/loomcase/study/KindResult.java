package loomcase.study;

import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import org.apache.commons.math3.distribution.BetaDistribution;

/**
 * What cases of one kind gave. Shares and probabilities are 0 to 1; for two faults a rank is that of the worse one.
 *
 * @param words the kind in words
 * @param cases how many were ranked
 * @param simulated how many of them got their voltages from ngspice
 * @param silent cases drawn of which no code was read, left out
 * @param unsolved cases whose network has no single operating point, left out
 * @param groupFirst share with the truth in the first suspect
 * @param groupThree share with the truth in the first three suspects
 * @param groupFive share with the truth in the first five suspects
 * @param placeFirst share whose true place is the most probable place
 * @param placeThree share whose true place is among the three most probable
 * @param behindSensor share in which a healthy sensor or other device stands before the truth
 * @param logLoss mean −ln of the probability stated for the true place
 * @param brier mean Brier score over places, 0 to 2
 * @param calibrationError expected calibration error of the first suspect
 * @param chance what that error would be if every probability stated were true
 * @param reliability its classes, for a picture
 * @param repair what those worked through to the right repair gave, empty when none was
 */
public record KindResult(
        String words,
        int cases,
        int simulated,
        int silent,
        int unsolved,
        Share groupFirst,
        Share groupThree,
        Share groupFive,
        double placeFirst,
        double placeThree,
        double behindSensor,
        double logLoss,
        double brier,
        double calibrationError,
        Chance chance,
        List<Bin> reliability,
        Optional<RepairResult> repair) {

    /** With what confidence intervals of the study hold what they are of. */
    static final double CONFIDENCE = 0.95;

    /**
     * A share counted in cases drawn, and the true shares it may come from with 95 % confidence, by Clopper and Pearson.
     *
     * @param of cases counted over all
     * @param low no true share below this one gives so many in more than 25 of 1,000 draws
     * @param high no true share above it gives so few
     */
    public record Share(double of, double low, double high) {
        static Share of(int counted, int all) {
            if (all == 0) return new Share(0, 0, 1);
            double tail = (1 - CONFIDENCE) / 2;
            return new Share(
                    (double) counted / all,
                    counted == 0
                            ? 0
                            : new BetaDistribution(counted, all - counted + 1).inverseCumulativeProbability(tail),
                    counted == all
                            ? 1
                            : new BetaDistribution(counted + 1, all - counted).inverseCumulativeProbability(1 - tail));
        }
    }

    /**
     * Rankings that were about equally sure.
     *
     * @param stated mean probability stated for the first suspect
     * @param right share of them in which it held the truth
     * @param count how many
     */
    public record Bin(double stated, double right, int count) {}

    /**
     * Calibration error that true probabilities would show by the scatter of so few cases.
     *
     * @param mean over many draws of right and wrong
     * @param most not exceeded in 95 of 100
     */
    public record Chance(double mean, double most) {}

    public KindResult {
        reliability = List.copyOf(reliability);
    }

    /** True when the calibration error is more than chance explains, at the level of 5 in 100. */
    public boolean off() {
        return calibrationError > chance.most;
    }

    /** The same figures under another name. */
    public KindResult named(String otherWords) {
        return new KindResult(
                otherWords,
                cases,
                simulated,
                silent,
                unsolved,
                groupFirst,
                groupThree,
                groupFive,
                placeFirst,
                placeThree,
                behindSensor,
                logLoss,
                brier,
                calibrationError,
                chance,
                reliability,
                repair);
    }

    static KindResult of(Study.Outcome o) {
        List<Score> s = o.scores();
        Calibration calibration = Calibration.of(s);
        return new KindResult(
                o.kind().words,
                s.size(),
                o.simulated(),
                o.silent(),
                o.unsolved(),
                within(s, Score::groupRank, 1),
                within(s, Score::groupRank, 3),
                within(s, Score::groupRank, 5),
                within(s, Score::placeRank, 1).of,
                within(s, Score::placeRank, 3).of,
                s.stream().mapToDouble(x -> x.behindSensor() ? 1 : 0).average().orElse(0),
                s.stream().mapToDouble(Score::logLoss).average().orElse(0),
                s.stream().mapToDouble(Score::brier).average().orElse(0),
                calibration.error(),
                calibration.byChance(),
                calibration.classes(),
                o.repair());
    }

    private static Share within(List<Score> scores, ToIntFunction<Score> rank, int most) {
        int counted = (int)
                scores.stream().mapToInt(rank).filter(r -> r >= 1 && r <= most).count();
        return Share.of(counted, scores.size());
    }
}
