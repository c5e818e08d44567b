package loomcase.solve;

import java.util.ArrayList;
import java.util.List;
import loomcase.model.Edit;
import loomcase.solve.PairTrace.Reach;

/**
 * Many faults of one instant, each solved by itself, and whether two of them may be laid over each other.
 *
 * <p><b>The theorem.</b> Fault a turns {@code A·x₀ = j} into {@code (A + U_a·D_a·V_aᵀ)·x_a = j_a}, and b likewise. Put
 * {@code x = x_a + x_b − x₀} into the equations of both faults at once: everything cancels but {@code U_a·r_a + U_b·r_b}
 * with {@code r_a = D_a·V_aᵀ·(x_b − x₀)} and {@code r_b = D_b·V_bᵀ·(x_a − x₀)}. So the sum solves the joint network when
 * neither fault changes the voltage across what the other one changed, and no part leaves the region it has there.
 *
 * <p><b>What is missing</b> where that is not so: with {@code P_a = (A + U_a·D_a·V_aᵀ)⁻¹·U_a} the joint solution
 * is {@code x − P_a·ζ_a − P_b·ζ_b}, where {@code ζ_a + E_ab·ζ_b = r_a}, {@code ζ_b + E_ba·ζ_a = r_b}, {@code E_ab =
 * D_a·V_aᵀ·P_b}: as many unknowns as the smaller fault has columns. Two faults may be laid over each other when they change
 * nothing in common and every part and fuse keeps at the joint solution the state that it has under its own fault; what is
 * read afterwards is of both. Digits are lost where a fault cuts an island off; what is left is enough for a bound.
 *
 * <p>Where several combinations of regions agree (a relay that holds itself) the joint search might end in another one.
 *
 * <p>Cost of a question: the columns of one fault times those of the other, and as many numbers for each column as there are
 * {@link Taps}; no node is looked at but those that the faults change. Faults are added by one thread; then any number may
 * lay them, each with its own {@link Pair}.
 */
public final class Overlay {
    private final PhaseSolver solver;
    private final Netlist net;
    private final double[] base;
    private final Taps taps;
    private final double[] baseShown;
    private final int firstRead;
    private final List<PairTrace> traces = new ArrayList<>();

    /**
     * @param plus node counted positive of each voltage that will be read
     * @param minus node counted negative
     */
    Overlay(PhaseSolver solver, int[] plus, int[] minus) {
        this.solver = solver;
        this.net = solver.net();
        Solution healthy = solver.healthy();
        this.base = healthy.nodeVolts();
        List<Taps.Tap> all = new ArrayList<>(PartTable.taps(net.parts(), healthy.regions(), p -> true));
        for (int f : net.fuses()) all.add(net.elements().get(f).tap(f));
        this.firstRead = all.size();
        for (int i = 0; i < plus.length; i++) all.add(Taps.Tap.read(plus[i], minus[i]));
        this.taps = new Taps(all);
        this.baseShown = taps.of(base);
    }

    /** Solves another fault and keeps it; its number is how many there were before. */
    public Solution add(List<Edit> edits) {
        PairTrace t = PairTrace.of(solver, taps, edits);
        traces.add(t);
        return t.solution();
    }

    /** A healthy engine. */
    public Solution healthy() {
        return solver.healthy();
    }

    /** One of the faults by itself. */
    public Solution alone(int fault) {
        return traces.get(fault).solution();
    }

    /** Two faults at once, none yet, for one thread. */
    public Pair pair() {
        return new Pair();
    }

    /** Two faults laid over each other. Not thread-safe. */
    public final class Pair implements NodeVolts {
        /** Volts at all taps below which a term is left out. */
        private static final double NOTHING = 1e-10;

        private final double[] shown = new double[taps.size()];
        private PairTrace x;
        private PairTrace y;
        private Reach ofX;
        private Reach ofY;

        /** ζ, amperes. */
        private double[] zetaX = {};

        private double[] zetaY = {};

        /** E of either with the other. */
        private double[] exy = {};

        private double[] eyx = {};

        private Pair() {}

        /** Lays one fault over another; what is read afterwards is of both. False when they must be solved jointly. */
        public boolean lay(int a, int b) {
            if (!turnTo(a, b) || !findZeta()) return false;
            show();
            return everythingStays();
        }

        /**
         * What two faults have to do with each other.
         *
         * @param volts at any tap, what counts as another thing
         */
        public Ties ties(int a, int b, double volts) {
            if (!turnTo(a, b)) return new Ties(true, false, false);
            if (!findZeta()) return new Ties(false, true, true);
            boolean larger = isMoreThan(volts, ofX, zetaX);
            boolean smaller = isMoreThan(volts, ofY, zetaY);
            return x == traces.get(a) ? new Ties(false, larger, smaller) : new Ties(false, smaller, larger);
        }

        private static boolean isMoreThan(double volts, Reach of, double[] zeta) {
            double sum = 0;
            for (int s = 0; s < zeta.length; s++) sum += Math.abs(zeta[s]) * of.most()[s];
            return sum > volts;
        }

        /** Makes x the one with more columns; false when they cannot be laid over each other. */
        private boolean turnTo(int a, int b) {
            x = traces.get(a);
            y = traces.get(b);
            if (x.reach().isEmpty() || y.reach().isEmpty() || x.meets(y)) return false;
            ofX = x.reach().get();
            ofY = y.reach().get();
            if (ofX.size() < ofY.size()) {
                PairTrace other = x;
                x = y;
                y = other;
                ofX = ofY;
                ofY = y.reach().get();
            }
            return true;
        }

