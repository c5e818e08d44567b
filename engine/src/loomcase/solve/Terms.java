package loomcase.solve;

import java.util.Arrays;

/** A sum of a few columns of voltages, each times a number; looked at only at the nodes asked for. Not thread-safe. */
final class Terms {
    /** Volts at all active nodes below which a term is left out. */
    private static final double NOTHING = 1e-9;

    private double[][] columns = {};
    private double[] times = {};
    private int used;
    private double bound;

    void clear() {
        used = 0;
        bound = 0;
    }

    /**
     * Adds a term.
     *
     * @param column volts by node
     * @param most the largest of them at an active node, without sign
     * @return a bound of the term at active nodes, volts
     */
    double add(double[] column, double most, double by) {
        double here = Math.abs(by) * most;
        bound += here;
        if (here < NOTHING) return here;
        if (used == columns.length) {
            columns = Arrays.copyOf(columns, 2 * used + 4);
            times = Arrays.copyOf(times, 2 * used + 4);
        }
        columns[used] = column;
        times[used++] = by;
        return here;
    }

    /** A bound of the sum at active nodes, volts, without sign; terms left out are counted too. */
    double bound() {
        return bound;
    }

    /** The sum at a node, volts. */
    double at(int node) {
        double sum = 0;
        for (int t = 0; t < used; t++) sum += times[t] * columns[t][node];
        return sum;
    }
}
