package loomcase.solve;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import loomcase.model.Device;
import loomcase.model.Edit;

/**
 * Solves one instant of a circuit under many hypotheses, each as a low-rank change of the healthy network.
 *
 * <p>The healthy matrix A is factorised once. A hypothesis with its moved parts adds {@code U·D·Vᵀ} to A and
 * {@code −U·i} to the right side, one column per changed stamp, {@code u = e[from] − e[to]}, {@code v = e[plus] −
 * e[minus]}. With {@code W = A⁻¹U}, {@code y = x₀ − W·i} and {@code (I + D·VᵀW)·z = D·Vᵀy} the new solution is
 * {@code x = y − W·z} (Sherman–Morrison–Woodbury; G. H. Golub and C. F. Van Loan, "Matrix Computations", 2.1.4). Columns
 * of W are solved for as differences, never as differences of solutions, and kept per pair of nodes; a solver that few
 * hypotheses will be asked of does without them, see {@link Inverse}.
 *
 * <p>Exactness: where a change cuts a part of the network off, {@code I + D·VᵀW} loses up to twelve digits. A solution of
 * all nodes is therefore refined on the residual of the edited network's own Kirchhoff equations until the last correction
 * is below {@value DirectSolver#CLOSE} of the largest voltage; a solution of the active nodes is refined only when a pivot
 * of that small matrix has lost more than {@value LowRank#DIGITS} of its size. Where refinement does not get there, or the change
 * has more than {@value #MOST_RANK} columns, the edited network is factorised instead. Cost per move: k columns of the
 * nodes asked for, plus k³, plus one look at every part. Several threads may solve at once.
 */
final class PhaseSolver {
    static final int MOST_RANK = 160;

    /** The same for a phase as a whole, which is solved but once. */
    private static final int MOST_RANK_OF_PHASE = 1000;

    private final Netlist net;
    private final Map<String, Device> devices;
    private final Set<Integer> held;
    private final SparseLu.Pattern pattern;
    private final SparseLu factors;
    private final double[] base;
    private final int[] baseRegions;
    private final boolean baseSettled;
    private final PartTable table;
    private final FlatElements flat;
    private final KeptColumns columns;
    private final boolean keepsColumns;
    private final int[] forActive;
    private final AtomicInteger refactored = new AtomicInteger();

    /**
     * @throws loomcase.InputProblem when the healthy network opens one of its own fuses
     */
    PhaseSolver(Netlist net, Map<String, Device> devices, SparseLu.Pattern pattern) {
        this(net, devices, pattern, Set.of(), true);
    }

    /**
     * @param held numbers of elements that no edit may change
     * @param keepsColumns whether columns are worth keeping for the next hypotheses
     * @throws loomcase.InputProblem when the healthy network opens one of its own fuses
     */
    private PhaseSolver(
            Netlist net,
            Map<String, Device> devices,
            SparseLu.Pattern pattern,
            Set<Integer> held,
            boolean keepsColumns) {
        this.net = net;
        this.devices = devices;
        this.held = held;
        this.pattern = pattern;
        DirectSolver direct = new DirectSolver(net, pattern);
        Solution healthy = direct.solve();
        checkFuses(healthy);
        this.factors = direct.factors();
        this.base = healthy.nodeVolts();
        this.baseRegions = healthy.regions();
        this.baseSettled = healthy.settled();
        this.table = new PartTable(net.parts(), baseRegions);
        this.flat = new FlatElements(net);
        this.columns = new KeptColumns(factors, base.length, table.blocks());
        this.keepsColumns = keepsColumns;
        this.forActive = keepsColumns ? new int[0] : pattern.upTo(net.active() - 1);
    }

    private static void checkFuses(Solution healthy) {
        if (!healthy.openedFuses().isEmpty())
            throw new loomcase.InputProblem("the healthy network opens " + healthy.openedFuses()
                    + "; give the fuse a larger rating or the load more ohms");
    }

    Map<String, Device> devices() {
        return devices;
    }

    Netlist net() {
        return net;
    }

    /** What edits change here. */
    Changes changes(List<Edit> edits) {
        return Changes.of(net, devices, edits, held);
    }

    /**
     * A solver of another phase, with a factorisation of its own, for the few faults that it cannot be laid over: too few for
     * columns to come back.
     */
    PhaseSolver switched(Changes switched) {
        return new PhaseSolver(switched.applyTo(net), devices, pattern, held, false);
    }

