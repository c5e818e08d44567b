package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import loomcase.demo.Harness;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.model.Edit;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.junit.jupiter.api.Test;

/**
 * Two faults at once, against every pair of groups of the teaching harness solved jointly, on complaints where a pair leads.
 *
 * <p>Measured: 26 of 30 best pairs found. The four others act only jointly (a 5 V rail tied to battery lifts a drifted sensor
 * over its limit; a bad ground hides a code of the rail), which the search says that it can miss; there the pair shown is up
 * to 8.3 natural logarithms short, in one case 25 (a resistive ground that only a second fault makes show). Every pair that
 * is shown has the exact score.
 */
class PairSearchTest {
    private static final Harness H = Harness.TEACHING;
    private static final Priors PRIORS = Priors.builtIn();
    private static final int DRAWS = 30;

    private record Scored(Set<String> ids, double score) {}

    @Test
    void theBestPairsAreThoseOfAnExhaustiveSearch() {
        Predictor predictor = H.predictor(List.of(), PRIORS.get("observe.missed-code"), Complaints.BOTH);
        Random random = new Random(48);
        int tried = 0;
        int same = 0;
        int farShort = 0;
        double worst = 0;
        while (tried < DRAWS) {
            List<Edit> edits = new ArrayList<>(draw(random));
            edits.addAll(draw(random));
            Evidence e = Complaints.drawn(predictor, predictor.predict(edits), random, 0);
            if (e.codes().size() < 2) continue;
            SlowLikelihood slow = new SlowLikelihood(H.circuit(), predictor, e, PRIORS);
            Likelihood likelihood = new Likelihood(predictor, e, PRIORS);
            List<Group> groups = groups(predictor, likelihood);
            List<Scored> all = exhaustive(groups, predictor, slow);
            if (all.isEmpty() || all.get(0).score() < groups.get(0).logScore()) continue;
            tried++;
            List<Group> found = new PairSearch(
                            predictor,
                            likelihood,
                            new TestLikelihood(H.ranker().meter(e), List.of(), new TestLikelihood.Memory()))
                    .search(groups);
            // a pair whose halves explain the codes only jointly is a known miss, see PairSearch
            if (found.isEmpty()) continue;
            Group best = found.stream()
                    .max(Comparator.comparingDouble(Group::logScore))
                    .orElseThrow();
            if (ids(best.parts().get(0), best.parts().get(1)).equals(all.get(0).ids())) same++;
            double isShort = all.get(0).score() - best.logScore();
            worst = Math.max(worst, isShort);
            if (isShort > 9) farShort++;
            for (Group g : found)
                all.stream()
                        .filter(s ->
                                s.ids().equals(ids(g.parts().get(0), g.parts().get(1))))
                        .forEach(s -> assertEquals(s.score(), g.logScore(), 1e-6, "score of " + s.ids()));
        }
        assertTrue(same >= 0.8 * tried, same + " of " + tried + " best pairs found, worst short by " + worst);
        assertTrue(farShort <= 1, farShort + " far short of the best pair, the farthest by " + worst);
    }

    /** A test that one fault moves counts as with that fault, one that both move once, one that they move apart for both. */
    @Test
    void testsCountAsTheFaultThatMovesThemHasThem() {
        assertEquals(5, PairSearch.tested(new double[] {5}, new double[] {0}), 1e-12);
        assertEquals(-8, PairSearch.tested(new double[] {-8, 0}, new double[] {-3, 0}), 1e-12);
        assertEquals(2, PairSearch.tested(new double[] {5}, new double[] {-3}), 1e-12);
        assertEquals(6 + 4, PairSearch.tested(new double[] {5, 4}, new double[] {6, 0}), 1e-12);
    }

    private static List<Edit> draw(Random random) {
        while (true) {
            Hypothesis h = H.hypotheses().get(1 + random.nextInt(H.hypotheses().size() - 1));
            if (h.cause() instanceof Hypothesis.Fixed f && !h.comesAndGoes()) return f.edits();
        }
    }

    private static List<Group> groups(Predictor predictor, Likelihood likelihood) {
        List<Candidate> out = new ArrayList<>();
        for (Hypothesis h : H.hypotheses()) {
            if (!(h.cause() instanceof Hypothesis.Fixed f) || h.id().equals(FaultGenerator.NOTHING)) continue;
            Prediction p = predictor.predict(f.edits());
            out.add(new Candidate(
                    h,
                    h.words(),
                    h.places(),
                    f.edits(),
                    p,
                    Candidate.logOdds(h.probability()),
                    likelihood.ratio(p, h.comesAndGoes())));
        }
        return Group.of(out);
    }

    /** Every pair that fits better than its better half by more than one natural logarithm, best first. */
    private static List<Scored> exhaustive(List<Group> groups, Predictor predictor, SlowLikelihood slow) {
        List<Scored> out = new ArrayList<>();
        for (int i = 0; i < groups.size(); i++)
            for (int j = i + 1; j < groups.size(); j++) {
                Group a = groups.get(i);
                Group b = groups.get(j);
                List<Edit> edits = new ArrayList<>(a.leader().edits());
                edits.addAll(b.leader().edits());
                double fit = Math.log(slow.ratio(predictor.predict(edits), false));
                if (fit > Math.max(a.leader().logEvidence(), b.leader().logEvidence()) + 1)
                    out.add(new Scored(ids(a, b), a.logPriorMass() + b.logPriorMass() + fit + present(a) + present(b)));
            }
        out.sort(Comparator.comparingDouble((Scored s) -> -s.score())
                .thenComparing(s -> s.ids().toString()));
        return out;
    }

    /** Of a fault that comes and goes only that counts which is there while codes are read. */
    private static double present(Group g) {
        return g.leader().hypothesis().comesAndGoes() ? Math.log(PRIORS.get("observe.intermittent-active-share")) : 0;
    }

    private static Set<String> ids(Group a, Group b) {
        return new TreeSet<>(
                Set.of(a.leader().hypothesis().id(), b.leader().hypothesis().id()));
    }
}
