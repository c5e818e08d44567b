package loomcase.solve;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Predicate;
import loomcase.model.Edit;

/**
 * Solves a netlist from nothing: stamps the nodal matrix, factorises, moves the parts between regions until all agree.
 *
 * <p>With node voltages {@code v}, a region for every part gives {@code G·v = j}; each stamp adds {@code ±siemens} to the
 * rows of its ends and the columns of its controlling nodes, and {@code ∓amperes} to the right side. Every supply has a
 * resistance, so no branch currents are needed as unknowns: this is modified nodal analysis with its source rows
 * eliminated. After each solve every part is moved to the region its voltages call for; if that returns to a
 * combination seen before, only the part farthest outside its region is moved. Then a fuse carrying more than it can is
 * opened for good, worst first, and the rest is solved again.
 *
 * <p>This is the slow twin of {@link PhaseSolver}, which calls on it when a low-rank update would lose digits.
 */
final class DirectSolver {
    /** Last correction of a refined solution, as a share of its largest voltage. */
    static final double CLOSE = 1e-9;

    private final Netlist net;
    private final SparseLu.Pattern pattern;
    private final FlatElements flat;
    private SparseLu factors;

    DirectSolver(Netlist net) {
        this(net, patternOf(net));
    }

    DirectSolver(Netlist net, SparseLu.Pattern pattern) {
        this.net = net;
        this.pattern = pattern;
        this.flat = new FlatElements(net);
    }

    /** The matrix shape that holds for every region of every part. */
    static SparseLu.Pattern patternOf(Netlist net) {
        List<int[]> entries = new ArrayList<>();
        for (Netlist.Element e : net.elements()) entries.add(new int[] {e.a(), e.b()});
        for (Part p : net.parts())
            for (List<Stamp> region : p.regions())
                for (Stamp s : region)
                    for (int row : new int[] {s.from(), s.to()})
                        for (int col : new int[] {s.plus(), s.minus()}) entries.add(new int[] {row, col});
        entries.removeIf(e -> e[0] == 0 || e[1] == 0 || e[0] == e[1]);
        int[] rows = entries.stream().mapToInt(e -> e[0] - 1).toArray();
        int[] cols = entries.stream().mapToInt(e -> e[1] - 1).toArray();
        return new SparseLu.Pattern(net.size() - 1, rows, cols);
    }

    /** True when the pattern, made for another network, has a slot for every element of this one. */
    static boolean fits(Netlist net, SparseLu.Pattern pattern) {
        return net.size() - 1 == pattern.n
                && net.elements().stream()
                        .allMatch(e -> e.a() == 0
                                || e.b() == 0
                                || pattern.slot(pattern.position[e.a() - 1], pattern.position[e.b() - 1]) >= 0);
    }

    /** Factors of the last solve. */
    SparseLu factors() {
        return factors;
    }

    /** Solves with every part first tried in its middle region. */
    Solution solve() {
        int[] regions =
                net.parts().stream().mapToInt(p -> p.breaks().length / 2).toArray();
        return solve(regions);
    }

    /**
     * Solves starting from a guess.
     *
     * @param regions first guess by part; not changed
     */
    Solution solve(int[] regions) {
        int[] now = regions.clone();
        Changes fuses = Changes.none();
        List<String> opened = new ArrayList<>();
        while (true) {
            double[] volts = settle(fuses, now);
            boolean settled = isSettled(net, now, volts);
            int fuse = settled ? worstFuse(net, fuses, volts) : -1;
            if (fuse < 0) return new Solution(net, fuses, volts, now, settled, opened);
            Netlist.Element e = fuses.element(net, fuse);
            opened.add(e.name());
            fuses.elements().put(fuse, e.withOhms(Edit.OPEN_OHMS));
        }
    }

    /** Number of the fuse most overloaded, or −1. */
    static int worstFuse(Netlist net, Changes changes, double[] volts) {
        int worst = -1;
        double most = 1;
        for (int i : net.fuses()) {
            Netlist.Element e = changes.element(net, i);
            double ratio = Math.abs(e.current(volts)) / e.opensAbove();
            if (ratio > most) {
                most = ratio;
                worst = i;
            }
        }
        return worst;
    }