    /** A solver whose healthy network has these edits, and lets no other edit change the elements they changed. */
    PhaseSolver with(List<Edit> setup) {
        Changes changes = changes(setup);
        Netlist edited = changes.applyTo(net);
        Set<Integer> keep = new HashSet<>(held);
        keep.addAll(changes.elements().keySet());
        SparseLu.Pattern shape = DirectSolver.fits(edited, pattern) ? pattern : DirectSolver.patternOf(edited);
        return new PhaseSolver(edited, devices, shape, keep, true);
    }

    /** The parts in the regions of the healthy solution. */
    PartTable table() {
        return table;
    }

    /** The healthy solution. */
    Solution healthy() {
        return new Solution(net, Changes.none(), base.clone(), baseRegions.clone(), baseSettled, List.of());
    }

    /** How many hypotheses needed a factorisation of their own. */
    int refactored() {
        return refactored.get();
    }

    /** Drops the columns kept so far when they are more than {@code most}, to give back their memory. */
    void forgetBeyond(int most) {
        columns.forgetBeyond(most);
    }

    /** The solution at every node. */
    Solution solve(List<Edit> edits) {
        return edits.isEmpty() ? healthy() : solve(edits, base.length, true);
    }

    /** The solution at every node, refined only where the change loses digits. */
    Solution solveQuickly(List<Edit> edits) {
        return edits.isEmpty() ? healthy() : solve(edits, base.length, false);
    }

    /** The solution at the active nodes only; asking it for another point is an error. */
    Solution solveActive(List<Edit> edits) {
        return edits.isEmpty() ? healthy() : solve(edits, net.active(), false);
    }

    private Solution solve(List<Edit> edits, int nodes, boolean refined) {
        return search(new Start(Changes.none(), baseRegions, MOST_RANK), edits, nodes, refined).solution;
    }

    /** The solution at the active nodes, in a form over which other phases can be laid. */
    FaultTrace trace(List<Edit> edits) {
        Found found = search(new Start(Changes.none(), baseRegions, MOST_RANK), edits, net.active(), false);
        if (found.update.isEmpty()) return FaultTrace.alone(found.solution, found.changes);
        Solution s = found.solution;
        return FaultTrace.of(
                net,
                s,
                found.changes,
                found.update.get(),
                c -> c.most(net, table),
                table.moves(s.nodeVolts(), base),
                net.fuses().stream()
                        .map(net.elements()::get)
                        .mapToDouble(e -> Math.abs(s.at(e.a()) - base[e.a()] - s.at(e.b()) + base[e.b()]))
                        .toArray(),
                p -> s.regions()[p] != baseRegions[p] || found.changes.parts().containsKey(p));
    }

    /**
     * The healthy solution of another phase, at every node.
     *
     * @param switched what is other in that phase
     */
    Found switchTo(Changes switched) {
        int[] regions = baseRegions.clone();
        switched.parts().forEach((p, part) -> regions[p] = part.breaks().length / 2);
        Found found = search(new Start(switched, regions, MOST_RANK_OF_PHASE), List.of(), base.length, true);
        checkFuses(found.solution);
        return found;
    }

    /**
     * The solution of another phase at the active nodes.
     *
     * @param switched what is other in that phase
     * @param healthy regions of its healthy solution
     */
    Solution solveActive(Changes switched, int[] healthy, List<Edit> edits) {
        return search(new Start(switched, healthy, MOST_RANK), edits, net.active(), false).solution;
    }

    /**
     * Where a search begins.
     *
     * @param changes what is other before any edit
     * @param regions to try first
     * @param mostRank columns above which the edited network is factorised
     */
    private record Start(Changes changes, int[] regions, int mostRank) {}

    /**
     * What a search found.
     *
     * @param changes of the edits and before them, opened fuses included
     * @param update from the healthy matrix, empty when the edited network was factorised
     */
    record Found(Solution solution, Changes changes, Optional<LowRank> update) {}

