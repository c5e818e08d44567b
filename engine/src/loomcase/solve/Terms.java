package loomcase.solve;

import java.util.Arrays;

/** A sum of a few columns of voltages, each times a number; looked at only at the nodes asked for. Not thread-safe. */
final class Terms {
    /** Volts at all active nodes below which a term is left out. */
    private static final double NOTHING = 1e-9;

    /** A probe moves by at most this many times what its nodes move by: the factors of sensors are shares of a supply. */
    private static final double PROBE = 4;

    private Column[] columns = {};
    private Column.Most[] mosts = {};
    private double[] times = {};
    private int used;
    private double bound;
    private double leftOut;

    void clear() {
        used = 0;
        bound = 0;
        leftOut = 0;
    }

    /**
     * Adds a term.
     *
     * @param most the largest voltages of the column
     */
    void add(Column column, Column.Most most, double by) {
        double here = Math.abs(by) * most.active();
        bound += here;
        if (here < NOTHING) {
            leftOut += here;
            return;
        }
        if (used == columns.length) {
            columns = Arrays.copyOf(columns, 2 * used + 4);
            mosts = Arrays.copyOf(mosts, columns.length);
            times = Arrays.copyOf(times, columns.length);
        }
        columns[used] = column;
        mosts[used] = most;
        times[used++] = by;
    }

    /** A bound of the sum at active nodes, volts, without sign; terms left out are counted too. */
    double bound() {
        return bound;
    }

    /**
     * Bounds of the sum across probes and gates of parts, volts, without sign, by block of parts: a sum is nowhere larger than
     * the sum of what each of its terms is where it is largest. A term left out counts as its largest voltage at any active
     * node, times what a probe makes of that.
     *
     * @param out overwritten
     */
    void boundBlocks(double[] out) {
        Arrays.fill(out, PROBE * leftOut);
        for (int t = 0; t < used; t++) {
            double by = Math.abs(times[t]);
            double[] most = mosts[t].byBlock();
            for (int b = 0; b < out.length; b++) out[b] += by * most[b];
        }
    }

    /** The sum at a node, volts. */
    double at(int node) {
        double sum = 0;
        for (int t = 0; t < used; t++) sum += times[t] * columns[t].at(node);
        return sum;
    }
}
