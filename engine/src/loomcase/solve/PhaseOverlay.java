package loomcase.solve;

import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import loomcase.model.Edit;

/**
 * One phase laid over faults that were solved in another phase of the same operating point.
 *
 * <p>A phase differs from another by a few parts: drivers that are on, a node that talks. That is a change of low rank like
 * a fault's. With {@code x₀}, {@code x_h} the solutions of the first phase, healthy and with the fault, and {@code x_φ} the
 * healthy one of the second, put {@code x = x_h + x_φ − x₀ − m} into the equations of fault and phase at once: what is left
 * is {@code (A + U_φ·D_φ·V_φᵀ + U_h·D_h·V_hᵀ)·m = U_φ·r_φ + U_h·r_h} with {@code r_φ = D_φ·V_φᵀ·(x_h − x₀)} and {@code r_h
 * = D_h·V_hᵀ·(x_φ − x₀)}. With {@code P = (A + U_φ·D_φ·V_φᵀ)⁻¹·U_φ}, found once for the phase, and {@code C = D_φ·V_φᵀ·W}:
 *
 * <pre>
 * (I + D_h·V_hᵀ·(W − P·C))·ζ = r_h − D_h·V_hᵀ·P·r_φ,   m = W·ζ + P·(r_φ − C·ζ).
 * </pre>
 *
 * This is exact as long as every part and fuse keeps the state that it has under the fault, or those that the phase itself
 * switches the state that they have in the phase; else, and where {@code m} might be off in the control unit by more than
 * {@value #CLOSE} V, the fault must be solved in that phase. Where several combinations of regions agree (a relay that holds
 * itself) the search in that phase might end in another one.
 *
 * <p>Cost: columns of the fault times those of the phase, and the nodes looked at; not all nodes. {@code m} is bounded
 * by its terms for each block of neighbouring parts, and a part is looked at only when the fault and {@code m} together
 * might bring it to a border. Not thread-safe; several threads may lay several phases over one fault.
 */
public final class PhaseOverlay implements NodeVolts {
    /** Volts that m may be off by in the control unit. */
    private static final double CLOSE = 1e-8;

    /** Volts that m may be off by elsewhere, on islands that a fault has cut off and that hang on their insulation alone. */
    private static final double FLOATING = 1e-3;

    /** Share that a sum of a few numbers of working precision may be off by. */
    private static final double ROUNDING = 1e-15;

    /** With more columns than this the phase has a factorisation of its own for the faults that it cannot be laid over. */
    private static final int MOST_SHARED = 10;

    private final PhaseSolver first;
    private final Changes switched;
    private final Netlist net;
    private final double[] base;
    private final int[] baseRegions;
    private final double[] shift;
    private final int[] regions;
    private final BitSet parts = new BitSet();
    private final Stamp[] change;
    private final Optional<List<Column>> responses;
    private final List<Column.Most> most;

    /** The parts as they are in the phase. */
    private final List<Part> here;

    /** By part, volts to the nearest border in the phase; and the parts by block, nearest first. */
    private final double[] room;

    private final int[][] nearest;

    /** Parts that choose their regions by other nodes here than in the first phase, so that no bound speaks of them. */
    private final int[] otherwise;

    /** By block of parts, a bound of m across their probes and gates. */
    private final double[] bounds;

    /** By fuse, as the network numbers them: volts across it to where it opens in the phase. */
    private final double[] fuseRoom;

    /** m. */
    private final Terms terms = new Terms();

    private Optional<PhaseSolver> own = Optional.empty();
    private double[] faultVolts = {};
    private int[] faultRegions = {};
    private Changes faultChanges = Changes.none();

