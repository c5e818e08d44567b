package loomcase.study;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.function.ToIntFunction;
import loomcase.faults.Hypothesis;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/**
 * How well one ranking did.
 *
 * @param groupRank rank of the first suspect that holds the truth among its members, or 0 when none does; for two faults
 *     the worse of the two
 * @param placeRank rank of the true place among all places, by probability; 0 when it is not listed; for two faults the
 *     worse of the two
 * @param stated probability stated for the first suspect and nothing hidden beside it
 * @param right whether the first suspect holds the truth
 * @param truePlace probability stated for the true place
 * @param brier Brier score over places: Σ (stated − truth)², 0 to 2; G. W. Brier, Monthly Weather Review 78 (1950) 1
 * @param behindSensor whether some suspect whose first place is a healthy device stands before the truth
 */
record Score(
        int groupRank,
        int placeRank,
        double stated,
        boolean right,
        double truePlace,
        double brier,
        boolean behindSensor) {
    /** Least probability that counts in the logarithm, so that one surprise does not outweigh all. */
    private static final double FLOOR = 1e-6;

    /**
     * @param same whether a member of a suspect is a true fault
     */
    static Score of(Ranking ranking, List<Hypothesis> truth, BiPredicate<Ranking.Member, Hypothesis> same) {
        Map<PlaceId, Double> places = places(ranking);
        int groupRank = worst(truth, t -> groupRank(ranking, t, same));
        Ranking.Suspect first =
                ranking.suspects().isEmpty() ? null : ranking.suspects().get(0);
        return new Score(
                groupRank,
                worst(truth, t -> placeRank(places, t.place())),
                first == null ? ranking.unexplained() : first.probability() * (1 - ranking.hidden()),
                groupRank == 1,
                truth.stream()
                        .mapToDouble(t -> places.getOrDefault(t.place(), 0.0))
                        .average()
                        .orElse(0),
                brier(places, truth.get(0).place()),
                behindSensor(ranking, truth, same));
    }

    /** Natural logarithm of the probability stated for the true place, negated. */
    double logLoss() {
        return -Math.log(Math.max(FLOOR, truePlace));
    }

    /** The worst of several ranks, of which 0 for not listed is the worst of all. */
    private static int worst(List<Hypothesis> truth, ToIntFunction<Hypothesis> rank) {
        int worst = 1;
        for (Hypothesis t : truth) {
            int own = rank.applyAsInt(t);
            if (own == 0) return 0;
            worst = Math.max(worst, own);
        }
        return worst;
    }

    private static int groupRank(Ranking ranking, Hypothesis truth, BiPredicate<Ranking.Member, Hypothesis> same) {
        for (Ranking.Suspect s : ranking.suspects())
            if (s.members().stream().anyMatch(m -> same.test(m, truth))) return s.rank();
        return 0;
    }

    private static int placeRank(Map<PlaceId, Double> places, PlaceId truth) {
        double own = places.getOrDefault(truth, 0.0);
        if (own == 0) return 0;
        return 1 + (int) places.values().stream().filter(p -> p > own).count();
    }

    /** Probability of each place as named by the members themselves, without roll-up. */
    private static Map<PlaceId, Double> places(Ranking ranking) {
        Map<PlaceId, Double> out = new LinkedHashMap<>();
        for (Ranking.Suspect s : ranking.suspects())
            for (Ranking.Member m : s.members()) out.merge(m.place(), m.probability(), Double::sum);
        return out;
    }

    private static double brier(Map<PlaceId, Double> places, PlaceId truth) {
        double sum = 0;
        for (Map.Entry<PlaceId, Double> e : places.entrySet()) {
            double miss = e.getValue() - (e.getKey().equals(truth) ? 1 : 0);
            sum += miss * miss;
        }
        return places.containsKey(truth) ? sum : sum + 1;
    }

    private static boolean behindSensor(
            Ranking ranking, List<Hypothesis> truth, BiPredicate<Ranking.Member, Hypothesis> same) {
        Set<PlaceId> guilty = new LinkedHashSet<>();
        truth.forEach(t -> guilty.addAll(t.places()));
        for (Ranking.Suspect s : ranking.suspects()) {
            if (truth.stream().anyMatch(t -> s.members().stream().anyMatch(m -> same.test(m, t)))) return false;
            if (s.place().kind() == PlaceId.Kind.DEVICE && !guilty.contains(s.place())) return true;
        }
        return false;
    }
}
