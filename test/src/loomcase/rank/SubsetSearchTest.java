package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import loomcase.demo.Harness;
import loomcase.faults.AfterWork;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.faults.WorkDone;
import loomcase.model.Edit;
import loomcase.model.PlaceId;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Which wires a common cause hit, against every subset solved jointly.
 *
 * <p>Codes are drawn from the joint prediction of a random subset, with strays. "Score" is log P(S) + log likelihood; gaps
 * and errors are natural logarithms. Measured, 120 draws each: separate hits 117 to 120 best (97.5 % or more), mean error
 * of the sum 0.12 to 0.55, extremes −1.7 and +0.3; touching wires of few nets are exact.
 */
class SubsetSearchTest {
    private static final Priors PRIORS = Priors.builtIn();
    private static final int DRAWS = 120;

    /** How often the chosen subset is the best, how far it falls short at worst, and how far the sum is from the exact one. */
    private record Outcome(int tried, int best, double worstGap, double worstLow, double worstHigh, double meanError) {}

    @ParameterizedTest
    @CsvSource({
        "teaching, common.rub-point.ground B1 R1, 3.1, 1.0",
        "teaching, common.rub-point.open B1 R1, 0.5, 1.0",
        "teaching, common.half-latched J1, 0.5, 1.0",
        "larch-13, common.rub-point.ground BM6 R13, 0.5, 1.0",
        "larch-13, common.rub-point.open BE11 R8, 0.5, 1.0"
    })
    void theChosenSubsetIsTheBestNearlyAlways(String circuit, String id, double gap, double sumError) {
        Harness h = circuit.equals("teaching") ? Harness.TEACHING : Harness.LARCH;
        Outcome o = run(h, h.hypothesis(id));
        assertTrue(o.best >= 0.95 * o.tried, o.toString());
        assertTrue(o.worstGap <= gap, "short of the best by " + o);
        assertTrue(o.meanError <= sumError, "mean error of the log sum " + o);
    }

    @ParameterizedTest
    @CsvSource({
        "teaching, common.rub-point.neighbour B1 R1, 1e-9, 1e-9",
        "teaching, common.hot-spot B3, 1e-9, 1e-9",
        "larch-13, common.rub-point.neighbour BE11 R8, 11, 1.0"
    })
    void touchingWiresAreTheBestSetMostly(String circuit, String id, double gap, double sumError) {
        Harness h = circuit.equals("teaching") ? Harness.TEACHING : Harness.LARCH;
        Outcome o = run(h, h.hypothesis(id));
        assertTrue(o.best >= 0.90 * o.tried, o.toString());
        assertTrue(o.worstGap <= gap, "short of the best by " + o);
        assertTrue(o.meanError <= sumError, "mean error of the log sum " + o);
    }

    /**
     * Wires that touch one held by ground, a supply or a return, among more than the search can try all sets of: what is found
     * is no worse than what is there. The numbers are those measured: without held wires among those looked into 38 and 36,
     * without sets grown from them 37 and 34.
     */
    @ParameterizedTest
    @CsvSource({"common.rub-point.neighbour BE2 R2, 39", "common.rub-point.neighbour BE7 R6, 36"})
    void whatTouchesAHeldWireIsFoundMostly(String id, int least) {
        Harness h = Harness.LARCH;
        Hypothesis.AnyOf cause = (Hypothesis.AnyOf) h.hypothesis(id).cause();
        Predictor blank = h.predictor(List.of(), PRIORS.get("observe.missed-code"), Complaints.BOTH);
        Random random = new Random(id.hashCode());
        int found = 0;
        int tried = 0;
        while (tried < 40) {
            List<Hypothesis.Hit> hit = new ArrayList<>(cause.hits());
            Collections.shuffle(hit, random);
            List<Hypothesis.Hit> some = hit.subList(0, 3 + random.nextInt(3));
            List<Hypothesis.Hit> chain =
                    cause.hits().stream().filter(some::contains).toList();
            if (chain.stream().noneMatch(Hypothesis.Hit::held)) continue;
            List<Edit> edits = edits(chain, (1 << chain.size()) - 1, true);
            Evidence e = Complaints.drawn(blank, blank.predict(edits), random, 0);
            if (e.codes().size() < 2) continue;
            tried++;
            Ranker.Weighed w = h.ranker().weighed(e, share -> {});
            double there = w.likelihood().ratio(w.predictor().predict(edits), false);
            double best = w.groups().stream()
                    .flatMap(g -> g.members().stream())
                    .filter(c -> c.hypothesis().id().equals(id))
                    .mapToDouble(Candidate::logEvidence)
                    .findFirst()
                    .orElse(Double.NEGATIVE_INFINITY);
            // A set of fewer wires may be the better one though it fits a little less.
            if (best > there - 3) found++;
        }
        assertTrue(found >= least, found + " of " + tried);
    }