    static boolean isSettled(Netlist net, int[] regions, double[] volts) {
        for (int p = 0; p < regions.length; p++)
            if (net.parts().get(p).violation(regions[p], volts) > Moves.SLACK) return false;
        return true;
    }

    /** Moves parts on quick solutions, then refines the settled one; refining may show that a part must move on. */
    private double[] settle(Changes fuses, int[] regions) {
        Moves moves = new Moves();
        while (true) {
            double[] volts = linear(fuses, regions);
            if (moves.next(net.parts(), regions, volts)) continue;
            refine(volts, r -> flat.residual(fuses, net.parts(), regions, volts, r), r -> {
                solveWithChassis(factors, r);
                return true;
            });
            if (isSettled(net, regions, volts) || !moves.next(net.parts(), regions, volts)) return volts;
        }
    }

    private double[] linear(Changes fuses, int[] regions) {
        double[] values = new double[pattern.slots()];
        double[] b = new double[pattern.n];
        for (int i = 0; i < pattern.n; i++) values[pattern.position[i]] += 1 / Netlist.LEAK_OHMS;
        for (int i = 0; i < net.elements().size(); i++)
            stamp(fuses.element(net, i).stamp(), values, b);
        for (int p = 0; p < regions.length; p++)
            for (Stamp s : net.parts().get(p).stamps(regions[p])) stamp(s, values, b);
        factors = SparseLu.factor(pattern, values);
        factors.solve(b);
        double[] volts = new double[pattern.n + 1];
        System.arraycopy(b, 0, volts, 1, pattern.n);
        return volts;
    }

    /** Solves in place for node volts from node amperes, both with a chassis entry 0 that is not an unknown. */
    static void solveWithChassis(SparseLu factors, double[] r) {
        factors.solve(r, 1);
        r[0] = 0;
    }

    /**
     * Iterative refinement: solves for the correction that the residual calls for, until it is below {@value #CLOSE} of
     * the largest voltage.
     *
     * <p>It is needed because an island that hangs on its insulation alone loses about seven digits in elimination:
     * wires of 100 siemens against a leak of 1e-9.
     *
     * @param volts improved in place
     * @param residual fills in the amperes missing at every node
     * @param solve turns amperes into volts in place; false when it cannot
     * @return false when it did not get there
     */
    static boolean refine(double[] volts, Consumer<double[]> residual, Predicate<double[]> solve) {
        double[] d = new double[volts.length];
        for (int step = 0; step < 5; step++) {
            residual.accept(d);
            if (!solve.test(d)) return false;
            double largest = 1;
            double change = 0;
            for (int i = 1; i < volts.length; i++) {
                volts[i] += d[i];
                largest = Math.max(largest, Math.abs(volts[i]));
                change = Math.max(change, Math.abs(d[i]));
            }
            if (change <= CLOSE * largest) return true;
        }
        return false;
    }

    /** Current in amperes missing at every node of a network, chassis first, see {@link FlatElements#residual}. */
    static double[] residual(Netlist net, Changes changes, List<Part> parts, int[] regions, double[] volts) {
        double[] missing = new double[volts.length];
        new FlatElements(net).residual(changes, parts, regions, volts, missing);
        return missing;
    }

    private void stamp(Stamp s, double[] values, double[] b) {
        entry(values, s.from(), s.plus(), s.siemens());
        entry(values, s.from(), s.minus(), -s.siemens());
        entry(values, s.to(), s.plus(), -s.siemens());
        entry(values, s.to(), s.minus(), s.siemens());
        if (s.from() > 0) b[s.from() - 1] -= s.amperes();
        if (s.to() > 0) b[s.to() - 1] += s.amperes();
    }

    private void entry(double[] values, int row, int col, double siemens) {
        if (row == 0 || col == 0 || siemens == 0) return;
        values[pattern.slot(pattern.position[row - 1], pattern.position[col - 1])] += siemens;
    }
}
