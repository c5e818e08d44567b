package loomcase.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.model.Device;
import loomcase.model.Edit;

/**
 * Solves one instant of a circuit under many hypotheses, each as a low-rank change of the healthy network.
 *
 * <p>The healthy matrix A is factorised once. A hypothesis with its moved parts adds {@code U·D·Vᵀ} to A and
 * {@code −U·i} to the right side, one column per changed stamp, {@code u = e[from] − e[to]}, {@code v = e[plus] −
 * e[minus]}. With {@code W = A⁻¹U}, {@code y = x₀ − W·i} and {@code (I + D·VᵀW)·z = D·Vᵀy} the new solution is
 * {@code x = y − W·z} (Sherman–Morrison–Woodbury; G. H. Golub and C. F. Van Loan, "Matrix Computations", 2.1.4). Columns
 * of W are solved for as differences, never as differences of solutions, and kept per pair of nodes.
 *
 * <p>Exactness: {@code z} must equal {@code D·Vᵀx}; where rounding breaks that by more than {@value #TRUST} of the
 * largest current, or the change has more than {@value #MOST_RANK} columns, the edited network is factorised instead.
 * Cost per move: k columns of the nodes asked for, plus k³, plus one look at every part. Not thread-safe.
 */
final class PhaseSolver {
    private static final double TRUST = 1e-7;
    private static final int MOST_RANK = 28;

    private final Netlist net;
    private final Map<String, Device> devices;
    private final SparseLu factors;
    private final double[] base;
    private final int[] baseRegions;
    private final boolean baseSettled;
    private final PartTable table;
    private final Map<Long, double[]> columns = new HashMap<>();
    private int refactored;

    /**
     * @throws loomcase.InputProblem when the healthy network opens one of its own fuses
     */
    PhaseSolver(Netlist net, Map<String, Device> devices, SparseLu.Pattern pattern) {
        this.net = net;
        this.devices = devices;
        DirectSolver direct = new DirectSolver(net, pattern);
        Solution healthy = direct.solve();
        if (!healthy.openedFuses().isEmpty())
            throw new loomcase.InputProblem("the healthy network opens " + healthy.openedFuses()
                    + "; give the fuse a larger rating or the load more ohms");
        this.factors = direct.factors();
        this.base = healthy.nodeVolts();
        this.baseRegions = healthy.regions();
        this.baseSettled = healthy.settled();
        this.table = new PartTable(net.parts(), baseRegions);
    }

    Map<String, Device> devices() {
        return devices;
    }

    Netlist net() {
        return net;
    }

    /** The healthy solution. */
    Solution healthy() {
        return new Solution(net, Changes.none(), base.clone(), baseRegions.clone(), baseSettled, List.of());
    }

    /** How many hypotheses needed a factorisation of their own. */
    int refactored() {
        return refactored;
    }

    /** Drops the columns kept so far, to give back their memory. */
    void forget() {
        columns.clear();
    }

    /** The solution at every node. */
    Solution solve(List<Edit> edits) {
        return edits.isEmpty() ? healthy() : solve(edits, base.length);
    }

    /** The solution at the active nodes only; asking it for another point is an error. */
    Solution solveActive(List<Edit> edits) {
        return edits.isEmpty() ? healthy() : solve(edits, net.active());
    }

    private Solution solve(List<Edit> edits, int nodes) {
        Changes changes = Changes.of(net, devices, edits);
        List<String> opened = new ArrayList<>();
        int[] regions = baseRegions.clone();
        while (true) {
            double[] volts = settle(changes, regions, nodes);
            if (volts.length == 0) return direct(edits);
            int fuse = DirectSolver.worstFuse(net, changes, volts);
            if (fuse < 0) return new Solution(net, changes, volts, regions, true, opened);
            Netlist.Element e = changes.element(net, fuse);
            opened.add(e.name());
            changes.elements().put(fuse, e.withOhms(Edit.OPEN_OHMS));
        }
    }

    private Solution direct(List<Edit> edits) {
        refactored++;
        return new DirectSolver(Changes.of(net, devices, edits).applyTo(net)).solve(baseRegions);
    }

    /**
     * Moves parts until all agree.
     *
     * @param regions overwritten
     * @param nodes how many node voltages are wanted; at least the active ones
     * @return node voltages, or an empty array when the low-rank path cannot be trusted or does not settle
     */
    private double[] settle(Changes changes, int[] regions, int nodes) {
        List<Part> parts = net.parts();
        if (!changes.parts().isEmpty()) {
            parts = new ArrayList<>(parts);
            changes.parts().forEach(parts::set);
        }
        Set<Integer> seen = new HashSet<>();
        boolean single = false;
        for (int move = 0; move < DirectSolver.MOST_MOVES; move++) {
            double[] volts = update(columnsOf(changes, parts, regions), nodes);
            if (volts.length == 0) return volts;
            if (table.agrees(parts, regions, volts)) return volts;
            single |= !seen.add(Arrays.hashCode(regions));
            if (!DirectSolver.moveParts(parts, regions, volts, single)) return volts;
        }
        return new double[0];
    }