    /** A wire that was repaired is left hit only seldom; the others are searched as before. */
    @ParameterizedTest
    @CsvSource({
        "common.rub-point.ground B1 R1, 3.1, 1.0",
        "common.rub-point.neighbour B1 R1, 1e-9, 1e-9",
    })
    void aWireThatWasRepairedIsLeftHitOnlySeldom(String id, double gap, double sumError) {
        WorkDone work = WorkDone.of(
                Harness.TEACHING.circuit(),
                new WorkDone.Job(WorkDone.Deed.REPAIRED, new PlaceId(PlaceId.Kind.WIRE, "W11")));
        Hypothesis h = AfterWork.weigh(
                        Harness.TEACHING.circuit(),
                        Harness.TEACHING.layout(),
                        PRIORS,
                        List.of(Harness.TEACHING.hypothesis(id)),
                        work)
                .hypotheses()
                .get(0);
        Outcome o = run(Harness.TEACHING, h);
        assertTrue(o.best >= 0.90 * o.tried, o.toString());
        assertTrue(o.worstGap <= gap, "short of the best by " + o);
        assertTrue(o.meanError <= sumError, "mean error of the log sum " + o);
    }

    private static Outcome run(Harness harness, Hypothesis h) {
        Hypothesis.AnyOf cause = (Hypothesis.AnyOf) h.cause();
        Predictor predictor = harness.predictor(List.of(), PRIORS.get("observe.missed-code"), Complaints.BOTH);
        List<Hypothesis.Hit> hits = cause.hits().stream()
                .filter(x -> cause.together() || predictor.predict(x.edits()).codes().length > 0)
                .toList();
        assertTrue(hits.size() >= 3 && hits.size() <= 12, id(h, hits) + " is no case for all subsets");
        List<Chance> sets = sets(cause, hits);
        List<Prediction> joint =
                sets.stream().map(set -> predictor.predict(set.edits)).toList();
        Map<String, Double> points = new HashMap<>();
        cause.hits().forEach(x -> points.put(x.point(), 0.0));
        Random random = new Random(h.id().hashCode());
        int tried = 0;
        int best = 0;
        double worstGap = 0;
        double low = 0;
        double high = 0;
        double error = 0;
        for (int draw = 0; draw < DRAWS; draw++) {
            Evidence e = Complaints.drawn(predictor, joint.get(random.nextInt(joint.size())), random, 0.005);
            Likelihood likelihood = new Likelihood(predictor, e, PRIORS);
            SlowLikelihood slow = new SlowLikelihood(harness.circuit(), predictor, e, PRIORS);
            List<Candidate> found =
                    new SubsetSearch(predictor, likelihood, points).search(List.of(h), Double.NEGATIVE_INFINITY);
            if (found.isEmpty()) continue;
            double most = Double.NEGATIVE_INFINITY;
            double chosen = Double.NEGATIVE_INFINITY;
            double sum = 0;
            for (int s = 0; s < sets.size(); s++) {
                double score = sets.get(s).probability * slow.ratio(joint.get(s), false);
                sum += score;
                most = Math.max(most, Math.log(score));
                if (sets.get(s).edits.equals(found.get(0).edits())) chosen = Math.max(chosen, Math.log(score));
            }
            tried++;
            if (chosen >= most - 1e-6) best++;
            worstGap = Math.max(worstGap, most - chosen);
            double bounded = found.get(0).logScore() - Candidate.logOdds(h.probability());
            low = Math.min(low, bounded - Math.log(sum));
            high = Math.max(high, bounded - Math.log(sum));
            error += Math.abs(bounded - Math.log(sum));
        }
        assertTrue(tried >= DRAWS / 2, "only " + tried + " complaints led to a search");
        return new Outcome(tried, best, worstGap, low, high, error / tried);
    }

