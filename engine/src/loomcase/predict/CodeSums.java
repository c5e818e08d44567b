package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * Turns rows of {@link PointTable}s into predictions, touching only the codes that a changed watch can reach.
 *
 * <p>A code that no changed watch shows and that no changed code hides keeps its healthy probability. The others are worked
 * out as {@link CodeTable#shown} does, factor by factor in the same order, so the numbers are the same to the last bit.
 * Over several operating points the most favourable counts. Cost: the watches and masks of the codes touched. Not
 * thread-safe.
 */
final class CodeSums {
    private final CodeTable table;

    /** Conditions of one operating point: those of a healthy engine, overwritten while a row is worked out. */
    private final double[][] conditions;

    private final double[][] healthy;
    private final double[][] healthyRaw;
    private final double[][] healthyShown;

    /** By operating point and mask, the probability that its code is there to hide the other. */
    private final double[][] healthyHiding;

    private final double[] most;

    /** By operating point, codes that a healthy engine may show there. */
    private final int[][] shownAnyway;

    private final double[] raw;
    private final int[] touchedIn;
    private final int[] rawIn;
    private final Map<BitSet, BitSet> reached = new HashMap<>();
    private int[] touched = new int[64];
    private int count;
    private int first;
    private int turn;

    /** @param healthy probability of each watch's condition, by operating point */
    CodeSums(CodeTable table, List<double[]> healthy) {
        int n = table.codes().size();
        this.table = table;
        this.healthy = healthy.toArray(double[][]::new);
        this.conditions = healthy.stream().map(double[]::clone).toArray(double[][]::new);
        this.healthyRaw = healthy.stream().map(table::raw).toArray(double[][]::new);
        this.healthyShown = healthy.stream().map(table::shown).toArray(double[][]::new);
        this.healthyHiding = healthy.stream().map(table::hiding).toArray(double[][]::new);
        this.most = new double[n];
        for (double[] q : healthyShown) for (int c = 0; c < n; c++) most[c] = Math.max(most[c], q[c]);
        this.shownAnyway = new int[healthyShown.length][];
        for (int k = 0; k < shownAnyway.length; k++) {
            double[] q = healthyShown[k];
            shownAnyway[k] =
                    IntStream.range(0, n).filter(c -> q[c] > Prediction.SAME).toArray();
        }
        this.raw = new double[n];
        this.touchedIn = new int[n];
        this.rawIn = new int[n];
    }

    /** Probability of each code on a healthy engine, by code number. */
    double[] healthy() {
        return most;
    }

    /** The prediction of a fault, given what it does at each operating point. */
    Prediction prediction(List<PointRow> points) {
        begin();
        boolean settled = true;
        for (PointRow p : points) {
            settled &= p.settled();
            touch(p);
        }
        Arrays.sort(touched, 0, count);
        double[] q = new double[count];
        for (int k = 0; k < points.size(); k++) raise(points.get(k), k, q);
        int n = 0;
        for (int t = 0; t < count; t++) if (differs(t, q[t])) n++;
        int[] codes = new int[n];
        double[] probability = new double[n];
        n = 0;
        for (int t = 0; t < count; t++)
            if (differs(t, q[t])) {
                codes[n] = touched[t];
                probability[n++] = q[t];
            }
        return new Prediction(codes, probability, settled);
    }

    /**
     * Between what the codes lie where not every watch has been looked at.
     *
     * @param points what is known of each operating point while the control unit works there
     * @param open by operating point, watches of which nothing is known; where there are any the unit may also be silent
     * @return by case, of which one holds: the unit works or is silent at each operating point
     */
    List<Between> cases(PointRow[] points, BitSet[] open) {
        begin();
        for (int k = 0; k < points.length; k++) {
            touch(points[k]);
            if (!open[k].isEmpty()) for (int c : shownAnyway[k]) touch(c);
        }
        Arrays.sort(touched, 0, count);
        double[][] q = new double[points.length][count];
        BitSet[] openCodes = new BitSet[points.length];
        int maybeSilent = 0;
        for (int k = 0; k < points.length; k++) {
            raise(points[k], k, q[k]);
            openCodes[k] = reachedBy(open[k]);
            if (!open[k].isEmpty()) maybeSilent |= 1 << k;
        }
        List<Between> out = new ArrayList<>();
        for (int silent = 0; silent < 1 << points.length; silent++)
            if ((silent & ~maybeSilent) == 0) out.add(oneCase(silent, q, openCodes));
        return out;
    }

    /** @param silent the operating points at which the unit is silent, one bit each */
    private Between oneCase(int silent, double[][] q, BitSet[] openCodes) {
        BitSet open = new BitSet();
        double[] least = new double[count];
        for (int k = 0; k < q.length; k++) {
            if ((silent >> k & 1) == 1) continue;
            open.or(openCodes[k]);
            for (int t = 0; t < count; t++) if (!openCodes[k].get(touched[t])) least[t] = Math.max(least[t], q[k][t]);
        }
        int[] codes = new int[count];
        double[] most = new double[count];
        int n = 0;
        for (int t = 0; t < count; t++) {
            boolean isOpen = open.get(touched[t]);
            if (isOpen ? least[t] < Prediction.SAME : !differs(t, least[t])) continue;
            open.clear(touched[t]);
            codes[n] = touched[t];
            least[n] = least[t];
            most[n++] = isOpen ? 1 : least[t];
        }
        return new Between(Arrays.copyOf(codes, n), Arrays.copyOf(least, n), Arrays.copyOf(most, n), open);
    }

    /** Codes that watches may show or keep from being shown. */
    BitSet reachedBy(BitSet watches) {
        return reached.computeIfAbsent(watches, k -> {
            BitSet out = new BitSet();
            for (int w = watches.nextSetBit(0); w >= 0; w = watches.nextSetBit(w + 1))
                for (int c : table.shownBy(w)) {
                    out.set(c);
                    for (int hidden : table.hiddenBy(c)) out.set(hidden);
                }
            return out;
        });
    }

    private void begin() {
        count = 0;
        first = ++turn;
    }

    private void touch(PointRow p) {
        for (int i = p.from(); i < p.to(); i++) touchShownBy(p.watch()[i]);
    }

    private void touchShownBy(int watch) {
        for (int c : table.shownBy(watch)) {
            touch(c);
            for (int hidden : table.hiddenBy(c)) touch(hidden);
        }
    }

    private void touch(int code) {
        if (touchedIn[code] == first) return;
        touchedIn[code] = first;
        if (count == touched.length) touched = Arrays.copyOf(touched, 2 * count);
        touched[count++] = code;
    }

    /** Raises each touched code to what it is at one operating point. */
    private void raise(PointRow p, int point, double[] q) {
        double[] here = conditions[point];
        if (p.isEmpty()) {
            for (int t = 0; t < count; t++) q[t] = Math.max(q[t], healthyShown[point][touched[t]]);
            return;
        }
        int now = ++turn;
        for (int i = p.from(); i < p.to(); i++) here[p.watch()[i]] = p.probability()[i];
        for (int i = p.from(); i < p.to(); i++)
            for (int c : table.shownBy(p.watch()[i]))
                if (rawIn[c] != now) {
                    rawIn[c] = now;
                    raw[c] = table.raw(c, here);
                }
        for (int t = 0; t < count; t++) q[t] = Math.max(q[t], masked(touched[t], point, now));
        for (int i = p.from(); i < p.to(); i++) here[p.watch()[i]] = healthy[point][p.watch()[i]];
    }

    private double masked(int code, int point, int now) {
        double out = rawAt(code, point, now);
        // Most codes that others might hide are not there to be hidden.
        if (out == 0) return 0;
        for (int mask : table.masksOf(code)) out *= 1 - table.strength(mask) * hiding(mask, point, now);
        return out;
    }

    private double hiding(int mask, int point, int now) {
        int hider = table.hider(mask);
        if (rawIn[hider] != now) return healthyHiding[point][mask];
        return table.hasOwn(mask) ? table.hiding(mask, conditions[point]) : raw[hider];
    }

    private double rawAt(int code, int point, int now) {
        return rawIn[code] == now ? raw[code] : healthyRaw[point][code];
    }

    private boolean differs(int t, double q) {
        return Math.abs(q - most[touched[t]]) > Prediction.SAME;
    }
}
