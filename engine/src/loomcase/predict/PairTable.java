package loomcase.predict;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;

/**
 * Many faults, each solved by itself, and what any two of them would show together where they do not meet electrically.
 *
 * <p>Two faults that are independent at every instant (see {@link loomcase.solve.Overlay}) give the sum of what each does,
 * so the joint prediction needs no solve: a watch that only one of them changes has its probability under that one, a watch
 * that both change reads the sum. Voltages are within a few millionths of a volt of the joint solution's.
 */
public final class PairTable {
    /** One operating point: what each fault gives by itself, the watches whose value it changes, and whom it meets. */
    record Point(
            PointPlan plan, PointSolver.Measured measured, PointTable rows, List<BitSet> changed, List<BitSet> meets) {}

    private final List<Point> points;
    private final CodeSums sums;

    PairTable(List<Point> points, CodeSums sums) {
        this.points = points;
        this.sums = sums;
    }

    /** True when the two must be solved jointly, by number in the list asked about. */
    public boolean meet(int a, int b) {
        for (Point p : points) if (p.meets.get(Math.min(a, b)).get(Math.max(a, b))) return true;
        return false;
    }

    /** The codes that a fault would show together with each of some others that it does not meet. */
    public List<Prediction> together(int a, List<Integer> others) {
        List<PointTable> tables = new ArrayList<>();
        for (Point p : points) {
            PointTable.Builder out =
                    new PointTable.Builder(Collections.nCopies(others.size(), List.of()), p.rows.healthy());
            for (int b : others) {
                merge(p, a, b, out);
                out.endRow(true);
            }
            tables.add(out.build());
        }
        List<Prediction> all = new ArrayList<>();
        for (int k = 0; k < others.size(); k++) all.add(sums.prediction(tables, k));
        return all;
    }

    private static void merge(Point p, int a, int b, PointTable.Builder out) {
        PointTable t = p.rows;
        boolean awake = p.measured.awake()[a] && p.measured.awake()[b];
        BitSet both = (BitSet) p.changed.get(a).clone();
        both.and(p.changed.get(b));
        int i = t.start(a);
        int j = t.start(b);
        int k = both.nextSetBit(0);
        while (true) {
            int wa = i < t.start(a + 1) ? t.watch(i) : Integer.MAX_VALUE;
            int wb = j < t.start(b + 1) ? t.watch(j) : Integer.MAX_VALUE;
            int w = Math.min(Math.min(wa, wb), k < 0 ? Integer.MAX_VALUE : k);
            if (w == Integer.MAX_VALUE) return;
            if (!awake) out.entry(w, 0);
            else if (k == w) out.entry(w, p.plan.together(p.measured, w, a, b));
            else out.entry(w, t.probability(wa == w ? i : j));
            if (wa == w) i++;
            if (wb == w) j++;
            if (k == w) k = both.nextSetBit(k + 1);
        }
    }
}
