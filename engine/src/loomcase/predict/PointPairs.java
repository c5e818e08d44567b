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
import loomcase.solve.Ties;

/**
 * Many faults solved one by one in some phases of one operating point, and what any two of them would show together there.
 * Several threads may look, each by itself.
 */
final class PointPairs {
    /** Volts at the control unit's supply within which nobody says from a sum whether the unit works. */
    private static final double AT_LIMIT = 1e-3;

    /** Share of the way to its limit by which a fault must move what a watch reads to count as touching it much. */
    private static final double MUCH = 0.05;

    /** Spreads by which it must move that to count as touching it slightly. */
    private static final double SLIGHTLY = 0.02;

    /** Spreads from its limit within which a slight touch matters. */
    private static final double NEAR = 8;

    /** Volts by which what a fault does must change for the other one to count as acting on it. */
    private static final double ACTS = 0.05;

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

    /** What can be seen when all the phases looked at are known. */
    private final Sight whole;

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
        BitSet all = new BitSet();
        for (int phase : phases) all.set(phase);
        this.whole = sight(all);
    }

    /** The watches that a fault by itself touches; all where it silences the control unit or has no steady state. */
    Touched touched(int fault) {
        double[] values = new double[solver.channels()];
        boolean supply = false;
        for (int k = 0; k < phases.length; k++) {
            Solution alone = overlays.get(k).alone(fault);
            double reserve = solver.supplyReserve(alone);
            if (!alone.settled() || reserve < AT_LIMIT) return everything();
            supply |=
                    reserve < (1 - MUCH) * solver.supplyReserve(overlays.get(k).healthy());
            solver.read(phases[k], alone, values);
        }
        BitSet much = new BitSet();
        BitSet slightly = new BitSet();
        BitSet near = new BitSet();
        for (PointPlan.Running r : whole.seen) {
            double before = plan.healthySpreads(r);
            double now = plan.spreads(r, values);
            // A pin that is not wired is infinitely far from its limit, before and now.
            if (now == before) continue;
            double moved = Math.abs(now - before);
            if (moved >= MUCH * Math.abs(before)) much.set(r.watch());
            if (moved >= SLIGHTLY) slightly.set(r.watch());
            if (Math.abs(now) < NEAR) near.set(r.watch());
        }
        return new Touched(much, slightly, near, supply);
    }

    /** Watches that look at other phases, too. */
    BitSet notLookedAt() {
        return whole.open;
    }

    private Touched everything() {
        BitSet all = new BitSet();
        plan.running().forEach(r -> all.set(r.watch()));
        return new Touched(all, all, all, true);
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

        /** What two faults have to do with each other. */
        Ties ties(int a, int b) {
            Ties out = Ties.NONE;
            for (Overlay.Pair pair : pairs) out = out.or(pair.ties(a, b, ACTS));
            return out;
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