    /** The stamps to add to the healthy network, removed ones with their sign turned. */
    private List<Stamp> columnsOf(Changes changes, List<Part> parts, int[] regions) {
        List<Stamp> out = new ArrayList<>();
        changes.elements().forEach((i, e) -> {
            Stamp before = net.elements().get(i).stamp();
            Stamp after = e.stamp();
            out.add(new Stamp(
                    before.from(),
                    before.to(),
                    before.plus(),
                    before.minus(),
                    after.siemens() - before.siemens(),
                    after.amperes() - before.amperes()));
        });
        changes.added().forEach(e -> out.add(e.stamp()));
        for (int p = 0; p < regions.length; p++) {
            if (regions[p] == baseRegions[p] && parts.get(p) == net.parts().get(p)) continue;
            for (Stamp s : net.parts().get(p).stamps(baseRegions[p]))
                out.add(new Stamp(s.from(), s.to(), s.plus(), s.minus(), -s.siemens(), -s.amperes()));
            out.addAll(parts.get(p).stamps(regions[p]));
        }
        return out;
    }

    /**
     * Applies the changed stamps.
     *
     * @return the first {@code nodes} node voltages, or an empty array when too many digits are lost
     */
    private double[] update(List<Stamp> change, int nodes) {
        int k = change.size();
        if (k > MOST_RANK) return new double[0];
        double[][] w = new double[k][];
        double[] times = new double[k];
        for (int j = 0; j < k; j++) {
            w[j] = column(change.get(j).from(), change.get(j).to());
            times[j] = change.get(j).amperes();
        }
        double[][] across = new double[k][k];
        double[][] m = new double[k][k + 1];
        for (int r = 0; r < k; r++) {
            Stamp s = change.get(r);
            double y = base[s.plus()] - base[s.minus()];
            for (int c = 0; c < k; c++) {
                across[r][c] = w[c][s.plus()] - w[c][s.minus()];
                m[r][c] = s.siemens() * across[r][c];
                y -= times[c] * across[r][c];
            }
            m[r][r] += 1;
            m[r][k] = s.siemens() * y;
        }
        if (!gauss(m)) return new double[0];
        for (int j = 0; j < k; j++) times[j] += m[j][k];
        if (!trusted(change, across, times, m)) return new double[0];
        double[] x = Arrays.copyOf(base, nodes);
        for (int j = 0; j < k; j++) {
            double t = times[j];
            double[] column = w[j];
            if (t != 0) for (int i = 0; i < nodes; i++) x[i] -= t * column[i];
        }
        return x;
    }

    private boolean trusted(List<Stamp> change, double[][] across, double[] times, double[][] solved) {
        int k = times.length;
        double largest = 1e-6;
        double wrong = 0;
        for (int r = 0; r < k; r++) {
            Stamp s = change.get(r);
            double x = base[s.plus()] - base[s.minus()];
            for (int c = 0; c < k; c++) x -= times[c] * across[r][c];
            double z = solved[r][k];
            largest = Math.max(largest, Math.abs(z));
            wrong = Math.max(wrong, Math.abs(z - s.siemens() * x));
        }
        return wrong <= TRUST * largest;
    }

    /** {@code A⁻¹(e[from] − e[to])}, chassis entry 0 first. */
    private double[] column(int from, int to) {
        return columns.computeIfAbsent((long) from << 32 | to, key -> {
            double[] b = new double[base.length - 1];
            if (from > 0) b[from - 1] = 1;
            if (to > 0) b[to - 1] = -1;
            factors.solve(b);
            double[] out = new double[base.length];
            System.arraycopy(b, 0, out, 1, b.length);
            return out;
        });
    }

    /**
     * Gaussian elimination with row pivoting.
     *
     * @param m k rows of k + 1; the last column is overwritten by the solution
     * @return false when singular to working precision
     */
    static boolean gauss(double[][] m) {
        int k = m.length;
        for (int c = 0; c < k; c++) {
            int best = c;
            for (int r = c + 1; r < k; r++) if (Math.abs(m[r][c]) > Math.abs(m[best][c])) best = r;
            if (!(Math.abs(m[best][c]) > 1e-300)) return false;
            double[] row = m[best];
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
        return true;
    }
}
