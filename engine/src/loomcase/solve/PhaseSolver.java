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
 * <p>Exactness: where a change cuts a part of the network off, {@code I + D·VᵀW} loses up to twelve digits; the settled
 * solution is therefore refined on the residual of the edited network's own Kirchhoff equations until the last
 * correction is below {@value DirectSolver#CLOSE} of the largest voltage. Where that is not reached, or the change has
 * more than {@value #MOST_RANK} columns, the edited network is factorised instead. Cost: k columns of nodes each, plus
 * k³, per move; a solve with the healthy factors per refinement. Not thread-safe; one per thread.
 */
final class PhaseSolver {
    private static final int MOST_RANK = 28;

    private final Netlist net;
    private final Map<String, Device> devices;
    private final SparseLu factors;
    private final double[] base;
    private final int[] baseRegions;
    private final boolean baseSettled;
    private final Map<Long, double[]> columns = new HashMap<>();
    private int refactored;

    PhaseSolver(Netlist net, Map<String, Device> devices, SparseLu.Pattern pattern) {
        this.net = net;
        this.devices = devices;
        DirectSolver direct = new DirectSolver(net, pattern);
        Solution healthy = direct.solve();
        this.factors = direct.factors();
        this.base = healthy.nodeVolts();
        this.baseRegions = healthy.regions();
        this.baseSettled = healthy.settled() && healthy.openedFuses().isEmpty();
        if (!baseSettled && !healthy.openedFuses().isEmpty())
            throw new loomcase.InputProblem("the healthy network opens " + healthy.openedFuses()
                    + "; give the fuse a larger rating or the load more ohms");
    }

    boolean baseSettled() {
        return baseSettled;
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

    Solution solve(List<Edit> edits) {
        if (edits.isEmpty()) return healthy();
        Changes changes = Changes.of(net, devices, edits);
        List<Part> parts = new ArrayList<>(net.parts());
        changes.parts().forEach(parts::set);
        List<String> opened = new ArrayList<>();
        int[] regions = baseRegions.clone();
        while (true) {
            double[] volts = settle(changes, parts, regions);
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
     * @return node voltages, or an empty array when the low-rank path cannot be trusted or does not settle
     */
    private double[] settle(Changes changes, List<Part> parts, int[] regions) {
        Set<Integer> seen = new HashSet<>();
        boolean single = false;
        for (int move = 0; move < DirectSolver.MOST_MOVES; move++) {
            List<Stamp> change = columnsOf(changes, parts, regions);
            double[] volts = update(change);
            if (volts.length == 0) return volts;
            single |= !seen.add(Arrays.hashCode(regions));
            if (DirectSolver.moveParts(parts, regions, volts, single)) continue;
            if (!refine(changes, parts, regions, change, volts)) return new double[0];
            if (!DirectSolver.moveParts(parts, regions, volts, single)) return volts;
        }
        return new double[0];
    }

    private boolean refine(Changes changes, List<Part> parts, int[] regions, List<Stamp> change, double[] volts) {
        return DirectSolver.refine(volts, () -> DirectSolver.residual(net, changes, parts, regions, volts), r -> {
            DirectSolver.solveWithChassis(factors, r);
            return reduce(change, r);
        });
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
            boolean replaced = parts.get(p) != net.parts().get(p);
            if (regions[p] == baseRegions[p] && !replaced) continue;
            for (Stamp s : net.parts().get(p).stamps(baseRegions[p]))
                out.add(new Stamp(s.from(), s.to(), s.plus(), s.minus(), -s.siemens(), -s.amperes()));
            out.addAll(parts.get(p).stamps(regions[p]));
        }
        return out;
    }

    /**
     * The solution of the network with changed stamps.
     *
     * @return node volts, or an empty array when the change is too large or singular
     */
    private double[] update(List<Stamp> change) {
        if (change.size() > MOST_RANK) return new double[0];
        double[] y = base.clone();
        for (Stamp s : change) if (s.amperes() != 0) subtract(y, column(s.from(), s.to()), s.amperes());
        return reduce(change, y) ? y : new double[0];
    }

    /**
     * Turns a solution with the healthy matrix into one with the changed matrix, {@code y ← y − W·z}.
     *
     * @return false when singular to working precision
     */
    private boolean reduce(List<Stamp> change, double[] y) {
        int k = change.size();
        double[][] w = new double[k][];
        for (int j = 0; j < k; j++)
            w[j] = column(change.get(j).from(), change.get(j).to());
        double[][] m = new double[k][k + 1];
        for (int r = 0; r < k; r++) {
            Stamp s = change.get(r);
            for (int c = 0; c < k; c++) m[r][c] = s.siemens() * (w[c][s.plus()] - w[c][s.minus()]);
            m[r][r] += 1;
            m[r][k] = s.siemens() * (y[s.plus()] - y[s.minus()]);
        }
        if (!gauss(m)) return false;
        for (int j = 0; j < k; j++) subtract(y, w[j], m[j][k]);
        return true;
    }

    private static void subtract(double[] y, double[] w, double times) {
        for (int i = 0; i < y.length; i++) y[i] -= times * w[i];
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
