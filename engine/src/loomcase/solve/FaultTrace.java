package loomcase.solve;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
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
    private static final double[] NO_VOLTS = {};

    private final Solution solution;
    private final Changes changes;
    private final Optional<LowRank> update;
    private final List<Column.Most> most;
    private final int[] moved;
    private final double[] movedBy;
    private final BitSet changedParts;
    private final List<Changed> changed;
    private final boolean changesFuse;
    private final double[] fusesMovedBy;

    /** A part that is another one or in another region. */
    record Changed(Part part, int region) {}

    private FaultTrace(
            Solution solution,
            Changes changes,
            Optional<LowRank> update,
            List<Column.Most> most,
            int[] moved,
            double[] movedBy,
            BitSet changedParts,
            List<Changed> changed,
            boolean changesFuse,
            double[] fusesMovedBy) {
        this.solution = solution;
        this.changes = changes;
        this.update = update;
        this.most = most;
        this.moved = moved;
        this.movedBy = movedBy;
        this.changedParts = changedParts;
        this.changed = changed;
        this.changesFuse = changesFuse;
        this.fusesMovedBy = fusesMovedBy;
    }

    /** A fault over which nothing can be laid. */
    static FaultTrace alone(Solution solution, Changes changes) {
        return new FaultTrace(
                solution,
                changes,
                Optional.empty(),
                List.of(),
                NONE,
                NO_VOLTS,
                new BitSet(),
                List.of(),
                false,
                NO_VOLTS);
    }

    /**
     * @param net the healthy network
     * @param solution at the active nodes
     * @param changes what the fault changed, opened fuses included
     * @param update from the healthy matrix
     * @param most the largest voltages of a column
     * @param moves volts by which the fault moves each part's probe or gate
     * @param fusesMovedBy volts by which it moves the voltage across each fuse, without sign
     * @param changed whether a part is another one or in another region
     */
    static FaultTrace of(
            Netlist net,
            Solution solution,
            Changes changes,
            LowRank update,
            Function<Column, Column.Most> most,
            double[] moves,
            double[] fusesMovedBy,
            IntPredicate changed) {
        BitSet changedParts = new BitSet();
        for (int p = 0; p < moves.length; p++) if (changed.test(p)) changedParts.set(p);
        int[] moved = IntStream.range(0, moves.length)
                .filter(p -> moves[p] > MOVED && !changedParts.get(p))
                .toArray();
        return new FaultTrace(
                solution,
                changes,
                Optional.of(update),
                update.columns().stream().map(most).toList(),
                moved,
                IntStream.of(moved).mapToDouble(p -> moves[p]).toArray(),
                changedParts,
                changedParts.stream()
                        .mapToObj(p -> new Changed(changes.part(net, p), solution.regions()[p]))
                        .toList(),
                changes.elements().keySet().stream().anyMatch(net::isFuse),
                fusesMovedBy);
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

    /** By column of the change: its largest voltages on a healthy engine. */
    List<Column.Most> most() {
        return most;
    }

    /** Numbers of the parts, none changed, whose probe or gate it moves by more than {@value #MOVED} V. */
    int[] moved() {
        return moved;
    }

    /** By how many volts, in the same order. */
    double[] movedBy() {
        return movedBy;
    }

    /** The parts that are other ones or in other regions. */
    List<Changed> changed() {
        return changed;
    }

    /** True when some fuse has another resistance. */
    boolean changesFuse() {
        return changesFuse;
    }

    /** By fuse, as the network numbers them: volts by which the fault moves the voltage across it, without sign. */
    double[] fusesMovedBy() {
        return fusesMovedBy;
    }

    /** Numbers of the parts that are other ones or in other regions. */
    BitSet changedParts() {
        return changedParts;
    }
}
