package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.TreeMap;
import loomcase.faults.Hypothesis;
import loomcase.model.PlaceId;
import loomcase.predict.Prediction;
import org.junit.jupiter.api.Test;

/** Grouping by an index of codes beside grouping by comparing with every group. */
class GroupTest {
    private static Candidate candidate(int n, Random random) {
        TreeMap<Integer, Double> codes = new TreeMap<>();
        int count = random.nextInt(4);
        for (int k = 0; k < count; k++) {
            // Steps of a twentieth put many differences exactly at the tolerance.
            double p = random.nextInt(3) == 0 ? random.nextInt(5) / 20.0 : random.nextInt(21) / 20.0;
            codes.put(random.nextInt(5), p);
        }
        Prediction prediction = new Prediction(
                codes.keySet().stream().mapToInt(c -> c).toArray(),
                codes.values().stream().mapToDouble(p -> p).toArray(),
                true);
        List<PlaceId> places = List.of(new PlaceId(PlaceId.Kind.WIRE, "W" + n));
        Hypothesis h =
                new Hypothesis("h" + n, "wire.open", places, "words", new Hypothesis.Fixed(List.of()), 0.001, false);
        Candidate c = new Candidate(h, "words", places, List.of(), prediction, -random.nextInt(5), random.nextInt(3));
        return random.nextBoolean() ? c : c.withTests(new double[] {random.nextInt(3) * Math.log(2.9)});
    }

    /** The plain rule: best first, each to the first group whose leader predicts the same and no test told apart. */
    private static List<List<String>> plain(List<Candidate> candidates) {
        List<Candidate> sorted = new ArrayList<>(candidates);
        sorted.sort(Comparator.comparingDouble((Candidate c) -> -c.logScore())
                .thenComparing(c -> c.hypothesis().id()));
        List<Candidate> leaders = new ArrayList<>();
        List<List<String>> out = new ArrayList<>();
        for (Candidate c : sorted) {
            int home = 0;
            while (home < leaders.size() && !alike(leaders.get(home), c)) home++;
            if (home == leaders.size()) {
                leaders.add(c);
                out.add(new ArrayList<>());
            }
            out.get(home).add(c.hypothesis().id());
        }
        return out;
    }

    private static boolean alike(Candidate a, Candidate b) {
        for (int t = 0; t < Math.min(a.logTests().length, b.logTests().length); t++)
            if (Math.abs(a.logTests()[t] - b.logTests()[t]) > Group.TOLD_APART) return false;
        for (int c = 0; c < 5; c++)
            if (Math.abs(a.prediction().of(c, 0) - b.prediction().of(c, 0)) > Group.TOLERANCE) return false;
        return true;
    }

    @Test
    void theIndexFindsTheSameGroupsAsLookingAtAll() {
        Random random = new Random(3);
        int groups = 0;
        for (int round = 0; round < 200; round++) {
            List<Candidate> all = new ArrayList<>();
            for (int n = 0; n < 80; n++) all.add(candidate(n, random));
            List<List<String>> got = Group.of(all).stream()
                    .map(g -> g.members().stream().map(c -> c.hypothesis().id()).toList())
                    .toList();
            assertEquals(plain(all), got, "round " + round);
            groups += got.size();
        }
        assertTrue(groups > 200 * 10 && groups < 200 * 70, groups + " groups: neither all alike nor all apart");
    }
}
