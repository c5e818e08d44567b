package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import loomcase.demo.Harness;
import loomcase.model.Edit;
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
            for (Group g : w.groups())
                for (Candidate c : g.members()) if (random.nextInt(4) == 0) each.addAll(Group.of(List.of(c)));
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
    void faultsThatDoNotMeetGiveTheSumOfWhatEachDoes() {
        Random random = new Random(23);
        Ranker.Weighed w = complaint(random, true);
        List<List<Edit>> all = w.groups().stream().map(g -> g.leader().edits()).toList();
        PairTable table = w.predictor().pairs(all);
        double[] healthy = w.predictor().healthy();
        int apart = 0;
        for (int a = 0; a < all.size(); a++)
            for (int b = a + 1; b < all.size(); b++) {
                Optional<Prediction> laid = table.together(a, List.of(b)).get(0);
                if (laid.isEmpty()) continue;
                apart++;
                Prediction joint = w.predictor()
                        .predict(PairOracle.both(w.groups().get(a), w.groups().get(b)));
                for (int c = 0; c < healthy.length; c++)
                    assertEquals(
                            joint.of(c, healthy[c]),
                            laid.get().of(c, healthy[c]),
                            1e-4,
                            all.get(a) + " with " + all.get(b) + ", "
                                    + w.predictor().table().codes().get(c));
            }
        assertTrue(apart > 80, "only " + apart + " pairs do not meet");
    }

    @Test
    void drawnPairsOfALargeHarnessToo() {
        Random random = new Random(24);
        Ranker.Weighed w = complaint(Harness.LARCH, random, false);
        List<Group> groups =
                w.groups().stream().filter(g -> !g.leader().edits().isEmpty()).toList();
        PairTable table =
                w.predictor().pairs(groups.stream().map(g -> g.leader().edits()).toList());
        double[] healthy = w.predictor().healthy();
        int laid = 0;
        int more = 0;
        for (int k = 0; k < 600; k++) {
            int a = random.nextInt(groups.size());
            int b = random.nextInt(groups.size());
            if (a == b) continue;
            Optional<Prediction> together = table.together(a, List.of(b)).get(0);
            if (together.isEmpty()) continue;
            laid++;
            Prediction joint = w.predictor().predict(PairOracle.both(groups.get(a), groups.get(b)));
            for (int c = 0; c < healthy.length; c++) {
                double q = joint.of(c, healthy[c]);
                assertEquals(
                        q,
                        together.get().of(c, healthy[c]),
                        1e-3,
                        c + " of " + groups.get(a).leader().edits() + " with "
                                + groups.get(b).leader().edits());
                Prediction x = groups.get(a).leader().prediction();
                Prediction y = groups.get(b).leader().prediction();
                if (Math.abs(q - x.of(c, healthy[c])) > 0.1 && Math.abs(q - y.of(c, healthy[c])) > 0.1) more++;
            }
        }
        assertTrue(laid > 400 && more > 5, laid + " pairs laid, " + more + " codes that neither fault shows alone");
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
