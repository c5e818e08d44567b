package loomcase.drill;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Outcomes;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/**
 * What a test could tell before it was made.
 *
 * @param bits expected drop of the entropy of the place, H(place) − Σ P(outcome)·H(place | outcome)
 * @param outcomes what it could give, most probable first
 */
public record Foresight(double bits, List<Could> outcomes) {
    private static final int MOST_HYPOTHESES = 60;

    /**
     * One outcome that a test could have.
     *
     * @param words the outcome
     * @param probability of it
     * @param place the place that it would point at first
     * @param then probability of that place after it
     */
    public record Could(String words, double probability, PlaceId place, double then) {}

    public Foresight {
        outcomes = List.copyOf(outcomes);
    }

    static Foresight of(Test test, Ranking ranking, MeterPrediction meter) {
        List<Ranking.Member> members = ranking.suspects().stream()
                .filter(s -> !s.twoFaults())
                .flatMap(s -> s.members().stream())
                .sorted(Comparator.comparingDouble((Ranking.Member m) -> -m.probability())
                        .thenComparing(Ranking.Member::id))
                .limit(MOST_HYPOTHESES)
                .toList();
        if (members.isEmpty()) return new Foresight(0, List.of());
        List<Subject> subjects = members.stream().map(Ranking.Member::subject).toList();
        List<Double> weights = members.stream().map(Ranking.Member::probability).toList();
        List<Outcomes.Likely> likely = meter.outcomes(test, subjects, weights);
        double sum = weights.stream().mapToDouble(Double::doubleValue).sum();
        double bits = entropy(byPlace(members, i -> weights.get(i) / sum));
        List<Could> out = new ArrayList<>();
        for (Outcomes.Likely o : likely) {
            double p = o.probability();
            if (p <= 0) continue;
            Map<PlaceId, Double> after =
                    byPlace(members, i -> weights.get(i) / sum * o.given().get(i) / p);
            bits -= p * entropy(after);
            Map.Entry<PlaceId, Double> best = after.entrySet().stream()
                    .max(Map.Entry.<PlaceId, Double>comparingByValue()
                            .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
                    .orElseThrow();
            out.add(new Could(o.outcome().words(), Math.min(1, p), best.getKey(), Math.min(1, best.getValue())));
        }
        return new Foresight(Math.max(0, bits), out);
    }

    private static Map<PlaceId, Double> byPlace(
            List<Ranking.Member> members, java.util.function.IntToDoubleFunction weight) {
        Map<PlaceId, Double> out = new HashMap<>();
        for (int i = 0; i < members.size(); i++)
            out.merge(members.get(i).place(), weight.applyAsDouble(i), Double::sum);
        return out;
    }

    private static double entropy(Map<PlaceId, Double> shares) {
        double sum = 0;
        for (double p : shares.values()) if (p > 0) sum -= p * Math.log(p) / Math.log(2);
        return sum;
    }
}
