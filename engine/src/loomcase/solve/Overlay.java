package loomcase.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import loomcase.model.Edit;

/**
 * Many faults of one instant, each solved by itself, and whether two of them may be laid over each other.
 *
 * <p><b>The theorem.</b> Fault a turns {@code A·x₀ = j} into {@code (A + U_a·D_a·V_aᵀ)·x_a = j_a}, and b likewise. Put
 * {@code x = x_a + x_b − x₀} into the equations of both faults at once: everything cancels but {@code U_a·r_a + U_b·r_b}
 * with {@code r_a = D_a·V_aᵀ·(x_b − x₀)} and {@code r_b = D_b·V_bᵀ·(x_a − x₀)}. So the sum solves the joint network when
 * neither fault changes the voltage across what the other one changed, and no part leaves the region it has there.
 *
 * <p><b>What is missing</b> where that is only nearly so: with {@code P_a = (A + U_a·D_a·V_aᵀ)⁻¹·U_a} the joint solution
 * is {@code x − P_a·ζ_a − P_b·ζ_b}, where {@code ζ_a + E_ab·ζ_b = r_a}, {@code ζ_b + E_ba·ζ_a = r_b}, {@code E_ab =
 * D_a·V_aᵀ·P_b}: as many unknowns as the smaller fault has columns. Two faults may be laid over each other when they change
 * nothing in common and every part and fuse keeps at the joint solution the state that it has under its own fault; what is
 * read afterwards is of both. Digits are lost where a fault cuts an island off; what is left is enough for a bound, not for a
 * reading.
 *
 * <p>Where several combinations of regions agree (a relay that holds itself) the joint search might end in another one.
 * Cost of a question: the columns of one fault times those of the other, one look at what the two move each part, and the
 * nodes looked at. Not thread-safe.
 */
public final class Overlay implements NodeVolts {
    private static final double LEAST_GAIN = 1e-12;

    /** More columns than the solver takes for one update, for here they are inverted once for all pairs. */
    private static final int MOST_RANK = 300;

    private final PhaseSolver solver;
    private final Netlist net;
    private final double[] base;
    private final int[] baseRegions;
    private final PartTable table;
    private final List<Trace> traces = new ArrayList<>();

    /** What the sum of the faults laid last has too much. */
    private final Terms surplus = new Terms();

    private Trace x = new Trace();
    private Trace y = x;

    Overlay(PhaseSolver solver) {
        this.solver = solver;
        this.net = solver.net();
        this.base = solver.healthy().nodeVolts();
        this.baseRegions = solver.healthy().regions();
        this.table = new PartTable(net.parts(), baseRegions);
    }

    /** What one fault does. */
    private static final class Trace {
        private Solution solution;
        private Changes changes;
        private double[] delta;
        private int[] plus;
        private int[] minus;
        private double[] siemens;

        /** By column, by node: volts for one ampere there under this fault; empty when it cannot be laid over another. */
        private Optional<double[][]> response = Optional.empty();

        /** By column: the largest voltage one ampere there gives at any active node. */
        private double[] gain;

        private int[] elements;

        /** Numbers of the parts that are other ones or in other regions. */
        private int[] parts;

        /** By part, volts by which its probe or gate moves. */
        private double[] moves;

        /** By part, volts to the nearest border of the region that it has on a healthy engine. */
        private double[] room;
    }

    /** Solves another fault and keeps it; its number is how many there were before. */
    public Solution add(List<Edit> edits) {
        Trace t = new Trace();
        t.solution = solver.solveQuickly(edits);
        traces.add(t);
        // A fuse that one fault opens may hold when the other limits its current: the way to the open fuse counts too.
        if (!t.solution.settled() || !t.solution.openedFuses().isEmpty()) return t.solution;
        Changes changes = t.changes = solver.changes(edits);
        double[] now = t.solution.nodeVolts();
        t.delta = new double[base.length];
        for (int i = 0; i < base.length; i++) t.delta[i] = now[i] - base[i];
        List<Part> parts = changes.partsOf(net);
        int[] regions = t.solution.regions();
        t.moves = table.moves(now, base);
        t.room = table.room(now);
        t.elements = changes.elements().keySet().stream().mapToInt(i -> i).toArray();
        t.parts = IntStream.range(0, regions.length)
                .filter(p -> regions[p] != baseRegions[p]
                        || parts.get(p) != net.parts().get(p))
                .toArray();
        List<Stamp> change = solver.columnsOf(changes, parts, regions);
        t.plus = change.stream().mapToInt(Stamp::plus).toArray();
        t.minus = change.stream().mapToInt(Stamp::minus).toArray();
        t.siemens = change.stream().mapToDouble(Stamp::siemens).toArray();
        t.response = response(change);
        t.gain = t.response.stream()
                .flatMap(Arrays::stream)
                .mapToDouble(this::most)
                .toArray();
        return t.solution;
    }

