package loomcase.rank;

import java.util.List;
import loomcase.faults.Hypothesis;
import loomcase.model.Edit;
import loomcase.model.PlaceId;
import loomcase.predict.Prediction;

/**
 * A hypothesis made concrete enough to be scored.
 *
 * @param hypothesis what may be wrong
 * @param words in plain words, with what was hit where a common cause chose
 * @param places the place to name first
 * @param edits what it does to the circuit
 * @param prediction codes it would show
 * @param logPrior natural logarithm of its prior odds against "nothing is wrong"
 * @param logEvidence natural logarithm of its likelihood relative to a healthy engine
 */
record Candidate(
        Hypothesis hypothesis,
        String words,
        List<PlaceId> places,
        List<Edit> edits,
        Prediction prediction,
        double logPrior,
        double logEvidence) {

    double logScore() {
        return logPrior + logEvidence;
    }

    static double logOdds(double probability) {
        return Math.log(Math.max(probability, 1e-300)) - Math.log1p(-Math.min(probability, 1 - 1e-12));
    }
}
