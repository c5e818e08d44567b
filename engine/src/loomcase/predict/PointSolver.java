package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.stream.IntStream;
import loomcase.Once;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.solve.FaultTrace;
import loomcase.solve.NetworkSolver;
import loomcase.solve.NodeVolts;
import loomcase.solve.Overlay;
import loomcase.solve.PhaseOverlay;
import loomcase.solve.Solution;

/**
 * The phases of one operating point and the channels read in them, solved for many hypotheses.
 *
 * <p>Phases differ by a driver or a node that talks. So many hypotheses are solved in one phase, the quietest, and the others
 * are laid over them ({@link PhaseOverlay}); a hypothesis that changes what a phase changes is solved in that phase too.
 */
final class PointSolver {
    /**
     * One quantity at one phase.
     *
     * @param plus node counted positive, or −1 where a pin is not wired
     * @param minus node counted negative
     * @param amperes true when the current of a driver is wanted, false for a voltage
     * @param driver its number, or −1 where the pin has none
     */
    private record Channel(int phase, int plus, int minus, boolean amperes, int driver) {
        /** True when it is the voltage between two nodes. */
        boolean isWired() {
            return !amperes && plus >= 0 && minus >= 0;
        }

        double of(NodeVolts s) {
            if (amperes) return driver < 0 ? 0 : s.amperes(driver);
            return isWired() ? s.at(plus) - s.at(minus) : Double.NaN;
        }
    }

    /**
     * Measured channels of many hypotheses.
     *
     * @param values by hypothesis, then by channel
     * @param settled false where some phase found no consistent state, by hypothesis
     * @param awake whether the control unit has its supply in every phase, by hypothesis
     */
    record Measured(double[][] values, boolean[] settled, boolean[] awake) {
        Measured(int channels, int hypotheses) {
            this(new double[hypotheses][channels], new boolean[hypotheses], new boolean[hypotheses]);
        }
    }

    /** Up to this many hypotheses are solved on one core. */
    private static final int FEW = 2;

    /** From this many on the columns solved for them are given back: they fill a few hundred megabytes. */
    private static final int MANY = 1000;

    /** Columns kept otherwise: what a case or two need, some megabytes for each instant. */
    private static final int MOST_COLUMNS = 800;

    /** Volts from its least supply within which the unit is not taken to sleep or wake by a phase laid over. */
    private static final double AT_LIMIT = 1e-5;

    /** One phase, laid over the quietest unless it is that itself, and the channels read in it. */
    private static final class Phase {
        private final String id;
        private final boolean isQuietest;
        private final Once<PhaseOverlay> overlay;
        private final List<Integer> channels = new ArrayList<>();

        Phase(String id, boolean isQuietest, Once<PhaseOverlay> overlay) {
            this.id = id;
            this.isQuietest = isQuietest;
            this.overlay = overlay;
        }
    }

    private final Circuit circuit;
    private final NetworkSolver solver;
    private final OperatingPoint op;
    private final NetworkSolver.Instant quietest;
    private final int power;
    private final int ground;
    private final Map<String, Integer> number = new LinkedHashMap<>();
    private final List<Phase> phases = new ArrayList<>();
    private final List<Channel> channels = new ArrayList<>();

    PointSolver(Circuit circuit, NetworkSolver solver, OperatingPoint op) {
        this.circuit = circuit;
        this.solver = solver;
        this.op = op;
        this.quietest = solver.at(op.id(), op.quietest().id());
        this.power = quietest.node(inside("power")).orElseThrow();
        this.ground = quietest.node(inside("ground")).orElseThrow();
    }

    /** The number of a phase, counted in the order in which they are first asked for. */
    int phase(String id) {
        return number.computeIfAbsent(id, k -> {
            String first = op.quietest().id();
            phases.add(new Phase(id, id.equals(first), new Once<>(() -> solver.over(op.id(), first, id))));
            return phases.size() - 1;
        });
    }

    private String inside(String what) {
        return Names.inside(circuit.controlUnit().id(), what);
    }

    /**
     * Adds a channel and gives its number: the voltage of a pin at a phase.
     *
     * @param minusPin pin counted negative, empty for the unit's own ground
     */
    int volts(String phaseId, String pin, String minusPin) {
        // Nodes and drivers have the same numbers in every phase.
        OptionalInt plus = quietest.node(Names.mating(pin));
        OptionalInt minus = quietest.node(minusPin.isEmpty() ? inside("ground") : Names.mating(minusPin));
        return add(new Channel(phase(phaseId), plus.orElse(-1), minus.orElse(-1), false, -1));
    }

    /** Adds a channel and gives its number: the current of a pin's driver at a phase. */
    int amperes(String phaseId, String pin) {
        return add(
                new Channel(phase(phaseId), -1, -1, true, quietest.driver(pin).orElse(-1)));
    }

    private int add(Channel c) {
        channels.add(c);
        phases.get(c.phase).channels.add(channels.size() - 1);
        return channels.size() - 1;
    }

    /** What one phase found of many hypotheses: whether it settled, and whether the control unit has its supply. */
    record Found(boolean[] settled, boolean[] awake) {
        Found(int hypotheses) {
            this(new boolean[hypotheses], new boolean[hypotheses]);
        }
    }

    /** Room for the channels of many hypotheses. */
    Measured none(int hypotheses) {
        return new Measured(channels.size(), hypotheses);
    }