    private double most(double[] response) {
        double most = LEAST_GAIN;
        for (int i = 0; i < net.active(); i++) most = Math.max(most, Math.abs(response[i]));
        return most;
    }

    private Optional<double[][]> response(List<Stamp> change) {
        int k = change.size();
        if (k == 0) return Optional.of(new double[0][]);
        if (k > MOST_RANK) return Optional.empty();
        return new LowRank(solver, change).responses();
    }

    /** Lays one fault over another; what is read afterwards is of both. False when they must be solved jointly. */
    public boolean lay(int a, int b) {
        x = traces.get(a);
        y = traces.get(b);
        if (x.response.isEmpty() || y.response.isEmpty()) return false;
        if (x.gain.length < y.gain.length) {
            x = y;
            y = traces.get(a);
        }
        if (sharesAny(x.elements, y.elements) || sharesAny(x.parts, y.parts)) return false;
        surplus.clear();
        return findSurplus() && partsStay() && fusesHold();
    }

    private static boolean sharesAny(int[] a, int[] b) {
        for (int i : a) for (int j : b) if (i == j) return true;
        return false;
    }

    /** r_a, amperes. */
    private static double[] unbalanced(Trace a, Trace b) {
        double[] r = new double[a.siemens.length];
        for (int s = 0; s < r.length; s++) r[s] = a.siemens[s] * (b.delta[a.plus[s]] - b.delta[a.minus[s]]);
        return r;
    }

    /** E_ab. */
    private static double[][] coupling(Trace a, Trace b) {
        double[][] e = new double[a.siemens.length][b.siemens.length];
        double[][] response = b.response.orElseThrow();
        for (int t = 0; t < response.length; t++) {
            double[] p = response[t];
            for (int s = 0; s < e.length; s++) e[s][t] = a.siemens[s] * (p[a.plus[s]] - p[a.minus[s]]);
        }
        return e;
    }

    /** Finds what the sum has too much; false when that cannot be found. */
    private boolean findSurplus() {
        int k = y.siemens.length;
        if (k == 0) return true;
        double[] rx = unbalanced(x, y);
        double[] ry = unbalanced(y, x);
        double[][] exy = coupling(x, y);
        double[][] eyx = coupling(y, x);
        double[][] m = new double[k][k + 1];
        for (int r = 0; r < k; r++) {
            m[r][r] = 1;
            m[r][k] = ry[r];
            for (int s = 0; s < rx.length; s++) {
                double f = eyx[r][s];
                if (f == 0) continue;
                m[r][k] -= f * rx[s];
                for (int c = 0; c < k; c++) m[r][c] -= f * exy[s][c];
            }
        }
        // Below this many digits the two together cut something off that neither cuts off alone.
        if (!(LowRank.gauss(m) > 1e-6)) return false;
        for (int t = 0; t < k; t++) surplus.add(y.response.orElseThrow()[t], y.gain[t], m[t][k]);
        for (int s = 0; s < rx.length; s++) {
            double zeta = rx[s];
            for (int t = 0; t < k; t++) zeta -= exy[s][t] * m[t][k];
            surplus.add(x.response.orElseThrow()[s], x.gain[s], zeta);
        }
        return true;
    }

    /** True when every part keeps its region; looks only at those that the two together might bring to a border. */
    private boolean partsStay() {
        for (int p : x.parts) if (!stays(p)) return false;
        for (int p : y.parts) if (!stays(p)) return false;
        double most = PhaseOverlay.PROBE * surplus.bound();
        for (int p = 0; p < x.room.length; p++)
            if (y.moves[p] + most >= x.room[p] && x.moves[p] + most >= y.room[p] && !stays(p)) return false;
        return true;
    }

    private boolean stays(int p) {
        return part(p).violation(region(p), this) <= Moves.SLACK;
    }

    private boolean isOf(Trace t, int part) {
        for (int p : t.parts) if (p == part) return true;
        return false;
    }

    private Part part(int p) {
        return (isOf(y, p) ? y : x).changes.part(net, p);
    }

    private int region(int p) {
        return (isOf(y, p) ? y : x).solution.regions()[p];
    }

    private boolean fusesHold() {
        for (int f : net.fuses()) {
            Netlist.Element e = x.changes.element(net, f);
            if (e == net.elements().get(f)) e = y.changes.element(net, f);
            if (e.opens(this)) return false;
        }
        return true;
    }

    @Override
    public double at(int node) {
        return base[node] + x.delta[node] + y.delta[node] - surplus.at(node);
    }

    @Override
    public double amperes(int driver) {
        return part(driver).current(region(driver), this);
    }

    /** A bound of the volts by which, at any active node, both faults together differ from the sum of what each does. */
    public double surplusBound() {
        return surplus.bound();
    }
}
