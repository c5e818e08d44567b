package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import loomcase.demo.Harness;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.model.Edit;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.junit.jupiter.api.Test;

/**
 * The ranker against complaints drawn from its own model: how often the first suspect holds the planted fault, and whether
 * it says so with the right probability.
 *
 * <p>Measured: right in 0.915 of 200 draws, 0.945 said on average.
 *
 * <p>This is self-consistency, not accuracy: the same priors, circuit and likelihood make the complaints and judge them.
 */
class SelfConsistencyTest {
    private static final Harness H = Harness.TEACHING;
    private static final Priors PRIORS = Priors.builtIn();
    private static final int DRAWS = 200;

    /** Two hundred yes-or-no draws have a standard error of up to 0.035; this is somewhat more than two of them. */
    private static final double TOLERANCE = 0.08;

    private final Random random = new Random(20261125);
    private final Predictor predictor = H.predictor(List.of(), PRIORS.get("observe.missed-code"), Complaints.BOTH);

    @Test
    void theFirstSuspectIsRightAsOftenAsItSays() {
        int hits = 0;
        double said = 0;
        int drawn = 0;
        while (drawn < DRAWS) {
            Hypothesis h = draw();
            Evidence e = complaint(h);
            if (e.codes().isEmpty()) continue;
            drawn++;
            Ranking.Suspect first = H.ranker().rank(e, share -> {}).suspects().get(0);
            said += first.probability();
            if (first.members().stream().anyMatch(m -> m.id().equals(h.id()))) hits++;
        }
        double hitRate = (double) hits / DRAWS;
        double mean = said / DRAWS;
        assertTrue(hitRate > 0.8, "first suspect right in " + hitRate);
        assertEquals(hitRate, mean, TOLERANCE, "said " + mean + " on average, right in " + hitRate);
    }

    private Hypothesis draw() {
        List<Hypothesis> faults = H.hypotheses().subList(1, H.hypotheses().size());
        double total = faults.stream().mapToDouble(Hypothesis::probability).sum();
        double at = random.nextDouble() * total;
        for (Hypothesis h : faults) {
            at -= h.probability();
            if (at < 0) return h;
        }
        return faults.get(faults.size() - 1);
    }

    private Evidence complaint(Hypothesis h) {
        Prediction p = predictor.predict(edits(h));
        boolean present = !h.comesAndGoes() || random.nextDouble() < PRIORS.get("observe.intermittent-active-share");
        double mean = PRIORS.get(h.comesAndGoes() ? "observe.count-mean-intermittent" : "observe.count-mean-permanent");
        List<Evidence.Seen> out = new ArrayList<>();
        boolean[] lookedFor = predictor.lookedFor();
        double[] healthy = predictor.healthy();
        for (int c = 0; c < healthy.length; c++) {
            if (!lookedFor[c]) continue;
            double q = p.of(c, healthy[c]);
            boolean own = random.nextDouble() < (present ? q : 0.9 * q);
            boolean strayActive = random.nextDouble() < PRIORS.get("observe.stray-code");
            boolean strayStored = random.nextDouble() < PRIORS.get("observe.stray-stored-code");
            boolean active = present && own || strayActive;
            if (!active && !(own && !present) && !strayStored) continue;
            OptionalInt count = OptionalInt.of(geometric(own ? mean : 1.5));
            out.add(new Evidence.Seen(
                    predictor.table().codes().get(c), active ? Evidence.State.ACTIVE : Evidence.State.STORED, count));
        }
        return new Evidence(out, Complaints.BOTH);
    }

    private int geometric(double mean) {
        if (random.nextDouble() < 0.05) return 1 + random.nextInt(126);
        int n = 1;
        while (n < 126 && random.nextDouble() > 1 / mean) n++;
        return n;
    }

    /** What is hit: each neighbour in turn by Pólya's urn, as the share hit is beta distributed with weight 2. */
    private List<Edit> edits(Hypothesis h) {
        if (h.cause() instanceof Hypothesis.Fixed f) return f.edits();
        Hypothesis.AnyOf cause = (Hypothesis.AnyOf) h.cause();
        while (true) {
            List<Hypothesis.Hit> chosen = new ArrayList<>();
            for (int i = 0; i < cause.hits().size(); i++)
                if (random.nextDouble() < (2 * cause.hitShare() + chosen.size()) / (2 + i))
                    chosen.add(cause.hits().get(i));
            if (chosen.size() < cause.least()) continue;
            List<Edit> out = new ArrayList<>();
            for (int i = 0; i < chosen.size(); i++)
                if (!cause.together()) out.addAll(chosen.get(i).edits());
                else if (i > 0)
                    out.add(new Edit.Bridge(
                            chosen.get(i - 1).point(), chosen.get(i).point(), Edit.SHORT_OHMS));
            return out;
        }
    }
}