    private static String id(Hypothesis h, List<Hypothesis.Hit> hits) {
        return h.id() + " with " + hits.size() + " hits";
    }

    /** What a cause may do to the circuit. */
    private record Chance(List<Edit> edits, double probability) {}

    /**
     * Everything that a cause may do, from every set of wires hit and every set of these that work left as it was. Touching
     * wires of one net are as one of them.
     */
    private static List<Chance> sets(Hypothesis.AnyOf cause, List<Hypothesis.Hit> hits) {
        int all = cause.hits().size();
        double enough = 1;
        for (int k = 0; k < cause.least(); k++) enough -= Math.pow(all, k) * polya(cause.hitShare(), all, k);
        Map<Integer, Double> sets = new LinkedHashMap<>();
        for (int hit = 1; hit < 1 << hits.size(); hit++) {
            double p = polya(cause.hitShare(), hits.size(), Integer.bitCount(hit)) / enough;
            for (int left = hit; left > 0; left = left - 1 & hit)
                sets.merge(cause.together() ? nets(hits, left) : left, p * left(hits, hit, left), Double::sum);
        }
        return sets.entrySet().stream()
                .filter(set -> Integer.bitCount(set.getKey()) >= cause.least())
                .map(set -> new Chance(edits(hits, set.getKey(), cause.together()), set.getValue()))
                .toList();
    }

    /** The first wire of each net of which some wire is in a set. */
    private static int nets(List<Hypothesis.Hit> hits, int set) {
        int out = 0;
        for (int i = 0; i < hits.size(); i++) {
            int first = 0;
            while (!hits.get(first).net().equals(hits.get(i).net())) first++;
            if ((set >> i & 1) != 0) out |= 1 << first;
        }
        return out;
    }

    private static double left(List<Hypothesis.Hit> hits, int hit, int left) {
        double out = 1;
        for (int i = 0; i < hits.size(); i++) {
            double own = hits.get(i).left() < 1 ? PRIORS.get("work.left.mended") : 1;
            if ((hit >> i & 1) != 0) out *= (left >> i & 1) != 0 ? own : 1 - own;
        }
        return out;
    }

    /** What a set does; touching wires in a chain, in order. */
    private static List<Edit> edits(List<Hypothesis.Hit> hits, int set, boolean together) {
        List<Edit> edits = new ArrayList<>();
        Hypothesis.Hit before = null;
        for (int i = 0; i < hits.size(); i++) {
            if ((set >> i & 1) == 0) continue;
            if (!together) edits.addAll(hits.get(i).edits());
            else if (before != null)
                edits.add(new Edit.Bridge(before.point(), hits.get(i).point(), Edit.SHORT_OHMS));
            before = hits.get(i);
        }
        return edits;
    }

    /**
     * Probability of one certain set of k among n by Pólya's urn, which the beta-binomial is: an urn of weight 2 with
     * share {@code mean} for hit, each draw adding its own kind (from memory).
     */
    private static double polya(double mean, int n, int k) {
        double out = 1;
        double hit = 2 * mean;
        double miss = 2 - hit;
        for (int i = 0; i < n; i++) {
            boolean isHit = i < k;
            out *= (isHit ? hit : miss) / (hit + miss);
            if (isHit) hit++;
            else miss++;
        }
        return out;
    }
}
