package loomcase.drill;

import java.util.List;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/** Places as a drill compares them. */
final class Places {
    private Places() {}

    /** True for a place that one can put a finger on; a branch or a connector holds others. */
    static boolean fine(PlaceId place) {
        return place.kind() != PlaceId.Kind.BRANCH && place.kind() != PlaceId.Kind.CONNECTOR;
    }

    /** Probability that a ranking gives to the place to name of a fault: that of the hypotheses named there. */
    static double share(Ranking ranking, Planted fault) {
        return share(ranking, fault.place());
    }

    static double share(Ranking ranking, PlaceId place) {
        double sum = ranking.suspects().stream()
                .filter(s -> !s.twoFaults())
                .flatMap(s -> s.members().stream())
                .filter(m -> m.place().equals(place))
                .mapToDouble(Ranking.Member::probability)
                .sum();
        if (sum > 0 || !fine(place)) return sum;
        return ranking.shares().getOrDefault(place, 0.0);
    }

    /** Places by the probability of the hypotheses named there, most probable first, at most {@code most}. */
    static List<PlaceId> best(Ranking ranking, int most) {
        java.util.Map<PlaceId, Double> by = new java.util.LinkedHashMap<>();
        for (Ranking.Suspect s : ranking.suspects())
            for (Ranking.Member m : s.members()) {
                if (m.subject().edits().isEmpty()) continue; // nothing is wrong: no place to work at
                if (s.twoFaults()) m.subject().places().forEach(p -> by.merge(p, m.probability(), Double::sum));
                else by.merge(m.place(), m.probability(), Double::sum);
            }
        return by.entrySet().stream()
                .sorted(java.util.Map.Entry.<PlaceId, Double>comparingByValue()
                        .reversed()
                        .thenComparing(java.util.Map.Entry.comparingByKey()))
                .limit(most)
                .map(java.util.Map.Entry::getKey)
                .toList();
    }
}