    /**
     * @param first solver of the phase that faults are solved in; shared by the phases laid over it
     * @param switched what is other in the phase laid over it
     * @throws loomcase.InputProblem when the healthy network opens one of its own fuses
     */
    PhaseOverlay(PhaseSolver first, Changes switched) {
        this.first = first;
        this.switched = switched;
        this.net = first.net();
        Solution before = first.healthy();
        PhaseSolver.Found found = first.switchTo(switched);
        Solution after = found.solution();
        this.change = found.update().stream().flatMap(u -> u.change().stream()).toArray(Stamp[]::new);
        boolean usable =
                before.settled() && after.settled() && Arrays.stream(change).allMatch(this::isActive);
        this.responses = usable
                ? found.update()
                        .flatMap(LowRank::responses)
                        .map(r -> Arrays.stream(r).map(Column::new).toList())
                : Optional.empty();
        this.base = before.nodeVolts();
        this.baseRegions = before.regions();
        this.regions = after.regions();
        double[] there = after.nodeVolts();
        this.shift = new double[there.length];
        for (int i = 0; i < shift.length; i++) shift[i] = there[i] - base[i];
        for (int p = 0; p < regions.length; p++)
            if (regions[p] != baseRegions[p] || switched.parts().containsKey(p)) parts.set(p);
        PartTable table = first.table();
        this.most = responses.stream()
                .flatMap(List::stream)
                .map(r -> r.most(net, table))
                .toList();
        this.here = switched.partsOf(net);
        this.room = new PartTable(here, regions).room(there);
        this.nearest =
                IntStream.range(0, table.blocks()).mapToObj(this::nearest).toArray(int[][]::new);
        this.otherwise = IntStream.range(0, room.length)
                .filter(p -> !here.get(p).looksLike(net.parts().get(p)))
                .toArray();
        this.bounds = new double[nearest.length];
        this.fuseRoom = net.fuses().stream()
                .map(f -> switched.element(net, f))
                .mapToDouble(e -> e.ohms() * (e.opensAbove() - Math.abs(e.current(there))))
                .toArray();
    }

    private int[] nearest(int block) {
        return IntStream.range(0, room.length)
                .filter(p -> PartTable.block(p) == block)
                .boxed()
                .sorted(Comparator.comparingDouble(p -> room[p]))
                .mapToInt(p -> p)
                .toArray();
    }

    private boolean isActive(Stamp s) {
        int active = net.active();
        return s.from() < active && s.to() < active && s.plus() < active && s.minus() < active;
    }

    /** The solution of the phase at the active nodes. */
    public Solution solve(List<Edit> edits) {
        if (isShared()) return first.solveActive(switched, regions, edits);
        if (own.isEmpty()) own = Optional.of(first.switched(switched));
        return own.get().solveActive(edits);
    }

    /** True when faults that it cannot be laid over are solved with the first phase's factorisation. */
    public boolean isShared() {
        return responses.isPresent() && change.length <= MOST_SHARED;
    }

    /**
     * Lays the phase over a fault; what is read afterwards is of both.
     *
     * @param fault solved in the first phase
     * @return false when the fault must be solved in the second phase, and nothing may be read
     */
    public boolean lay(FaultTrace fault) {
        if (responses.isEmpty() || fault.update().isEmpty()) return false;
        Solution solution = fault.solution();
        // A fuse opened in the first phase may hold in the second one.
        if (!solution.settled() || !solution.openedFuses().isEmpty()) return false;
        faultVolts = solution.nodeVolts();
        faultRegions = solution.regions();
        faultChanges = fault.changes();
        if (sharesAny(fault)) return false;
        double bound = findTerms(fault);
        return !Double.isNaN(bound) && partsStay(fault) && fusesHold(fault, bound);
    }

    /** True when the fault changes something that the phase changes too. */
    private boolean sharesAny(FaultTrace fault) {
        if (parts.intersects(fault.changedParts())) return true;
        return !switched.elements().isEmpty()
                && faultChanges.elements().keySet().stream().anyMatch(switched.elements()::containsKey);
    }

