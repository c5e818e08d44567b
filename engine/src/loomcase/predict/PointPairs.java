package loomcase.predict;

import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import loomcase.predict.PointSolver.Measured;
import loomcase.solve.Overlay;

/**
 * Many faults solved one by one at one operating point, and what any two of them would show together where they can be laid
 * over each other in every phase. Not thread-safe.
 */
final class PointPairs {
    /** Volts at the control unit's supply within which nobody says from a sum whether the unit works. */
    private static final double AT_LIMIT = 1e-3;

    /** Volts by which two faults must change what the other does before anything is read of both together. */
    private static final double FELT = 1e-6;

    private final PointPlan plan;
    private final PointSolver solver;
    private final List<Overlay> overlays;
    private final Measured measured;
    private final PointTable rows;
    private final List<BitSet> changed;
    private final List<List<Integer>> watchesOf;

    /** By channel, what it reads under both faults, where that is not what they add up to. */
    private final double[] joint;

    private final BitSet isJoint = new BitSet();
    private final BitSet watches = new BitSet();
    private boolean awake;

    /**
     * @param overlays by phase
     * @param measured what each fault gives by itself
     * @param rows the same as probabilities
     * @param changed by fault, the watches whose value it changes
     */
    PointPairs(
            PointPlan plan,
            PointSolver solver,
            List<Overlay> overlays,
            Measured measured,
            PointTable rows,
            List<BitSet> changed) {
        this.plan = plan;
        this.solver = solver;
        this.overlays = overlays;
        this.measured = measured;
        this.rows = rows;
        this.changed = changed;
        int channels = measured.values().length;
        this.joint = new double[channels];
        this.watchesOf = Stream.iterate(0, c -> c + 1)
                .limit(channels)
                .map(plan::watchesOf)
                .toList();
    }

    /**
     * What a fault would show with each of some others.
     *
     * @param apart set by place in the list where the two can be laid over each other; the rows of the others mean nothing
     */
    PointTable together(int a, List<Integer> others, BitSet apart) {
        PointTable.Builder out = new PointTable.Builder(Collections.nCopies(others.size(), List.of()), rows.healthy());
        for (int k = 0; k < others.size(); k++) {
            if (lay(a, others.get(k))) {
                apart.set(k);
                merge(a, others.get(k), out);
            }
            out.endRow(true);
        }
        return out.build();
    }

    private boolean lay(int a, int b) {
        isJoint.clear();
        watches.clear();
        awake = true;
        for (int phase = 0; phase < overlays.size(); phase++) {
            Overlay overlay = overlays.get(phase);
            if (!overlay.lay(a, b)) return false;
            double reserve = solver.supplyReserve(overlay);
            if (Math.abs(reserve) < AT_LIMIT) return false;
            awake &= reserve >= 0;
            if (overlay.surplusBound() < FELT) continue;
            for (int c : solver.channelsOf(phase)) {
                double v = solver.read(c, overlay);
                if (!(Math.abs(v - sum(c, a, b)) > FELT)) continue;
                joint[c] = v;
                isJoint.set(c);
                watchesOf.get(c).forEach(watches::set);
            }
        }
        return true;
    }

    private double sum(int channel, int a, int b) {
        double[] values = measured.values()[channel];
        return values[a] + values[b] - plan.healthyOf(channel);
    }

    private void merge(int a, int b, PointTable.Builder out) {
        if (!awake) {
            plan.watches().forEach(w -> out.entry(w, 0));
            return;
        }
        BitSet both = (BitSet) changed.get(a).clone();
        both.and(changed.get(b));
        watches.or(both);
        int i = rows.start(a);
        int j = rows.start(b);
        int k = watches.nextSetBit(0);
        while (true) {
            int wa = i < rows.start(a + 1) ? rows.watch(i) : Integer.MAX_VALUE;
            int wb = j < rows.start(b + 1) ? rows.watch(j) : Integer.MAX_VALUE;
            int w = Math.min(Math.min(wa, wb), k < 0 ? Integer.MAX_VALUE : k);
            if (w == Integer.MAX_VALUE) return;
            if (k == w) out.entry(w, plan.conditionAt(w, c -> isJoint.get(c) ? joint[c] : sum(c, a, b)));
            else out.entry(w, rows.probability(wa == w ? i : j));
            if (wa == w) i++;
            if (wb == w) j++;
            if (k == w) k = watches.nextSetBit(k + 1);
        }
    }
}
