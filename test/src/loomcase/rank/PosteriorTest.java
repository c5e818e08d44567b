package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import loomcase.demo.Harness;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.junit.jupiter.api.Test;

/** The posterior against a slow enumeration of every single fault, on the teaching harness. */
class PosteriorTest {
    private static final double SAME = 1e-9;
    private static final Harness H = Harness.TEACHING;
    private static final Priors PRIORS = Priors.builtIn();

    @Test
    void everyProbabilityIsThatOfASlowEnumeration() {
        int compared = 0;
        for (Evidence e : complaints()) compared += compare(e);
        assertTrue(compared > 500, "only " + compared + " hypotheses were listed and compared");
    }

    private static List<Evidence> complaints() {
        List<Evidence> out = new ArrayList<>();
        out.add(Complaints.typed("110/3", "", Complaints.BOTH));
        out.add(Complaints.typed("110/3x40", "", Complaints.BOTH));
        out.add(Complaints.typed("", "110/3x12", List.of("key-on")));
        out.add(Complaints.typed("100/4,102/4", "", Complaints.BOTH));
        out.add(Complaints.typed("647/5x2", "168/4", List.of("idle-warm")));
        out.add(Complaints.typed("110/3", "110/4x9,9999/31", Complaints.BOTH));
        Predictor predictor = H.predictor(List.of(), PRIORS.get("observe.missed-code"), Complaints.BOTH);
        Random random = new Random(20261125);
        while (out.size() < 26) {
            Hypothesis h = H.hypotheses().get(1 + random.nextInt(H.hypotheses().size() - 1));
            if (!(h.cause() instanceof Hypothesis.Fixed f)) continue;
            Evidence e = Complaints.drawn(predictor, predictor.predict(f.edits()), random, 0.01);
            if (!e.codes().isEmpty()) out.add(e);
        }
        return out;
    }

    private static int compare(Evidence e) {
        Predictor predictor = H.predictor(
                e.codes().stream().map(Evidence.Seen::code).toList(),
                PRIORS.get("observe.missed-code"),
                e.operatingPoints());
        SlowLikelihood slow = new SlowLikelihood(H.circuit(), predictor, e, PRIORS);
        Map<String, Double> odds = new HashMap<>();
        double withoutCause = withoutCause(predictor, slow);
        for (Hypothesis h : H.hypotheses())
            if (h.cause() instanceof Hypothesis.Fixed f) {
                double prior = h.id().equals(FaultGenerator.NOTHING) ? 1 : odds(h);
                Prediction p = predictor.predict(f.edits());
                double all = slow.ratio(p, h.comesAndGoes());
                double strays = slow.straysOnly(p, h.comesAndGoes());
                odds.put(h.id(), prior * (all - strays + withoutCause * strays));
            }
        Ranking ranking = H.ranker().rank(e, share -> {});
        double perOdds = ranking.unexplained() / slow.outsideOdds();
        int compared = 0;
        for (Ranking.Suspect s : ranking.suspects()) {
            if (s.twoFaults()) continue;
            for (Ranking.Member m : s.members()) {
                Double expected = odds.get(m.id());
                if (expected == null) continue;
                assertEquals(expected * perOdds, m.probability(), SAME, m.id() + " given " + e.codes());
                assertEquals(1, m.probability() / (expected * perOdds), 1e-6, m.id() + " given " + e.codes());
                compared++;
            }
        }
        return compared;
    }

    private static double odds(Hypothesis h) {
        return h.probability() / (1 - h.probability());
    }

    /**
     * Every evidence here has codes, so somebody complained: of engines with codes the share in the priors file has nothing
     * wrong. The rest have a fault that shows a code of its own.
     */
    private static double withoutCause(Predictor predictor, SlowLikelihood slow) {
        double share = PRIORS.get("observe.complaint-without-cause");
        double faults = 0;
        for (Hypothesis h : H.hypotheses()) {
            if (h.id().equals(FaultGenerator.NOTHING)) continue;
            boolean common = !(h.cause() instanceof Hypothesis.Fixed);
            double silent = common
                    ? 0
                    : slow.silent(predictor.predict(((Hypothesis.Fixed) h.cause()).edits()), h.comesAndGoes());
            faults += odds(h) * (1 - silent);
        }
        return share / (1 - share) * faults / slow.someStray();
    }
}
