package loomcase.verdict;

import java.util.List;
import java.util.Set;
import loomcase.faults.WorkDone;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;

/**
 * A case as the verdict sees it.
 *
 * @param ranking suspects as they stand
 * @param openAccess ids of access steps open now
 * @param seen what was found by looking; what was looked at and clean is not among it
 * @param repaired places repaired before, each time once
 * @param done what was worked at before the codes were read last
 * @param gauged engine conditions that a gauge has shown to be there
 * @param readings meter readings taken
 * @param tests other tests taken
 * @param looks places looked at, clean ones included
 */
public record Situation(
        Ranking ranking,
        Set<String> openAccess,
        List<Sighting> seen,
        List<PlaceId> repaired,
        List<WorkDone.Job> done,
        Set<PlaceId> gauged,
        int readings,
        int tests,
        int looks) {
    public Situation {
        openAccess = Set.copyOf(openAccess);
        seen = List.copyOf(seen);
        repaired = List.copyOf(repaired);
        done = List.copyOf(done);
        gauged = Set.copyOf(gauged);
    }

    /** Codes alone. */
    public static Situation codesOnly(Ranking ranking) {
        return new Situation(ranking, Set.of(), List.of(), List.of(), List.of(), Set.of(), 0, 0, 0);
    }

    /** True when there is nothing but codes. */
    public boolean isCodesOnly() {
        return readings + tests + looks == 0;
    }
}
