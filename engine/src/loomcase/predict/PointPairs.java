package loomcase.predict;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import loomcase.model.Edit;
import loomcase.solve.Overlay;
import loomcase.solve.Solution;

/**
 * Many faults solved one by one in some phases of one operating point, and what any two of them would show together there.
 * Several threads may look, each by itself.
 */
final class PointPairs {
    /** Volts at the control unit's supply within which nobody says from a sum whether the unit works. */
    private static final double AT_LIMIT = 1e-3;

    private static final BitSet NONE = new BitSet();

    private final PointPlan plan;
    private final PointSolver solver;

    /** The phases looked at. */
    private final int[] phases;

    /** How many of them, the first, are wanted most. */
    private final int first;

    /** By place in that list. */
    private final List<Overlay> overlays;

    private final BiFunction<Integer, Integer, List<Edit>> both;
    private final double[] healthy;

    /**
     * @param phases looked at
     * @param first how many of them, the first, are wanted most
     * @param both the edits of two faults together, by their numbers
     */
    PointPairs(
            PointPlan plan,
            PointSolver solver,
            int[] phases,
            int first,
            List<Overlay> overlays,
            BiFunction<Integer, Integer, List<Edit>> both) {
        this.plan = plan;
        this.solver = solver;
        this.phases = phases;
        this.first = first;
        this.overlays = overlays;
        this.both = both;
        this.healthy = plan.healthyConditions();
    }

    /** For one thread. */
    Look look() {
        return new Look();
    }

    /**
     * What can be seen when some phases are known.
     *
     * @param seen watches that look at no others
     * @param open numbers of the rest
     */
    private record Sight(List<PointPlan.Running> seen, BitSet open) {}

    private Sight sight(BitSet known) {
        List<PointPlan.Running> seen = new ArrayList<>();
        BitSet open = new BitSet();
        for (PointPlan.Running r : plan.running())
            if (known.get(solver.phaseOf(r.first())) && (r.second() < 0 || known.get(solver.phaseOf(r.second()))))
                seen.add(r);
            else open.set(r.watch());
        return new Sight(seen, open);
    }

    /** What one thread looks at. Not thread-safe. */
    final class Look {
        private final List<Overlay.Pair> pairs =
                overlays.stream().map(Overlay::pair).toList();
        private final Map<BitSet, Sight> sights = new HashMap<>();
        private final double[] values = new double[solver.channels()];
        private final BitSet known = new BitSet();
        private final BitSet refused = new BitSet();
        private final int[] watch = new int[plan.running().size()];
        private final double[] probability = new double[watch.length];
        private int a;
        private int b;
        private boolean isSilent;

        private Look() {}

        /** Turns to two faults, of which nothing is known yet. */
        void turnTo(int a, int b) {
            this.a = a;
            this.b = b;
            known.clear();
            refused.clear();
            isSilent = false;
        }

        /** Lays the faults over each other in the phases wanted most. */
        void layFirst() {
            lay(0, first);
        }

        /** The same in the others. */
        void layRest() {
            lay(first, phases.length);
        }

        private void lay(int from, int to) {
            for (int k = from; k < to && !isSilent; k++) {
                Overlay.Pair pair = pairs.get(k);
                double reserve = pair.lay(a, b) ? solver.supplyReserve(phases[k], pair) : 0;
                if (Math.abs(reserve) < AT_LIMIT) {
                    refused.set(k);
                    continue;
                }
                solver.readLaid(phases[k], pair, values);
                know(k, reserve);
            }
        }

        /** Solves the next phase in which they could not be laid over each other; false when there is none. */
        boolean solveNext() {
            int k = refused.nextSetBit(0);
            if (k < 0 || isSilent) return false;
            refused.clear(k);
            Solution solution = pairs.get(k).solve(both.apply(a, b));
            solver.read(phases[k], solution, values);
            know(k, solver.supplyReserve(solution));
            return true;
        }

        private void know(int k, double reserve) {
            known.set(phases[k]);
            isSilent |= reserve < 0;
        }

        /** Watches of which nothing is known; where there is one the control unit may be silent too. */
        BitSet open() {
            return isSilent ? NONE : sight().open;
        }

        private Sight sight() {
            Sight out = sights.get(known);
            if (out == null) {
                out = PointPairs.this.sight(known);
                sights.put((BitSet) known.clone(), out);
            }
            return out;
        }

        /** What the faults do to the watches, as far as it is known; good until they are looked at again. */
        PointRow row() {
            int n = 0;
            for (PointPlan.Running r : isSilent ? plan.running() : sight().seen) {
                double before = healthy[r.watch()];
                double p = isSilent ? 0 : plan.condition(r, values, before);
                if (p == before) continue;
                watch[n] = r.watch();
                probability[n++] = p;
            }
            return new PointRow(watch, probability, 0, n, true);
        }
    }
}
