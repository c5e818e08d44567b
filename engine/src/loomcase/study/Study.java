package loomcase.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleConsumer;
import loomcase.casework.Bench;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;

/**
 * Entry of this package: plants faults in a world that differs from what the engine assumes, lets the control unit show its
 * codes, ranks them and scores the ranking; then works the first cases of each kind through to the right repair.
 *
 * <p>Every third case gets its voltages from ngspice, the others from our solver without its shortcuts. A case of
 * which no code is read, or whose network has no single operating point, is counted and left out.
 */
public final class Study {
    /** Cases drawn for each one wanted before the rest is given up: on some harnesses a kind shows hardly any code. */
    private static final int MOST_DRAWN = 5;

    private final Ranker ranker;
    private final Cases cases;
    private final Play play;

    /**
     * @param bench the engine under study
     * @param ranker its ranker
     * @param points ids of the operating points at which codes are read
     * @param world how the truth differs from what the engine assumes
     * @param seed same seed, same cases on any machine
     */
    public Study(Bench bench, Ranker ranker, List<String> points, World world, long seed) {
        this.ranker = ranker;
        this.cases = new Cases(bench, points, world, seed);
        this.play = new Play(bench, ranker, cases.replies());
    }

    /**
     * How much is done of each kind.
     *
     * @param ranked cases that show codes
     * @param worked how many of them, the first ones, are worked through to the right repair
     */
    public record Size(int ranked, int worked) {
        public Size {
            if (ranked < 1 || worked < 0 || worked > ranked)
                throw new IllegalArgumentException(worked + " worked through of " + ranked + " ranked");
        }
    }

    /**
     * Runs cases of one kind.
     *
     * @param kind how they are drawn
     * @param size how many
     * @param progress told the share done
     */
    Outcome run(Planted.Kind kind, Size size, DoubleConsumer progress) {
        List<Score> scores = new ArrayList<>();
        List<Map<Working, Worked>> worked = new ArrayList<>();
        int silent = 0;
        int unsolved = 0;
        int simulated = 0;
        int workedSimulated = 0;
        int dozens = MOST_DRAWN * size.ranked / Cases.CHUNK + 1;
        for (int n = 0; scores.size() < size.ranked && n < dozens; n++)
            for (Cases.Case one : cases.dozen(kind, n)) {
                if (scores.size() == size.ranked) break;
                if (one.evidence().isEmpty()) unsolved++;
                else if (!one.shows()) silent++;
                else {
                    Ranking ranking = ranker.rank(one.evidence().get(), share -> {});
                    scores.add(Score.of(ranking, one.planted().truth()));
                    if (one.simulated()) simulated++;
                    if (worked.size() < size.worked) {
                        worked.add(play.all(one, ranking));
                        if (one.simulated()) workedSimulated++;
                    }
                    progress.accept(scores.size() / (double) size.ranked);
                }
            }
        Optional<RepairResult> repair =
                worked.isEmpty() ? Optional.empty() : Optional.of(RepairResult.of(worked, workedSimulated));
        return new Outcome(kind, scores, silent, unsolved, simulated, repair);
    }

    /**
     * What cases of one kind gave.
     *
     * @param kind how they were drawn
     * @param scores one for each case
     * @param silent cases drawn of which no code was read
     * @param unsolved cases whose network has no single operating point
     * @param simulated cases whose voltages came from ngspice
     * @param repair what those worked through gave, empty when none was
     */
    record Outcome(
            Planted.Kind kind,
            List<Score> scores,
            int silent,
            int unsolved,
            int simulated,
            Optional<RepairResult> repair) {}

    /** Runs every kind. */
    public List<KindResult> run(Size eachKind, DoubleConsumer progress) {
        List<KindResult> out = new ArrayList<>();
        int kinds = Planted.Kind.values().length;
        for (Planted.Kind kind : Planted.Kind.values()) {
            double from = out.size();
            out.add(KindResult.of(run(kind, eachKind, share -> progress.accept((from + share) / kinds))));
        }
        return List.copyOf(out);
    }

    /** Runs lasting single faults drawn from the priors only. */
    public KindResult runSingle(Size size, DoubleConsumer progress) {
        return KindResult.of(run(Planted.Kind.SINGLE, size, progress));
    }
}
