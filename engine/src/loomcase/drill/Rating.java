package loomcase.drill;

import java.util.List;
import java.util.Set;
import loomcase.casework.Bench;
import loomcase.intake.Intake;
import loomcase.model.Access;
import loomcase.model.PlaceId;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;

/**
 * How hard a fault is to find from its codes.
 *
 * <pre>score = bits + 0.25 · rivals + 0.5 · herrings + minutes of access / 20</pre>
 *
 * <p>The weights are judgement; that planned minutes rise with the score is tested.
 *
 * @param bits −log₂ of the probability that ranking the codes alone gives the true place, summed over the faults planted, at
 *     most 10 each
 * @param rivals other places that the codes leave with at least a fiftieth of the probability, at most 12 counted
 * @param herrings parts that somebody would blame first though they lose
 * @param accessMinutes minutes to open the way to the true places
 */
public record Rating(double bits, int rivals, int herrings, double accessMinutes) {
    private static final double MOST_BITS = 10;
    private static final double A_RIVAL = 0.02;
    private static final int MOST_RIVALS = 12;

    /** The score; higher is harder. */
    public double score() {
        return bits + 0.25 * rivals + 0.5 * herrings + accessMinutes / 20;
    }

    /** Rates faults by the codes that they gave. */
    static Rating of(Bench bench, List<Planted> faults, Evidence evidence) {
        Ranking ranking = bench.answer(new Intake(evidence, List.of())).ranking();
        double bits = 0;
        for (Planted p : faults)
            bits += Math.min(MOST_BITS, -Math.log(Math.max(1e-9, share(ranking, p))) / Math.log(2));
        Set<PlaceId> truePlaces = Set.copyOf(faults.stream().map(Planted::place).toList());
        int rivals = (int) ranking.rollup().stream()
                .filter(s -> Places.fine(s.place()) && !truePlaces.contains(s.place()) && s.probability() >= A_RIVAL)
                .count();
        Access access = new Access(bench.circuit());
        return new Rating(
                bits,
                Math.min(MOST_RIVALS, rivals),
                ranking.losers().size(),
                access.minutes(access.steps(truePlaces), Set.of()));
    }

    private static double share(Ranking ranking, Planted p) {
        return Places.share(ranking, p);
    }
}