    /**
     * Finds the terms of m.
     *
     * @return a bound of m at active nodes, volts; NaN when too many digits are lost
     */
    private double findTerms(FaultTrace trace) {
        LowRank fault = trace.update().orElseThrow();
        List<Column> p = responses.orElseThrow();
        List<Column> w = fault.columns();
        int k = w.size();
        double[] rest = unbalanced(change, faultVolts, base);
        double[][] c = new double[change.length][k];
        for (int s = 0; s < change.length; s++)
            for (int j = 0; j < k; j++) c[s][j] = change[s].siemens() * w.get(j).across(change[s]);
        double[][] m = new double[k][k];
        double[] zeta = new double[k];
        double largest = 1;
        for (int j = 0; j < k; j++) {
            Stamp stamp = fault.change().get(j);
            double[] row = m[j];
            double size = 0;
            for (int i = 0; i < k; i++) {
                row[i] = fault.across()[j][i];
                size = Math.max(size, Math.abs(row[i]));
            }
            zeta[j] = across(shift, stamp);
            for (int s = 0; s < change.length; s++) {
                double response = p.get(s).across(stamp);
                if (response == 0) continue;
                for (int i = 0; i < k; i++) {
                    double less = response * c[s][i];
                    row[i] -= less;
                    size = Math.max(size, Math.abs(less));
                }
                zeta[j] -= response * rest[s];
            }
            for (int i = 0; i < k; i++) row[i] *= stamp.siemens();
            zeta[j] *= stamp.siemens();
            row[j] += 1;
            largest = Math.max(largest, Math.abs(stamp.siemens()) * size);
        }
        SmallSystem small = new SmallSystem(m);
        if (!(small.pivot() > 0)) return Double.NaN;
        small.solve(zeta);
        terms.clear();
        double inUnit = 0;
        for (int j = 0; j < k; j++) {
            terms.add(w.get(j), trace.most().get(j), zeta[j]);
            inUnit += Math.abs(zeta[j]) * trace.most().get(j).inUnit();
        }
        for (int s = 0; s < change.length; s++) {
            double t = rest[s];
            for (int j = 0; j < k; j++) t -= c[s][j] * zeta[j];
            terms.add(p.get(s), most.get(s), t);
            inUnit += Math.abs(t) * most.get(s).active();
        }
        double off = ROUNDING * largest / small.pivot();
        return off * inUnit <= CLOSE && off * terms.bound() <= FLOATING ? terms.bound() : Double.NaN;
    }

    private static double[] unbalanced(Stamp[] stamps, double[] now, double[] before) {
        double[] out = new double[stamps.length];
        for (int s = 0; s < out.length; s++)
            out[s] = stamps[s].siemens() * (across(now, stamps[s]) - across(before, stamps[s]));
        return out;
    }

    private static double across(double[] volts, Stamp s) {
        return volts[s.plus()] - volts[s.minus()];
    }

    /**
     * True when every part keeps its region; looks only at those that the fault or m might bring to a border.
     *
     * <p>A part's probe is where it is in the phase, moved by what the fault moves it in the first phase, less m across it;
     * so it stays while the two together are less than the room it has in the phase.
     */
    private boolean partsStay(FaultTrace fault) {
        for (FaultTrace.Changed c : fault.changed()) if (!stays(c.part(), c.region())) return false;
        for (int p : otherwise) if (!stays(here.get(p), regions[p])) return false;
        terms.boundBlocks(bounds);
        int[] moved = fault.moved();
        for (int i = 0; i < moved.length; i++) {
            int p = moved[i];
            if (fault.movedBy()[i] + bounds[PartTable.block(p)] >= room[p] && !stays(here.get(p), regions[p]))
                return false;
        }
        for (int b = 0; b < bounds.length; b++)
            for (int p : nearest[b]) {
                if (FaultTrace.MOVED + bounds[b] < room[p]) break;
                if (!fault.changedParts().get(p) && !stays(here.get(p), regions[p])) return false;
            }
        return true;
    }

    private boolean stays(Part part, int region) {
        return part.violation(region, this) <= Moves.SLACK;
    }

    private Part part(int p) {
        return parts.get(p) ? here.get(p) : faultChanges.part(net, p);
    }

    private int region(int p) {
        return parts.get(p) ? regions[p] : faultRegions[p];
    }

    private boolean fusesHold(FaultTrace fault, double bound) {
        double[] by = fault.fusesMovedBy();
        for (int i = 0; i < fuseRoom.length; i++) {
            if (by[i] + 2 * bound < fuseRoom[i] && !fault.changesFuse()) continue;
            int f = net.fuses().get(i);
            Netlist.Element e = fault.changesFuse()
                    ? faultChanges.element(net, f)
                    : net.elements().get(f);
            if (e.opens(this)) return false;
        }
        return true;
    }

    @Override
    public double at(int node) {
        return faultVolts[node] + shift[node] - terms.at(node);
    }

    @Override
    public double amperes(int driver) {
        int region = region(driver);
        return region == Part.OFF ? 0 : part(driver).current(region, this);
    }
}
