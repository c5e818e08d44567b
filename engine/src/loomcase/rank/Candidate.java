package loomcase.rank;

import java.util.List;
import java.util.Optional;
import loomcase.faults.Hypothesis;
import loomcase.meter.Subject;
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
 * @param logEvidence natural logarithm of its likelihood relative to a healthy engine, the {@link Complaint} weighed
 * @param logTests the same for each test made, in order; empty while no test has been weighed
 * @param both the two faults as a test sees them, of a candidate that takes two
 */
record Candidate(
        Hypothesis hypothesis,
        String words,
        List<PlaceId> places,
        List<Edit> edits,
        Prediction prediction,
        double logPrior,
        double logEvidence,
        double[] logTests,
        Optional<Subject> both) {

    /** A candidate for which no test has been weighed. */
    Candidate(
            Hypothesis hypothesis,
            String words,
            List<PlaceId> places,
            List<Edit> edits,
            Prediction prediction,
            double logPrior,
            double logEvidence) {
        this(hypothesis, words, places, edits, prediction, logPrior, logEvidence, NO_TESTS, Optional.empty());
    }

    private static final double[] NO_TESTS = {};

    double logScore() {
        return logPrior + logFit();
    }

    /** Codes and tests together. */
    double logFit() {
        double sum = logEvidence;
        for (double t : logTests) sum += t;
        return sum;
    }

    Candidate withTests(double[] logs) {
        return new Candidate(hypothesis, words, places, edits, prediction, logPrior, logEvidence, logs, both);
    }

    /** The same of two faults that a test sees as these. */
    Candidate of(Subject two) {
        return new Candidate(
                hypothesis, words, places, edits, prediction, logPrior, logEvidence, logTests, Optional.of(two));
    }

    /** The candidate as a test sees it. */
    Subject subject() {
        return both.orElseGet(() ->
                new Subject(hypothesis.family(), places, hypothesis.comesAndGoes(), edits).at(hypothesis.rubPoint()));
    }

    static double logOdds(double probability) {
        return Math.log(Math.max(probability, 1e-300)) - Math.log1p(-Math.min(probability, 1 - 1e-12));
    }
}