    private Found search(Start start, List<Edit> edits, int nodes, boolean refined) {
        Changes changes = Changes.of(start.changes, net, devices, edits, held);
        List<String> opened = new ArrayList<>();
        int[] regions = start.regions.clone();
        while (true) {
            Settled found = settle(changes, regions, start.mostRank, nodes, refined);
            double[] volts = found.volts;
            if (volts.length == 0) return new Found(direct(start, edits), changes, Optional.empty());
            boolean settled = found.agrees;
            int fuse = settled ? DirectSolver.worstFuse(net, changes, volts) : -1;
            if (fuse < 0)
                return new Found(new Solution(net, changes, volts, regions, settled, opened), changes, found.update);
            Netlist.Element e = changes.element(net, fuse);
            opened.add(e.name());
            changes.elements().put(fuse, e.withOhms(Edit.OPEN_OHMS));
        }
    }

    /**
     * Where the search for regions ended.
     *
     * @param volts node voltages, empty when the low-rank path lost too many digits
     * @param agrees whether every part is in the region its voltages call for
     * @param update what changes the healthy matrix into that of the end, empty when lost
     */
    private record Settled(double[] volts, boolean agrees, Optional<LowRank> update) {
        static final Settled LOST = new Settled(LowRank.NONE, false, Optional.empty());
    }

    private Solution direct(Start start, List<Edit> edits) {
        refactored.incrementAndGet();
        Netlist edited = Changes.of(start.changes, net, devices, edits, held).applyTo(net);
        DirectSolver solver =
                DirectSolver.fits(edited, pattern) ? new DirectSolver(edited, pattern) : new DirectSolver(edited);
        return solver.solve(start.regions);
    }

    /**
     * Moves parts until all agree, or until moving one at a time comes back to where it was: then they never will.
     *
     * @param regions overwritten
     * @param mostRank columns above which it is given up
     * @param nodes how many node voltages are wanted; at least the active ones
     * @param refined whether they are refined even where no digits are lost
     */
    private Settled settle(Changes changes, int[] regions, int mostRank, int nodes, boolean refined) {
        List<Part> parts = changes.partsOf(net);
        Moves moves = new Moves();
        while (true) {
            List<Stamp> change = columnsOf(changes, parts, regions);
            if (change.size() > mostRank) return Settled.LOST;
            LowRank update = update(change);
            double[] volts = update.applyTo(base, nodes);
            if (volts.length == 0) return Settled.LOST;
            boolean agrees = table.agrees(parts, regions, volts);
            if (agrees && (refined || update.lostDigits())) {
                volts = update.applyTo(base, base.length);
                if (!refine(changes, parts, regions, update, volts)) return Settled.LOST;
                agrees = table.agrees(parts, regions, volts);
            }
            if (agrees || !moves.next(parts, regions, volts)) return new Settled(volts, agrees, Optional.of(update));
        }
    }

    private boolean refine(Changes changes, List<Part> parts, int[] regions, LowRank update, double[] volts) {
        return DirectSolver.refine(volts, r -> flat.residual(changes, parts, regions, volts, r), r -> {
            DirectSolver.solveWithChassis(factors, r);
            return update.applyTo(r);
        });
    }

    /** The stamps to add to the healthy network, removed ones with their sign turned. */
    List<Stamp> columnsOf(Changes changes, List<Part> parts, int[] regions) {
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
            int first = out.size();
            for (Stamp s : net.parts().get(p).stamps(baseRegions[p])) add(out, first, s, -1);
            for (Stamp s : parts.get(p).stamps(regions[p])) add(out, first, s, 1);
            out.subList(first, out.size()).removeIf(s -> s.siemens() == 0 && s.amperes() == 0);
        }
        return out;
    }

    /** Adds a stamp, to one between the same nodes where there is one from place {@code first} on. */
    private static void add(List<Stamp> out, int first, Stamp s, int sign) {
        for (int i = first; i < out.size(); i++) {
            Stamp o = out.get(i);
            if (o.from() != s.from() || o.to() != s.to() || o.plus() != s.plus() || o.minus() != s.minus()) continue;
            out.set(i, o.with(sign * s.siemens(), sign * s.amperes()));
            return;
        }
        out.add(new Stamp(s.from(), s.to(), s.plus(), s.minus(), sign * s.siemens(), sign * s.amperes()));
    }

    /** A change of the healthy matrix. */
    LowRank update(List<Stamp> change) {
        Inverse w = keepsColumns
                ? new Inverse.Kept(
                        change,
                        change.stream().map(s -> columns.of(s.from(), s.to())).toList())
                : new Inverse.Climbing(factors, pattern, forActive, change);
        return new LowRank(base.length, change, w);
    }
}
