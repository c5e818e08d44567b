package loomcase.predict;

import java.util.Arrays;
import java.util.List;

/**
 * Turns rows of {@link PointTable}s into predictions, touching only the codes that a changed watch can reach.
 *
 * <p>A code that no changed watch shows and that no changed code hides keeps its healthy probability. The others are worked
 * out as {@link CodeTable#shown} does, factor by factor in the same order, so the numbers are the same to the last bit.
 * Over several operating points the most favourable counts. Cost: the watches and masks of the codes touched.
 */
final class CodeSums {
    private final CodeTable table;

    /** Conditions of one operating point: those of a healthy engine, overwritten while a row is worked out. */
    private final double[][] conditions;

    private final double[][] healthyRaw;
    private final double[][] healthyShown;
    private final double[] most;
    private final double[] raw;
    private final int[] touchedIn;
    private final int[] rawIn;
    private int[] touched = new int[64];
    private int count;
    private int turn;

    /** @param healthy probability of each watch's condition, by operating point */
    CodeSums(CodeTable table, List<double[]> healthy) {
        int n = table.codes().size();
        this.table = table;
        this.conditions = healthy.stream().map(double[]::clone).toArray(double[][]::new);
        this.healthyRaw = healthy.stream().map(table::raw).toArray(double[][]::new);
        this.healthyShown = healthy.stream().map(table::shown).toArray(double[][]::new);
        this.most = new double[n];
        for (double[] q : healthyShown) for (int c = 0; c < n; c++) most[c] = Math.max(most[c], q[c]);
        this.raw = new double[n];
        this.touchedIn = new int[n];
        this.rawIn = new int[n];
    }

    /** Probability of each code on a healthy engine, by code number. */
    double[] healthy() {
        return most;
    }

    /** The prediction of a row. */
    Prediction prediction(List<PointTable> points, int row) {
        count = 0;
        int first = ++turn;
        for (PointTable p : points)
            for (int i = p.start(row); i < p.start(row + 1); i++)
                for (int c : table.shownBy(p.watch(i))) {
                    touch(c, first);
                    for (int hidden : table.hiddenBy(c)) touch(hidden, first);
                }
        Arrays.sort(touched, 0, count);
        double[] q = new double[count];
        boolean settled = true;
        for (int k = 0; k < points.size(); k++) {
            settled &= points.get(k).settled(row);
            most(points.get(k), row, k, q);
        }
        return kept(q, settled);
    }

    private void touch(int code, int first) {
        if (touchedIn[code] == first) return;
        touchedIn[code] = first;
        if (count == touched.length) touched = Arrays.copyOf(touched, 2 * count);
        touched[count++] = code;
    }

    /** Raises each touched code to what it is at one operating point. */
    private void most(PointTable p, int row, int point, double[] q) {
        double[] here = conditions[point];
        if (p.start(row) == p.start(row + 1)) {
            for (int t = 0; t < count; t++) q[t] = Math.max(q[t], healthyShown[point][touched[t]]);
            return;
        }
        int now = ++turn;
        for (int i = p.start(row); i < p.start(row + 1); i++) here[p.watch(i)] = p.probability(i);
        for (int i = p.start(row); i < p.start(row + 1); i++)
            for (int c : table.shownBy(p.watch(i)))
                if (rawIn[c] != now) {
                    rawIn[c] = now;
                    raw[c] = table.raw(c, here);
                }
        for (int t = 0; t < count; t++) q[t] = Math.max(q[t], masked(touched[t], point, now));
        for (int i = p.start(row); i < p.start(row + 1); i++) here[p.watch(i)] = p.healthy()[p.watch(i)];
    }

    private double masked(int code, int point, int now) {
        double out = rawAt(code, point, now);
        for (int mask : table.masksOf(code)) {
            double hider =
                    table.hasOwn(mask) ? table.hiding(mask, conditions[point]) : rawAt(table.hider(mask), point, now);
            out *= 1 - table.strength(mask) * hider;
        }
        return out;
    }

    private double rawAt(int code, int point, int now) {
        return rawIn[code] == now ? raw[code] : healthyRaw[point][code];
    }

    private Prediction kept(double[] q, boolean settled) {
        int n = 0;
        for (int t = 0; t < count; t++) if (Math.abs(q[t] - most[touched[t]]) > Prediction.SAME) n++;
        int[] codes = new int[n];
        double[] probability = new double[n];
        n = 0;
        for (int t = 0; t < count; t++)
            if (Math.abs(q[t] - most[touched[t]]) > Prediction.SAME) {
                codes[n] = touched[t];
                probability[n++] = q[t];
            }
        return new Prediction(codes, probability, settled);
    }
}
