package loomcase.solve;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;

/**
 * A fault solved at one instant, in a form over which other phases of the operating point can be laid, see {@link
 * PhaseOverlay}.
 */
public final class FaultTrace {
    /** Volts by which a part's probe or gate differs from a healthy engine's when it counts as moved. */
    static final double MOVED = 1e-5;

    private static final int[] NONE = {};
    private static final double[] NO_OHMS = {};

    private final Solution solution;
    private final Changes changes;
    private final Optional<LowRank> update;
    private final double[] most;
    private final double[] mostInUnit;
    private final int[] moved;
    private final double[] movedBy;
    private final int[] changedParts;

    private FaultTrace(
            Solution solution,
            Changes changes,
            Optional<LowRank> update,
            double[] most,
            double[] mostInUnit,
            int[] moved,
            double[] movedBy,
            int[] changedParts) {
        this.solution = solution;
        this.changes = changes;
        this.update = update;
        this.most = most;
        this.mostInUnit = mostInUnit;
        this.moved = moved;
        this.movedBy = movedBy;
        this.changedParts = changedParts;
    }

    /** A fault over which nothing can be laid. */
    static FaultTrace alone(Solution solution, Changes changes) {
        return new FaultTrace(solution, changes, Optional.empty(), NO_OHMS, NO_OHMS, NONE, NO_OHMS, NONE);
    }

    /**
     * @param net the healthy network
     * @param solution at the active nodes
     * @param changes what the fault changed, opened fuses included
     * @param update from the healthy matrix
     * @param moves volts by which the fault moves each part's probe or gate
     * @param changed whether a part is another one or in another region
     */
    static FaultTrace of(
            Netlist net, Solution solution, Changes changes, LowRank update, double[] moves, IntPredicate changed) {
        int[] moved =
                IntStream.range(0, moves.length).filter(p -> moves[p] > MOVED).toArray();
        return new FaultTrace(
                solution,
                changes,
                Optional.of(update),
                Arrays.stream(update.columns()).mapToDouble(c -> c.most(net)).toArray(),
                Arrays.stream(update.columns())
                        .mapToDouble(c -> c.mostInUnit(net))
                        .toArray(),
                moved,
                IntStream.of(moved).mapToDouble(p -> moves[p]).toArray(),
                IntStream.range(0, moves.length).filter(changed).toArray());
    }

    /** What the fault does at the instant where it was solved, at the active nodes. */
    public Solution solution() {
        return solution;
    }

    Changes changes() {
        return changes;
    }

    /** The change of the healthy matrix, empty when nothing can be laid over this fault. */
    Optional<LowRank> update() {
        return update;
    }

    /** By column of the change: the largest voltage one ampere there gives at any active node of a healthy engine. */
    double[] most() {
        return most;
    }

    /** The same at nodes of the control unit. */
    double[] mostInUnit() {
        return mostInUnit;
    }

    /** Numbers of the parts whose probe or gate it moves by more than {@value #MOVED} V. */
    int[] moved() {
        return moved;
    }

    /** By how many volts, in the same order. */
    double[] movedBy() {
        return movedBy;
    }

    /** Numbers of the parts that are other ones or in other regions. */
    int[] changedParts() {
        return changedParts;
    }
}
