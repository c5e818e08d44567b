package loomcase.study;

import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;

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
        double groupFirst,
        double groupThree,
        double groupFive,
        double placeFirst,
        double placeThree,
        double behindSensor,
        double logLoss,
        double brier,
        double calibrationError,
        Chance chance,
        List<Bin> reliability,
        Optional<RepairResult> repair) {

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
                within(s, Score::placeRank, 1),
                within(s, Score::placeRank, 3),
                s.stream().mapToDouble(x -> x.behindSensor() ? 1 : 0).average().orElse(0),
                s.stream().mapToDouble(Score::logLoss).average().orElse(0),
                s.stream().mapToDouble(Score::brier).average().orElse(0),
                calibration.error(),
                calibration.byChance(),
                calibration.classes(),
                o.repair());
    }

    private static double within(List<Score> scores, ToIntFunction<Score> rank, int most) {
        return scores.stream()
                .mapToDouble(s -> rank.applyAsInt(s) >= 1 && rank.applyAsInt(s) <= most ? 1 : 0)
                .average()
                .orElse(0);
    }
}