        /**
         * Solves the faults jointly where they could not be laid over each other; the same as {@link
         * NetworkSolver.Instant#solveActive}, but begins where they ended alone.
         *
         * @param edits of both
         */
        public Solution solve(List<Edit> edits) {
            if (x.reach().isEmpty() || y.reach().isEmpty()) return solver.solveActive(edits);
            Solution found = solveFromThere(edits);
            return found.settled() ? found : solver.solveActive(edits);
        }

        private Solution solveFromThere(List<Edit> edits) {
            PairTrace larger = x.isLarge() ? x : y;
            if (larger.isLarge() && !x.sharesElement(y)) return larger.solveWith(larger == x ? y : x);
            int[] regions = solver.healthy().regions();
            for (int p : x.parts()) regions[p] = x.solution().regions()[p];
            for (int p : y.parts()) regions[p] = y.solution().regions()[p];
            return solver.solveActive(Changes.none(), regions, edits);
        }

        /** What a voltage that was asked for reads, counted in the order in which they were. */
        public double read(int which) {
            return shown[firstRead + which];
        }

        @Override
        public double at(int node) {
            return base[node]
                    + ofX.delta()[node]
                    + ofY.delta()[node]
                    - taken(ofX, zetaX, node)
                    - taken(ofY, zetaY, node);
        }

        private double taken(Reach of, double[] zeta, int node) {
            double sum = 0;
            int first = zeta.length * node;
            for (int s = 0; s < zeta.length; s++) sum += zeta[s] * of.response()[first + s];
            return sum;
        }

        @Override
        public double amperes(int driver) {
            return part(driver).current(region(driver), this);
        }

        /** Finds what the sum has too much; false when that cannot be found. */
        private boolean findZeta() {
            int k = ofY.size();
            int n = ofX.size();
            zetaX = unbalanced(ofX, ofY);
            zetaY = unbalanced(ofY, ofX);
            if (k == 0) return true;
            exy = coupling(ofX, ofY, exy);
            eyx = coupling(ofY, ofX, eyx);
            double[][] m = new double[k][k];
            for (int r = 0; r < k; r++) {
                double[] row = m[r];
                row[r] = 1;
                for (int s = 0; s < n; s++) {
                    double f = eyx[r * n + s];
                    if (f == 0) continue;
                    zetaY[r] -= f * zetaX[s];
                    for (int c = 0; c < k; c++) row[c] -= f * exy[s * k + c];
                }
            }
            SmallSystem small = new SmallSystem(m);
            // Below this many digits the two together cut something off that neither cuts off alone.
            if (!(small.pivot() > 1e-6)) return false;
            small.solve(zetaY);
            for (int s = 0; s < n; s++) for (int t = 0; t < k; t++) zetaX[s] -= exy[s * k + t] * zetaY[t];
            return true;
        }

        /** r_a, amperes. */
        private static double[] unbalanced(Reach a, Reach b) {
            double[] r = new double[a.size()];
            for (int s = 0; s < r.length; s++)
                r[s] = a.siemens()[s] * (b.delta()[a.plus()[s]] - b.delta()[a.minus()[s]]);
            return r;
        }

        /**
         * E_ab by rows.
         *
         * @param room for the answer, which is another array when that is too small
         */
        private static double[] coupling(Reach a, Reach b, double[] room) {
            int k = b.size();
            double[] e = room.length < a.size() * k ? new double[2 * a.size() * k] : room;
            double[] response = b.response();
            for (int s = 0; s < a.size(); s++) {
                double siemens = a.siemens()[s];
                int plus = k * a.plus()[s];
                int minus = k * a.minus()[s];
                for (int t = 0; t < k; t++) e[s * k + t] = siemens * (response[plus + t] - response[minus + t]);
            }
            return e;
        }

        private void show() {
            double[] here = shown;
            double[] byX = ofX.shown();
            double[] byY = ofY.shown();
            for (int i = 0; i < here.length; i++) here[i] = baseShown[i] + byX[i] + byY[i];
            take(ofX, zetaX);
            take(ofY, zetaY);
        }

        private void take(Reach of, double[] zeta) {
            double[] here = shown;
            for (int s = 0; s < zeta.length; s++) {
                double times = zeta[s];
                if (Math.abs(times) * of.most()[s] < NOTHING) continue;
                double[] response = of.responseShown()[s];
                for (int i = 0; i < here.length; i++) here[i] -= times * response[i];
            }
        }

        /** True when every part keeps its region and every fuse holds. */
        private boolean everythingStays() {
            for (int i = taps.outside(shown, 0); i < firstRead; i = taps.outside(shown, i + 1))
                if (!isChanged(taps.get(i))) return false;
            return stays(x) && stays(y);
        }

        /** True when what a fault has changed keeps the state it has under that fault. */
        private boolean stays(PairTrace t) {
            if (!t.movedStay(shown)) return false;
            for (int p : t.replaced()) if (part(p).violation(region(p), this) > Moves.SLACK) return false;
            for (int f : t.fuses()) if (t.changes().element(net, f).opens(this)) return false;
            return true;
        }

        private boolean isChanged(Taps.Tap tap) {
            if (tap.part() != Taps.NONE) return x.hasPart(tap.part()) || y.hasPart(tap.part());
            return x.hasFuse(tap.fuse()) || y.hasFuse(tap.fuse());
        }

        private Part part(int p) {
            return (y.hasPart(p) ? y : x).changes().part(net, p);
        }

        private int region(int p) {
            return (y.hasPart(p) ? y : x).solution().regions()[p];
        }
    }
}
