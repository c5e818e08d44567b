package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import loomcase.demo.Harness;
import loomcase.j1939.Code;
import loomcase.model.Edit;
import loomcase.predict.Between;
import loomcase.predict.PairTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.junit.jupiter.api.Test;

/** The search of all pairs against every pair of the teaching harness solved jointly; {@link PairCheck} does it for larger ones. */
class AllPairsTest {
    private static final Harness H = Harness.TEACHING;
    private static final int BEST = 20;

    @Test
    void noneOfTheBestPairsOfGroupsIsLost() {
        Random random = new Random(20);
        int quickLost = 0;
        for (int k = 0; k < 60; k++) {
            Ranker.Weighed w = complaint(random, k % 2 == 0);
            quickLost += check(w, w.groups(), k);
        }
        assertTrue(quickLost > 25, "the complaints do not try the search: the quick one loses only " + quickLost);
    }

    @Test
    void noneOfTheBestPairsOfHypothesesIsLost() {
        Random random = new Random(21);
        for (int k = 0; k < 3; k++) {
            Ranker.Weighed w = complaint(random, k % 2 == 0);
            List<Group> each = new ArrayList<>();
            // of nothing and a fault the search makes no pair
            for (Group g : w.groups())
                for (Candidate c : g.members())
                    if (random.nextInt(4) == 0 && !c.edits().isEmpty()) each.addAll(Group.of(List.of(c)));
            assertTrue(each.size() > 60, each.size() + " hypotheses");
            check(w, each, k);
        }
    }

    @Test
    void theFloorLosesNoneAboveIt() {
        Random random = new Random(22);
        for (int k = 0; k < 20; k++) {
            Ranker.Weighed w = complaint(random, true);
            List<PairOracle.Scored> best =
                    new PairOracle(w.predictor(), w.likelihood()).best(w.groups(), BEST, share -> {});
            if (best.size() < 4) continue;
            double floor = best.get(best.size() / 2).score();
            List<Double> found = new AllPairs(w.predictor(), w.likelihood(), w.groups(), BEST, floor)
                    .search(List.of()).stream().map(AllPairs.Scored::score).toList();
            for (int i = 0; i <= best.size() / 2; i++)
                assertEquals(best.get(i).score(), found.get(i), 1e-9, "pair " + i + " of complaint " + k);
        }
    }

    @Test
    void whatIsKnownOfAPairHoldsOfTheJointSolution() {
        Ranker.Weighed w = complaint(new Random(23), true);
        List<Group> groups = faults(w);
        Known known = new Known(w, groups);
        for (int a = 0; a < groups.size(); a++) for (int b = a + 1; b < groups.size(); b++) known.check(a, b, 1e-4);
        assertTrue(
                known.exact > 20, "only " + known.exact + " codes of pairs are known exactly and not those of a half");
    }

    @Test
    void drawnPairsOfALargeHarnessToo() {
        Random random = new Random(24);
        Ranker.Weighed w = complaint(Harness.LARCH, random, false);
        List<Group> groups = faults(w);
        Known known = new Known(w, groups);
        for (int k = 0; k < 6000; k++) {
            int a = random.nextInt(groups.size());
            int b = random.nextInt(groups.size());
            if (a != b) known.check(a, b, 1e-3);
        }
        assertTrue(
                known.exact > 5, "only " + known.exact + " codes of pairs are known exactly and not those of a half");
    }

    private static List<Group> faults(Ranker.Weighed w) {
        return w.groups().stream().filter(g -> !g.leader().edits().isEmpty()).toList();
    }

    /** Asks whether the joint prediction of pairs lies where the table says, after every step of looking. */
    private static final class Known {
        private final Ranker.Weighed w;
        private final List<Group> groups;
        private final double[] healthy;
        private final PairTable.Look look;
        private final List<Half> halves = new ArrayList<>();

        /** Codes known exactly that neither half shows alone as they are. */
        private int exact;

