package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
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
    private static final double WITHIN = 1.15;

    /** What the rule leaves out at most here: faults that the first one cuts off. */
    private static final double CUT_OFF = 6;

    @ParameterizedTest
    @ValueSource(strings = {"110/3", "100/4,102/4", "647/5", "102/3", "110/3,102/3,100/4"})
    void aHiddenFaultIsAsProbableAsAllPairsSay(String codes) {
        Evidence e = Complaints.typed(codes, "", Complaints.BOTH);
        Predictor predictor = H.predictor(
                e.codes().stream().map(Evidence.Seen::code).toList(),
                PRIORS.get("observe.missed-code"),
                e.operatingPoints());
        SlowLikelihood slow = new SlowLikelihood(H.circuit(), predictor, e, PRIORS);
        Ranking ranking = H.ranker().rank(e, share -> {});
        Map<String, Set<String>> alike = new HashMap<>();
        for (Group g : H.ranker().weighed(e, share -> {}).groups()) {
            Set<String> ids = g.members().stream().map(c -> c.hypothesis().id()).collect(Collectors.toSet());
            ids.forEach(id -> alike.put(id, ids));
        }
        double rule = hidden(ranking, alike, predictor, slow, (a, b) -> combined(predictor, a, b));
        assertEquals(1, ranking.hidden() / rule, WITHIN - 1, codes + ": " + ranking.hidden() + " for " + rule);
        double joint = hidden(ranking, alike, predictor, slow, (a, b) -> {
            List<Edit> both = new ArrayList<>(a);
            both.addAll(b);
            return predictor.predict(both);
        });
        String said = codes + ": " + ranking.hidden() + " for " + joint + " solved jointly";
        assertTrue(ranking.hidden() < WITHIN * joint, said);
        assertTrue(joint < CUT_OFF * ranking.hidden(), said);
    }

    /** @param alike by fault, those that the codes cannot tell from it, itself among them */
    private static double hidden(
            Ranking ranking,
            Map<String, Set<String>> alike,
            Predictor predictor,
            SlowLikelihood slow,
            BiFunction<List<Edit>, List<Edit>, Prediction> both) {
        double odds = 0;
        Set<String> before = new HashSet<>();
        for (Ranking.Suspect s : ranking.suspects()) {
            Set<String> listed = new HashSet<>(before);
            for (String id : halves(s)) {
                listed.addAll(alike.get(id));
                for (Ranking.Suspect pair : ranking.suspects())
                    if (pair.twoFaults()
                            && !s.twoFaults()
                            && alike.get(id).stream().anyMatch(halves(pair)::contains))
                        for (String half : halves(pair)) listed.addAll(alike.get(half));
            }
            for (Ranking.Member m : s.members())
                if (m.probability() >= LEAST && !m.id().equals(FaultGenerator.NOTHING))
                    odds += m.probability() * beside(m, listed, predictor, slow, both);
            if (!s.twoFaults()) before.addAll(listed(s));
        }
        return odds / (1 + odds);
    }

    private static List<String> halves(Ranking.Suspect s) {
        return List.of(s.members().get(0).id().split(" \\+ "));
    }

    private static Set<String> listed(Ranking.Suspect s) {
        return s.members().stream().map(Ranking.Member::id).collect(Collectors.toSet());
    }

    /**
     * Odds that some lasting fault which shows a code by itself is there as well and adds none to what was seen.
     *
     * @param listed faults whose pair with this one has a place among the suspects, or that are the same suspect
     */
    private static double beside(
            Ranking.Member m,
            Set<String> listed,
            Predictor predictor,
            SlowLikelihood slow,
            BiFunction<List<Edit>, List<Edit>, Prediction> both) {
        double alone = slow.ratio(predictor.predict(m.edits()), false);
        double sum = 0;
        for (Hypothesis h : H.hypotheses()) {
            if (!(h.cause() instanceof Hypothesis.Fixed f) || h.comesAndGoes() || listed.contains(h.id())) continue;
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
