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
    private final int nodes;
    private final Inverse w;
    private final double[][] across;
    private boolean lostDigits;

    private Optional<SmallSystem> system = Optional.empty();

    /** @param nodes how many the network has, chassis included */
    LowRank(int nodes, List<Stamp> change, Inverse w) {
        this.change = change;
        this.nodes = nodes;
        this.w = w;
        this.across = w.across();
    }

    /** The stamps, k of them. */
    List<Stamp> change() {
        return change;
    }

    /** Columns of W, k of them. */
    List<Column> columns() {
        return w.columns();
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
     * Turns a solution with the healthy matrix into one with the changed matrix, the stamps' own currents added.
     *
     * @param healthy all node voltages; not changed
     * @param nodes how many are wanted
     * @return the first {@code nodes} voltages, or an empty array when singular to working precision
     */
    double[] applyTo(double[] healthy, int nodes) {
        if (singular()) return NONE;
        double[] x = Arrays.copyOf(healthy, nodes);
        w.addTo(x, amperes(healthy, true));
        return x;
    }

    /**
     * The same in place and without the stamps' own currents.
     *
     * @param volts all node voltages
     * @return false when singular to working precision
     */
    boolean applyTo(double[] volts) {
        if (singular()) return false;
        w.addTo(volts, amperes(volts, false));
        return true;
    }

    private boolean singular() {
        double pivot = system().pivot();
        lostDigits |= pivot < DIGITS;
        return !(pivot > 0);
    }

    /** What flows through each stamp beside the healthy network's currents. */
    private double[] amperes(double[] healthy, boolean sources) {
        int k = change.size();
        double[] times = new double[k];
        if (sources) for (int j = 0; j < k; j++) times[j] = change.get(j).amperes();
        double[] right = new double[k];
        for (int r = 0; r < k; r++) {
            Stamp s = change.get(r);
            double y = healthy[s.plus()] - healthy[s.minus()];
            if (sources) for (int c = 0; c < k; c++) y -= times[c] * across[r][c];
            right[r] = s.siemens() * y;
        }
        system().solve(right);
        for (int j = 0; j < k; j++) times[j] = -(times[j] + right[j]);
        return times;
    }

    /** {@code I + D·VᵀW}, factorised on first use. */
    private SmallSystem system() {
        if (system.isEmpty()) {
            int k = change.size();
            double[][] m = new double[k][k];
            for (int r = 0; r < k; r++) {
                double siemens = change.get(r).siemens();
                for (int c = 0; c < k; c++) m[r][c] = siemens * across[r][c];
                m[r][r] += 1;
            }
            system = Optional.of(new SmallSystem(m));
        }
        return system.get();
    }

    /**
     * {@code (A + U·D·Vᵀ)⁻¹·U}: by column, by node, the voltage for one ampere there in the changed network; empty when
     * singular to working precision.
     */
    Optional<double[][]> responses() {
        int k = change.size();
        if (k == 0) return Optional.of(new double[0][]);
        SmallSystem small = system();
        if (!(small.pivot() > 0)) return Optional.empty();
        double[][] out = new double[k][nodes];
        List<Column> columns = w.columns();
        for (int s = 0; s < k; s++) {
            double[] inverse = new double[k];
            inverse[s] = 1;
            small.solve(inverse);
            for (int c = 0; c < k; c++) if (inverse[c] != 0) columns.get(c).addTo(out[s], inverse[c]);
        }
        return Optional.of(out);
    }
}