        Known(Ranker.Weighed w, List<Group> groups) {
            this.w = w;
            this.groups = groups;
            this.healthy = w.predictor().healthy();
            List<Code> seen = Arrays.stream(w.likelihood().seen())
                    .mapToObj(w.predictor().table().codes()::get)
                    .toList();
            PairTable table = w.predictor()
                    .pairs(
                            groups.stream().map(g -> g.leader().edits()).toList(),
                            seen,
                            (a, b) -> PairOracle.both(groups.get(a), groups.get(b)));
            this.look = table.look();
            for (int k = 0; k < groups.size(); k++)
                halves.add(Half.of(groups.get(k), table.touched(k), table.notLookedAt(), w.likelihood()));
        }

        void check(int a, int b, double within) {
            Prediction joint = w.predictor().predict(PairOracle.both(groups.get(a), groups.get(b)));
            // No combination of regions was found: its volts are arbitrary, and those of a pair laid over each other
            // are not.
            if (!joint.settled()) return;
            double fit = w.likelihood().ratio(joint, false);
            String what = groups.get(a).leader().edits() + " with "
                    + groups.get(b).leader().edits();
            double byHalves = Half.most(halves.get(a), halves.get(b), look.ties(a, b), w.likelihood());
            assertTrue(byHalves + 0.1 >= fit, what + ": " + byHalves + " by halves does not bound " + fit);
            List<Between> last = look.together(a, b, known -> {
                assertTrue(known.stream().anyMatch(k -> holds(k, joint, within)), what);
                double most = known.stream()
                        .mapToDouble(w.likelihood()::bestLasting)
                        .max()
                        .orElseThrow();
                assertTrue(most + 0.1 >= fit, what + ": " + most + " does not bound " + fit);
                return true;
            });
            count(last.get(0), joint, a, b);
        }

        private boolean holds(Between known, Prediction joint, double within) {
            for (int c = 0; c < healthy.length; c++) {
                if (known.open().get(c)) continue;
                int at = Arrays.binarySearch(known.codes(), c);
                double q = joint.of(c, healthy[c]);
                double least = at < 0 ? healthy[c] : known.least()[at];
                double most = at < 0 ? healthy[c] : known.most()[at];
                if (q < least - within || q > most + within) return false;
            }
            return true;
        }

        private void count(Between known, Prediction joint, int a, int b) {
            for (int k = 0; k < known.codes().length; k++) {
                int c = known.codes()[k];
                double q = joint.of(c, healthy[c]);
                if (known.least()[k] == known.most()[k] && isOther(q, a, c) && isOther(q, b, c)) exact++;
            }
        }

        private boolean isOther(double q, int group, int code) {
            return Math.abs(q - groups.get(group).leader().prediction().of(code, healthy[code])) > 0.1;
        }
    }

    private static Ranker.Weighed complaint(Random random, boolean evenly) {
        return complaint(H, random, evenly);
    }

    private static Ranker.Weighed complaint(Harness h, Random random, boolean evenly) {
        Predictor predictor = h.ranker()
                .weighed(new Evidence(List.of(), Complaints.BOTH), share -> {})
                .predictor();
        while (true) {
            List<Edit> edits = new ArrayList<>(Complaints.fault(h.hypotheses(), random, evenly));
            edits.addAll(Complaints.fault(h.hypotheses(), random, evenly));
            Evidence e = Complaints.drawn(predictor, predictor.predict(edits), random, 0.01);
            if (e.codes().size() >= 2) return h.ranker().weighed(e, share -> {});
        }
    }

    /** Compares both searches of all pairs; gives how many of the best the quick one loses. */
    private static int check(Ranker.Weighed w, List<Group> groups, int complaint) {
        List<PairOracle.Scored> best = new PairOracle(w.predictor(), w.likelihood()).best(groups, BEST, share -> {});
        List<AllPairs.Scored> found =
                new AllPairs(w.predictor(), w.likelihood(), groups, BEST, Double.NEGATIVE_INFINITY).search(List.of());
        assertEquals(best.size(), found.size(), "pairs that count of complaint " + complaint);
        for (int i = 0; i < best.size(); i++)
            assertEquals(best.get(i).score(), found.get(i).score(), 1e-9, "pair " + i + " of complaint " + complaint);
        Set<String> quick = new HashSet<>();
        new PairSearch(w.predictor(), w.likelihood(), w.tests())
                .search(groups)
                .forEach(g ->
                        quick.add(PairOracle.ids(g.parts().get(0), g.parts().get(1))));
        return (int) best.stream().filter(s -> !quick.contains(s.ids())).count();
    }
}
