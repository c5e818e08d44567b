package loomcase.solve;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * One change of the healthy matrix A by a few stamps, {@code A + U·D·Vᵀ}, with {@code W = A⁻¹U}; see {@link PhaseSolver}.
 */
final class LowRank {
    /** A pivot below this share of its row has lost so many digits that the solution is refined. */
    static final double DIGITS = 1e-9;

    static final double[] NONE = {};

    private final List<Stamp> change;
    private final Column[] w;
    private final double[][] across;
    private boolean lostDigits;

    /** The small matrix, factorised with its rows in this order. */
    private double[][] factors = {};

    private int[] order = {};
    private double pivot = 1;

    LowRank(PhaseSolver solver, List<Stamp> change) {
        this.change = change;
        int k = change.size();
        this.w = new Column[k];
        this.across = new double[k][k];
        for (int j = 0; j < k; j++)
            w[j] = solver.column(change.get(j).from(), change.get(j).to());
        for (int c = 0; c < k; c++) {
            double[] ohms = w[c].ohms();
            for (int r = 0; r < k; r++)
                across[r][c] = ohms[change.get(r).plus()] - ohms[change.get(r).minus()];
        }
    }

    /** The stamps, k of them. */
    List<Stamp> change() {
        return change;
    }

    /** Columns of W, k of them. */
    Column[] columns() {
        return w;
    }

    /** {@code VᵀW}, k × k, ohms. */
    double[][] across() {
        return across;
    }

    /** True when some use of this lost more digits than {@value #DIGITS}. */
    boolean lostDigits() {
        return lostDigits;
    }

    /**
     * Turns a solution with the healthy matrix into one with the changed matrix.
     *
     * @param healthy all node voltages; not changed
     * @param nodes how many are wanted
     * @param sources whether the stamps' own currents are added too
     * @return the first {@code nodes} voltages, or an empty array when singular to working precision
     */
    double[] applyTo(double[] healthy, int nodes, boolean sources) {
        int k = change.size();
        if (!(pivot() > 0)) return NONE;
        lostDigits |= pivot < DIGITS;
        double[] times = new double[k];
        if (sources) for (int j = 0; j < k; j++) times[j] = change.get(j).amperes();
        double[] right = new double[k];
        for (int r = 0; r < k; r++) {
            Stamp s = change.get(r);
            double y = healthy[s.plus()] - healthy[s.minus()];
            if (sources) for (int c = 0; c < k; c++) y -= times[c] * across[r][c];
            right[r] = s.siemens() * y;
        }
        solve(right);
        double[] x = Arrays.copyOf(healthy, nodes);
        for (int j = 0; j < k; j++) {
            double t = times[j] + right[j];
            double[] column = w[j].ohms();
            if (t != 0) for (int i = 0; i < nodes; i++) x[i] -= t * column[i];
        }
        return x;
    }

    /** Factorises the small matrix on first use; the same measure as {@link #gauss} gives. */
    private double pivot() {
        int k = change.size();
        if (factors.length == k) return pivot;
        double[][] m = new double[k][k];
        order = new int[k];
        for (int r = 0; r < k; r++) {
            order[r] = r;
            double siemens = change.get(r).siemens();
            for (int c = 0; c < k; c++) m[r][c] = siemens * across[r][c];
            m[r][r] += 1;
        }
        pivot = 1;
        for (int c = 0; c < k && pivot > 0; c++) {
            int best = c;
            for (int r = c + 1; r < k; r++) if (Math.abs(m[r][c]) > Math.abs(m[best][c])) best = r;
            double[] row = m[best];
            m[best] = m[c];
            m[c] = row;
            int place = order[best];
            order[best] = order[c];
            order[c] = place;
            double largest = 1;
            for (int j = c; j < k; j++) largest = Math.max(largest, Math.abs(row[j]));
            pivot = Math.abs(row[c]) > 1e-300 ? Math.min(pivot, Math.abs(row[c]) / largest) : 0;
            for (int r = c + 1; r < k; r++) {
                double[] other = m[r];
                if (other[c] == 0) continue;
                double f = other[c] /= row[c];
                for (int j = c + 1; j < k; j++) other[j] -= f * row[j];
            }
        }
        factors = m;
        return pivot;
    }

    /** Solves in place with the factors of the small matrix. */
    private void solve(double[] right) {
        int k = right.length;
        double[] b = new double[k];
        for (int r = 0; r < k; r++) {
            double sum = right[order[r]];
            for (int j = 0; j < r; j++) sum -= factors[r][j] * b[j];
            b[r] = sum;
        }
        for (int r = k - 1; r >= 0; r--) {
            double sum = b[r];
            for (int j = r + 1; j < k; j++) sum -= factors[r][j] * right[j];
            right[r] = sum / factors[r][r];
        }
    }

    /**
     * {@code (A + U·D·Vᵀ)⁻¹·U}: by column, by node, the voltage for one ampere there in the changed network; empty when
     * singular to working precision.
     */
    Optional<double[][]> responses() {
        int k = change.size();
        if (k == 0) return Optional.of(new double[0][]);
        if (!(pivot() > 0)) return Optional.empty();
        double[][] out = new double[k][w[0].ohms().length];
        for (int s = 0; s < k; s++) {
            double[] inverse = new double[k];
            inverse[s] = 1;
            solve(inverse);
            for (int c = 0; c < k; c++) {
                double[] column = w[c].ohms();
                if (inverse[c] != 0) for (int i = 0; i < column.length; i++) out[s][i] += inverse[c] * column[i];
            }
        }
        return Optional.of(out);
    }

    /**
     * Gaussian elimination with row pivoting.
     *
     * @param m k rows of k + 1; the last column is overwritten by the solution
     * @return the smallest pivot as a share of its row's largest entry or of one; 0 when singular to working precision
     */
    static double gauss(double[][] m) {
        int k = m.length;
        double least = 1;
        for (int c = 0; c < k; c++) {
            int best = c;
            for (int r = c + 1; r < k; r++) if (Math.abs(m[r][c]) > Math.abs(m[best][c])) best = r;
            double[] row = m[best];
            double largest = 1;
            for (int j = 0; j < k; j++) largest = Math.max(largest, Math.abs(row[j]));
            least = Math.min(least, Math.abs(row[c]) / largest);
            if (!(Math.abs(row[c]) > 1e-300)) return 0;
            m[best] = m[c];
            m[c] = row;
            for (int r = c + 1; r < k; r++) {
                double f = m[r][c] / row[c];
                if (f == 0) continue;
                for (int j = c + 1; j <= k; j++) m[r][j] -= f * row[j];
            }
        }
        for (int c = k - 1; c >= 0; c--) {
            double sum = m[c][k];
            for (int j = c + 1; j < k; j++) sum -= m[c][j] * m[j][k];
            m[c][k] = sum / m[c][c];
        }
        return least;
    }
}
