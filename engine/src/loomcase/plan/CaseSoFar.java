package loomcase.plan;

import java.util.Collection;
import java.util.List;
import java.util.Set;
import loomcase.meter.MeterPrediction;
import loomcase.rank.Ranking;

/**
 * Where a case stands when the next test is asked for.
 *
 * @param ranking suspects as they stand
 * @param meter predicts tests
 * @param open ids of access steps already open
 * @param refused ids or questions of tests that will not be done, or not again
 */
public record CaseSoFar(Ranking ranking, MeterPrediction meter, Collection<String> open, Collection<String> refused) {
    public CaseSoFar {
        open = List.copyOf(open);
        refused = Set.copyOf(refused);
    }
}
