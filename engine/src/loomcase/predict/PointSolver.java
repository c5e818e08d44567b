package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.function.DoubleConsumer;
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
 * A few are solved in every phase, which then costs less.
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
        double of(NodeVolts s) {
            if (amperes) return driver < 0 ? 0 : s.amperes(driver);
            return plus < 0 || minus < 0 ? Double.NaN : s.at(plus) - s.at(minus);
        }
    }

    /**
     * Measured channels of many hypotheses.
     *
     * @param values by channel, then by hypothesis
     * @param settled false where some phase found no consistent state, by hypothesis
     * @param awake whether the control unit has its supply in every phase, by hypothesis
     */
    record Measured(double[][] values, boolean[] settled, boolean[] awake) {
        Measured(int channels, int hypotheses) {
            this(new double[channels][hypotheses], new boolean[hypotheses], new boolean[hypotheses]);
        }
    }

    /** Up to this many hypotheses are solved on one core, each in every phase. */
    private static final int FEW = 2;

    /** From this many on the columns solved for them are given back: they fill a few hundred megabytes. */
    private static final int MANY = 1000;

    /** Columns kept otherwise: what a case or two need, some megabytes for each instant. */
    private static final int MOST_COLUMNS = 800;

    /** Hypotheses solved before the other phases are laid over them; a solution takes a few kilobytes. */
    private static final int AT_ONCE = 250;

    /** Volts from its least supply within which the unit is not taken to sleep or wake by a phase laid over. */
    private static final double AT_LIMIT = 1e-5;

    /** One phase and the channels read in it. */
    private static final class Phase {
        private final NetworkSolver.Instant instant;
        private final Once<PhaseOverlay> overlay;
        private final int power;
        private final int ground;
        private final List<Integer> channels = new ArrayList<>();

        /**
         * @param power node of the control unit's supply
         * @param ground node of its ground
         */
        Phase(NetworkSolver.Instant instant, NetworkSolver.Instant quietest, int power, int ground) {
            this.instant = instant;
            this.overlay = new Once<>(() -> instant.over(quietest));
            this.power = power;
            this.ground = ground;
        }

        double supplyVolts(NodeVolts s) {
            return s.at(power) - s.at(ground);
        }
    }

    private final Circuit circuit;
    private final NetworkSolver solver;
    private final OperatingPoint op;
    private final NetworkSolver.Instant quietest;
    private final Map<String, Integer> number = new LinkedHashMap<>();
    private final List<Phase> phases = new ArrayList<>();
    private final List<Channel> channels = new ArrayList<>();

    PointSolver(Circuit circuit, NetworkSolver solver, OperatingPoint op) {
        this.circuit = circuit;
        this.solver = solver;
        this.op = op;
        this.quietest = solver.at(
                op.id(),
                op.phases().stream()
                        .min(Comparator.comparingInt(p -> p.on().size()))
                        .orElseThrow()
                        .id());
    }

    /** The number of a phase, counted in the order in which they are first asked for. */
    int phase(String id) {
        return number.computeIfAbsent(id, k -> {
            NetworkSolver.Instant instant = solver.at(op.id(), id);
            phases.add(new Phase(
                    instant,
                    quietest,
                    instant.node(inside("power")).orElseThrow(),
                    instant.node(inside("ground")).orElseThrow()));
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
        int phase = phase(phaseId);
        NetworkSolver.Instant at = phases.get(phase).instant;
        String against = minusPin.isEmpty() ? inside("ground") : Names.mating(minusPin);
        OptionalInt plus = at.node(Names.mating(pin));
        OptionalInt minus = at.node(against);
        return add(new Channel(phase, plus.orElse(-1), minus.orElse(-1), false, -1));
    }

    /** Adds a channel and gives its number: the current of a pin's driver at a phase. */
    int amperes(String phaseId, String pin) {
        int phase = phase(phaseId);
        return add(new Channel(
                phase, -1, -1, true, phases.get(phase).instant.driver(pin).orElse(-1)));
    }

    private int add(Channel c) {
        channels.add(c);
        phases.get(c.phase).channels.add(channels.size() - 1);
        return channels.size() - 1;
    }

    /** The phase that a channel is read at. */
    int phaseOf(int channel) {
        return channels.get(channel).phase;
    }

    /** How many phases there are. */
    int phases() {
        return phases.size();
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

    /** Solves every phase under every hypothesis. */
    Measured measure(List<List<Edit>> all, DoubleConsumer progress) {
        return measure(all, IntStream.range(0, phases.size()).toArray(), progress);
    }

    /** Solves some phases under every hypothesis; many on all cores. */
    Measured measure(List<List<Edit>> all, int[] some, DoubleConsumer progress) {
        int n = all.size();
        Measured out = none(n);
        Found[] found = new Found[phases.size()];
        for (int phase : some) found[phase] = new Found(n);
        if (n > FEW && some.length > 1) quietestFirst(all, some, out, found, progress);
        else
            for (int phase : some)
                for (int e = 0; e < n; e++)
                    read(phase, e, phases.get(phase).instant.solveActive(all.get(e)), out, found[phase]);
        together(out, found, some);
        int keep = n > MANY ? 0 : MOST_COLUMNS;
        quietest.forgetBeyond(keep);
        for (int phase : some) phases.get(phase).instant.forgetBeyond(keep);
        return out;
    }

    private void quietestFirst(List<List<Edit>> all, int[] some, Measured out, Found[] found, DoubleConsumer progress) {
        for (int from = 0; from < all.size(); from += AT_ONCE) {
            int first = from;
            int end = Math.min(all.size(), from + AT_ONCE);
            List<FaultTrace> traces =
                    all.subList(from, end).stream().map(quietest::trace).toList();
            Arrays.stream(some).parallel().forEach(phase -> {
                for (int e = first; e < end; e++) lay(phase, e, all.get(e), traces.get(e - first), out, found[phase]);
            });
            progress.accept(end / (double) all.size());
        }
    }

    private void lay(int number, int hypothesis, List<Edit> edits, FaultTrace trace, Measured out, Found found) {
        Phase phase = phases.get(number);
        if (phase.instant == quietest) {
            read(number, hypothesis, trace.solution(), out, found);
            return;
        }
        PhaseOverlay overlay = phase.overlay.get();
        if (overlay.lay(trace)
                && Math.abs(phase.supplyVolts(overlay) - circuit.controlUnit().minimumSupplyVolts()) > AT_LIMIT)
            read(number, hypothesis, overlay, true, out, found);
        else read(number, hypothesis, phase.instant.solveActive(edits), out, found);
    }

    private void read(int phase, int hypothesis, Solution s, Measured out, Found found) {
        read(phase, hypothesis, s, s.settled(), out, found);
    }

    private void read(int number, int hypothesis, NodeVolts s, boolean settled, Measured out, Found found) {
        Phase phase = phases.get(number);
        found.settled[hypothesis] = settled;
        found.awake[hypothesis] = phase.supplyVolts(s) >= circuit.controlUnit().minimumSupplyVolts();
        for (int c : phase.channels) out.values[c][hypothesis] = channels.get(c).of(s);
    }

    /** Reads one phase of many hypotheses that somebody else solves. */
    Found read(int phase, List<List<Edit>> all, Function<List<Edit>, Solution> solve, Measured out) {
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

    /** Faults of a phase to be laid over each other, none yet. */
    Overlay overlay(int phase) {
        return phases.get(phase).instant.overlay();
    }

    /** Volts that the sum of the faults laid last leaves too much at the control unit's supply. */
    double surplusSupplyVolts(int phase, Overlay overlay) {
        return overlay.surplusVolts(phases.get(phase).power, phases.get(phase).ground);
    }

    /** What the sum of the faults laid last has too much in a channel; 0 for channel −1 and for those of other phases. */
    double surplus(int phase, int channel, Overlay overlay) {
        if (channel < 0 || channels.get(channel).phase != phase) return 0;
        Channel c = channels.get(channel);
        if (c.amperes) return c.driver < 0 ? 0 : overlay.surplusAmperes(c.driver);
        return c.plus < 0 || c.minus < 0 ? 0 : overlay.surplusVolts(c.plus, c.minus);
    }
}
