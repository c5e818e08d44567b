package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import loomcase.demo.Harness;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.model.Edit;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A second fault that no code gives away, against a slow sum over every pair of faults, by the combination rule and solved
 * jointly.
 */
class HiddenTest {
    private static final Harness H = Harness.TEACHING;
    private static final Priors PRIORS = Priors.builtIn();

    /** Shares below this of the first fault are left out. */
    private static final double LEAST = 0.001;

    /** By how many times the groups' leaders may be off. */
    private static final double WITHIN = 1.3;

    /** What the rule leaves out at most here: faults that the first one cuts off. */
    private static final double CUT_OFF = 6;

    @ParameterizedTest
    @ValueSource(strings = {"110/3", "100/4,102/4", "647/5", "102/3"})
    void aHiddenFaultIsAsProbableAsAllPairsSay(String codes) {
        Evidence e = Complaints.typed(codes, "", Complaints.BOTH);
        Predictor predictor = H.predictor(
                e.codes().stream().map(Evidence.Seen::code).toList(),
                PRIORS.get("observe.missed-code"),
                e.operatingPoints());
        SlowLikelihood slow = new SlowLikelihood(H.circuit(), predictor, e, PRIORS);
        Ranking ranking = H.ranker().rank(e, share -> {});
        double rule = hidden(ranking, predictor, slow, (a, b) -> combined(predictor, a, b));
        assertEquals(1, ranking.hidden() / rule, WITHIN - 1, codes + ": " + ranking.hidden() + " for " + rule);
        double joint = hidden(ranking, predictor, slow, (a, b) -> {
            List<Edit> both = new ArrayList<>(a);
            both.addAll(b);
            return predictor.predict(both);
        });
        String said = codes + ": " + ranking.hidden() + " for " + joint + " solved jointly";
        assertTrue(ranking.hidden() < WITHIN * joint, said);
        assertTrue(joint < CUT_OFF * ranking.hidden(), said);
    }

    private static double hidden(
            Ranking ranking,
            Predictor predictor,
            SlowLikelihood slow,
            BiFunction<List<Edit>, List<Edit>, Prediction> both) {
        double odds = 0;
        for (Ranking.Suspect s : ranking.suspects()) {
            if (s.twoFaults()) continue;
            for (Ranking.Member m : s.members())
                if (m.probability() >= LEAST && !m.id().equals(FaultGenerator.NOTHING))
                    odds += m.probability() * beside(m, s, predictor, slow, both);
        }
        return odds / (1 + odds);
    }

    /**
     * Odds that some lasting fault which shows a code by itself is there as well and adds none to what was seen. One that the
     * codes cannot tell from the first is the same suspect and not counted.
     */
    private static double beside(
            Ranking.Member m,
            Ranking.Suspect suspect,
            Predictor predictor,
            SlowLikelihood slow,
            BiFunction<List<Edit>, List<Edit>, Prediction> both) {
        Set<String> same = suspect.members().stream().map(Ranking.Member::id).collect(Collectors.toSet());
        double alone = slow.ratio(predictor.predict(m.edits()), false);
        double sum = 0;
        for (Hypothesis h : H.hypotheses()) {
            if (!(h.cause() instanceof Hypothesis.Fixed f) || h.comesAndGoes() || same.contains(h.id())) continue;
            if (1 - slow.silent(predictor.predict(f.edits()), false) <= 0.5) continue;
            double ratio = slow.ratio(both.apply(m.edits(), f.edits()), false) / alone;
            if (ratio <= Math.E) sum += h.probability() / (1 - h.probability()) * ratio;
        }
        return sum;
    }

    private static Prediction combined(Predictor predictor, List<Edit> a, List<Edit> b) {
        Prediction x = predictor.predict(a);
        Prediction y = predictor.predict(b);
        double[] healthy = predictor.healthy();
        int n = healthy.length;
        int[] codes = new int[n];
        double[] probability = new double[n];
        for (int c = 0; c < n; c++) {
            codes[c] = c;
            probability[c] = 1 - (1 - x.of(c, healthy[c])) * (1 - y.of(c, healthy[c])) / (1 - healthy[c]);
        }
        return new Prediction(codes, probability, true);
    }
}
