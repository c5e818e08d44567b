package loomcase.solve;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import loomcase.Once;
import loomcase.model.Edit;

/** What one fault does at one instant, in a form in which two of them can be laid over each other, see {@link Overlay}. */
final class PairTrace {
    /** More columns than the solver takes for one update, for here they are inverted once for all pairs. */
    private static final int MOST_RANK = 300;

    /** With more columns than this a fault gets a factorisation of its own, see {@link #isLarge}. */
    private static final int LARGE = 30;

    private static final int[] NONE = {};

    private final List<Edit> edits;
    private final Solution solution;
    private final Changes changes;
    private final Optional<Reach> reach;

    /** A solver that has the fault in its factorisation, for one of many columns. */
    private final Once<PhaseSolver> own;

    private final int[] elements;
    private final int[] fuses;
    private final int[] parts;
    private final BitSet partSet = new BitSet();
    private final int[] replaced;

    /** Taps of the parts that are the same in another region, and what they may show there. */
    private final int[] moved;

    private final Taps.Tap[] movedTo;

    /**
     * How far a fault reaches.
     *
     * @param delta by node, volts by which the fault moves it
     * @param shown by tap, the same
     * @param plus by changed stamp, k of them, its controlling node counted positive
     * @param minus the one counted negative
     * @param siemens its conductance
     * @param response by node, then by stamp: volts for one ampere there under this fault
     * @param responseShown by stamp, by tap, the same
     * @param most by stamp, the largest of those, without sign
     */
    record Reach(
            double[] delta,
            double[] shown,
            int[] plus,
            int[] minus,
            double[] siemens,
            double[] response,
            double[][] responseShown,
            double[] most) {
        static Reach of(Taps taps, double[] delta, List<Stamp> stamps, double[][] response) {
            double[][] shown = Arrays.stream(response).map(taps::of).toArray(double[][]::new);
            double[] most = Arrays.stream(shown)
                    .mapToDouble(s -> Arrays.stream(s).map(Math::abs).max().orElse(0))
                    .toArray();
            int k = stamps.size();
            double[] byNode = new double[delta.length * k];
            for (int s = 0; s < k; s++)
                for (int node = 0; node < delta.length; node++) byNode[node * k + s] = response[s][node];
            return new Reach(
                    delta,
                    taps.of(delta),
                    stamps.stream().mapToInt(Stamp::plus).toArray(),
                    stamps.stream().mapToInt(Stamp::minus).toArray(),
                    stamps.stream().mapToDouble(Stamp::siemens).toArray(),
                    byNode,
                    shown,
                    most);
        }

        /** How many stamps are changed. */
        int size() {
            return siemens.length;
        }
    }

    /** A fault that cannot be laid over another. */
    private PairTrace(PhaseSolver solver, List<Edit> edits, Solution solution) {
        this.edits = edits;
        this.own = new Once<>(() -> solver);
        this.solution = solution;
        this.changes = Changes.none();
        this.reach = Optional.empty();
        this.elements = NONE;
        this.fuses = NONE;
        this.parts = NONE;
        this.replaced = NONE;
        this.moved = NONE;
        this.movedTo = new Taps.Tap[0];
    }

    private PairTrace(PhaseSolver solver, Taps taps, List<Edit> edits, Solution solution) {
        Changes changes = solver.changes(edits);
        this.edits = edits;
        this.own = new Once<>(() -> solver.with(edits));
        Netlist net = solver.net();
        Solution healthy = solver.healthy();
        List<Part> now = changes.partsOf(net);
        int[] regions = solution.regions();
        this.solution = solution;
        this.changes = changes;
        this.elements = changes.elements().keySet().stream().mapToInt(i -> i).toArray();
        this.fuses = net.fuses().stream()
                .mapToInt(f -> f)
                .filter(changes.elements()::containsKey)
                .toArray();
        this.replaced = changes.parts().keySet().stream().mapToInt(p -> p).toArray();
        this.parts = IntStream.range(0, regions.length)
                .filter(p -> regions[p] != healthy.regions()[p] || has(replaced, p))
                .toArray();
        Arrays.stream(parts).forEach(partSet::set);
        IntPredicate isMoved = p -> has(parts, p) && !has(replaced, p);
        this.moved = IntStream.range(0, taps.size())
                .filter(i -> isMoved.test(taps.get(i).part()))
                .toArray();
        this.movedTo = PartTable.taps(net.parts(), regions, isMoved).toArray(Taps.Tap[]::new);
        double[] base = healthy.nodeVolts();
        double[] delta = solution.nodeVolts().clone();
        for (int i = 0; i < base.length; i++) delta[i] -= base[i];
        List<Stamp> stamps = solver.columnsOf(changes, now, regions);
        Optional<double[][]> response = stamps.size() > MOST_RANK
                ? Optional.empty()
                : solver.update(stamps).responses();
        this.reach = response.map(r -> Reach.of(taps, delta, stamps, r));
    }

    /** @param taps those of the parts first, as {@link PartTable#taps} gives them */
    static PairTrace of(PhaseSolver solver, Taps taps, List<Edit> edits) {
        Solution solution = solver.solveQuickly(edits);
        // A fuse that one fault opens may hold when the other limits its current: the way to the open fuse counts too.
        return solution.settled() && solution.openedFuses().isEmpty()
                ? new PairTrace(solver, taps, edits, solution)
                : new PairTrace(solver, edits, solution);
    }

    Solution solution() {
        return solution;
    }

    Changes changes() {
        return changes;
    }

    /** True when it takes a good deal longer to solve it with the healthy factorisation than with its {@link #own}. */
    boolean isLarge() {
        return reach.isPresent() && reach.get().size() > LARGE;
    }

    /** The fault with another one added, solved with a factorisation of its own; they must not share an element. */
    Solution solveWith(PairTrace other) {
        return own.get().solveActive(other.edits);
    }

    /** Empty when the fault cannot be laid over another. */
    Optional<Reach> reach() {
        return reach;
    }

    /** True when both change an element, or a part or its region. */
    boolean meets(PairTrace other) {
        return partSet.intersects(other.partSet) || sharesElement(other);
    }

    /** True when both give an element or a part another nature, so that it matters which does it last. */
    boolean sharesElement(PairTrace other) {
        return sharesAny(elements, other.elements) || sharesAny(replaced, other.replaced);
    }

    private static boolean sharesAny(int[] a, int[] b) {
        for (int i : a) if (has(b, i)) return true;
        return false;
    }

    /** True when the part is another one or in another region. */
    boolean hasPart(int part) {
        return partSet.get(part);
    }

    /** Numbers of the parts that are other ones or in other regions. */
    int[] parts() {
        return parts;
    }

    /** Numbers of the parts that are other ones. */
    int[] replaced() {
        return replaced;
    }

    /** True when every part that the fault has moved to another region, none replaced, stays there. */
    boolean movedStay(double[] shown) {
        for (int i = 0; i < moved.length; i++) if (!movedTo[i].holds(shown[moved[i]])) return false;
        return true;
    }

    /** Numbers of the fuses that have another resistance. */
    int[] fuses() {
        return fuses;
    }

    boolean hasFuse(int fuse) {
        return has(fuses, fuse);
    }

    private static boolean has(int[] all, int one) {
        for (int each : all) if (each == one) return true;
        return false;
    }
}