    /** Numbers of all phases. */
    int[] allPhases() {
        return IntStream.range(0, phases.size()).toArray();
    }

    /** Solves some phases under every hypothesis; many on all cores. */
    Measured measure(List<List<Edit>> all, int[] some) {
        int n = all.size();
        Measured out = none(n);
        Found[] found = new Found[phases.size()];
        List<FaultTrace> traces = isSideBySide(some)
                ? List.of()
                : all.stream().map(quietest::trace).toList();
        IntStream each = Arrays.stream(some);
        if (n > FEW) each = each.parallel();
        each.forEach(phase -> found[phase] =
                traces.isEmpty() ? read(phase, all, edits -> solve(phase, edits), out) : lay(phase, all, traces, out));
        together(out, found, some);
        return out;
    }

    /** Two phases, each with a factorisation of its own, are done at once: one laid over the other would come after it. */
    private boolean isSideBySide(int[] some) {
        return some.length <= 2
                && Arrays.stream(some)
                        .mapToObj(phases::get)
                        .noneMatch(p -> !p.isQuietest && p.overlay.get().isShared());
    }

    private Solution solve(int phase, List<Edit> edits) {
        Phase p = phases.get(phase);
        return p.isQuietest ? quietest.solveActive(edits) : p.overlay.get().solve(edits);
    }

    /** Gives back the memory of what was solved on the way, all of it after many hypotheses. */
    void forgetAfter(int hypotheses) {
        quietest.forgetBeyond(hypotheses > MANY ? 0 : MOST_COLUMNS);
    }

    private Found lay(int phase, List<List<Edit>> all, List<FaultTrace> traces, Measured out) {
        if (phases.get(phase).isQuietest) return read(phase, traces, FaultTrace::solution, out);
        Found found = new Found(all.size());
        PhaseOverlay overlay = phases.get(phase).overlay.get();
        for (int e = 0; e < all.size(); e++)
            if (overlay.lay(traces.get(e)) && Math.abs(supplyReserve(overlay)) > AT_LIMIT)
                read(phase, e, overlay, true, out, found);
            else read(phase, e, overlay.solve(all.get(e)), out, found);
        return found;
    }

    private void read(int phase, int hypothesis, Solution s, Measured out, Found found) {
        read(phase, hypothesis, s, s.settled(), out, found);
    }

    private void read(int phase, int hypothesis, NodeVolts s, boolean settled, Measured out, Found found) {
        found.settled[hypothesis] = settled;
        found.awake[hypothesis] = supplyReserve(s) >= 0;
        read(phase, s, out.values[hypothesis]);
    }

    private <T> Found read(int phase, List<T> all, Function<T, Solution> solve, Measured out) {
        Found found = new Found(all.size());
        for (int e = 0; e < all.size(); e++) read(phase, e, solve.apply(all.get(e)), out, found);
        return found;
    }

    /** Makes out what holds in every phase. */
    static void together(Measured out, Found[] found, int[] phases) {
        for (int e = 0; e < out.settled.length; e++) {
            out.settled[e] = true;
            out.awake[e] = true;
            for (int phase : phases) {
                out.settled[e] &= found[phase].settled[e];
                out.awake[e] &= found[phase].awake[e];
            }
        }
    }

    /** Many faults solved in one phase, to be laid over each other: the voltages of its channels, then the unit's supply. */
    Overlay overlay(int phase, List<List<Edit>> all) {
        List<Integer> here = phases.get(phase).channels;
        int[] plus = new int[here.size() + 1];
        int[] minus = new int[here.size() + 1];
        for (int k = 0; k < here.size(); k++) {
            Channel c = channels.get(here.get(k));
            plus[k] = Math.max(0, c.plus);
            minus[k] = Math.max(0, c.minus);
        }
        plus[here.size()] = power;
        minus[here.size()] = ground;
        Overlay out = solver.at(op.id(), phases.get(phase).id).overlay(plus, minus);
        all.forEach(out::add);
        return out;
    }

    /** How many channels there are. */
    int channels() {
        return channels.size();
    }

    /** The phase that a channel is read in. */
    int phaseOf(int channel) {
        return channels.get(channel).phase;
    }

    /** The quietest phase. */
    int quietestPhase() {
        return phase(op.quietest().id());
    }

    /**
     * Reads the channels of a phase.
     *
     * @param pair of what {@link #overlay} made of it
     * @param values overwritten, by channel
     */
    void readLaid(int phase, Overlay.Pair pair, double[] values) {
        List<Integer> here = phases.get(phase).channels;
        for (int k = 0; k < here.size(); k++) {
            int c = here.get(k);
            Channel channel = channels.get(c);
            values[c] = channel.isWired() ? pair.read(k) : channel.of(pair);
        }
    }

    /**
     * Reads the channels of a phase.
     *
     * @param values overwritten, by channel
     */
    void read(int phase, NodeVolts solution, double[] values) {
        for (int c : phases.get(phase).channels) values[c] = channels.get(c).of(solution);
    }

    /** By how many volts the control unit's supply is above the least that it works with, where two faults are laid. */
    double supplyReserve(int phase, Overlay.Pair pair) {
        return pair.read(phases.get(phase).channels.size())
                - circuit.controlUnit().minimumSupplyVolts();
    }

    /** By how many volts the control unit's supply is above the least that it works with. */
    double supplyReserve(NodeVolts volts) {
        return volts.at(power) - volts.at(ground) - circuit.controlUnit().minimumSupplyVolts();
    }
}
