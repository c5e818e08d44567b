package loomcase.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;

/**
 * Entry of this stage: voltages and currents of a circuit under any edits, at any operating point and phase.
 *
 * <pre>{@code
 * NetworkSolver solver = new NetworkSolver(circuit, new Layout(circuit));
 * Solution s = solver.at("key-on", "rest").solve(List.of(new Edit.Series("wire:W7", Edit.OPEN_OHMS)));
 * double volts = s.pinVolts("ECM", "J1/12").orElseThrow();
 * }</pre>
 *
 * <p>Healthy networks are factorised on first use and kept. Several threads may use one, and one instant, at once.
 */
public final class NetworkSolver {
    private final Circuit circuit;
    private final Layout layout;
    private final Map<String, Instant> instants = new LinkedHashMap<>();

    private Optional<SparseLu.Pattern> pattern = Optional.empty();

    public NetworkSolver(Circuit circuit, Layout layout) {
        this.circuit = circuit;
        this.layout = layout;
    }

    /** One operating point and phase of the circuit. */
    public static final class Instant {
        private final String title;
        private final PhaseSolver solver;

        private Instant(String title, PhaseSolver solver) {
            this.title = title;
            this.solver = solver;
        }

        /** The healthy solution. */
        public Solution healthy() {
            return solver.healthy();
        }

        /** The solution with edits applied; marked when it does not settle, never an exception. */
        public Solution solve(List<Edit> edits) {
            return solver.solve(edits);
        }

        /**
         * The solution at every node, refined only where the change loses digits: six are left at the least, enough for a
         * meter.
         */
        public Solution solveQuickly(List<Edit> edits) {
            return solver.solveQuickly(edits);
        }

        /**
         * The solution at control-unit pins, inside the unit and at device terminals only, which is quicker.
         *
         * <p>Asking it for another point is an error.
         */
        public Solution solveActive(List<Edit> edits) {
            return solver.solveActive(edits);
        }

        /** The node of a point, for {@link Solution#at}; empty when the network has no such point. */
        public OptionalInt node(String point) {
            return solver.net().find(point);
        }

        /**
         * The same instant with a setup that stays, such as plugs taken apart: factorised once, so that it costs later
         * solves nothing. No later edit changes the resistance of an element that the setup has set.
         *
         * <p>A diode on an island that hangs on its insulation alone may stay in the region that it has in the setup:
         * currents below a nanoampere are within the slack of the search. A meter's load is enough to decide it.
         */
        public Instant with(List<Edit> setup) {
            return new Instant(title + ", " + setup.size() + " setup edits", solver.with(setup));
        }

        /** The same in a form over which another phase of the operating point can be laid. */
        public FaultTrace trace(List<Edit> edits) {
            return solver.trace(edits);
        }

        /** The driver of a control-unit pin, for {@link NodeVolts#amperes}; empty when the pin has none. */
        public OptionalInt driver(String pin) {
            return solver.net().findPart(ControlUnitParts.driver(pin));
        }

        /**
         * Faults of this instant to be laid over each other, none yet.
         *
         * @param plus node counted positive of each voltage that will be read of them
         * @param minus node counted negative
         */
        public Overlay overlay(int[] plus, int[] minus) {
            return new Overlay(solver, plus, minus);
        }

        /** Gives back the memory of the columns kept so far when they are more than {@code most}. */
        public void forgetBeyond(int most) {
            solver.forgetBeyond(most);
        }

        /** The same by factorising the edited network from nothing: slow, for comparison. */
        public Solution solveAfresh(List<Edit> edits) {
            return new DirectSolver(solver.changes(edits).applyTo(solver.net())).solve();
        }

        /**
         * The edited network as a SPICE deck (ngspice), for comparison with an independent simulator.
         *
         * <p>Which fuses are open comes from our solution; everything else the simulator finds by itself.
         */
        public String spiceDeck(List<Edit> edits) {
            Solution solution = solve(edits);
            return SpiceDeck.of(title, edits, solution.net(), solution.openedFuses());
        }

        /**
         * The edited network with node voltages that somebody else has found, such as a simulator that ran its deck.
         *
         * <p>Whether it is settled says nothing of the voltages; currents follow from them.
         *
         * @param nodeVolts by node number of the deck, chassis first
         */
        public Solution solved(List<Edit> edits, double[] nodeVolts) {
            Solution ours = solve(edits);
            int[] regions = ours.net().parts().stream()
                    .mapToInt(part -> part.regionAt(nodeVolts))
                    .toArray();
            return ours.with(nodeVolts.clone(), regions);
        }

        /** Number of nodes of the network, chassis included. */
        public int nodes() {
            return solver.net().size();
        }

        /** How many solves so far needed a factorisation of their own. */
        public int refactored() {
            return solver.refactored();
        }
    }

    /**
     * The solver of one instant.
     *
     * @throws IllegalArgumentException when the circuit has no such operating point or phase
     */
    public Instant at(String operatingPoint, String phase) {
        return at(operatingPoint, phase, OptionalDouble.empty());
    }

    /**
     * The solver of one instant with the wires at another temperature.
     *
     * @param wireCelsius temperature of the wires, empty for that of the operating point
     * @throws IllegalArgumentException when the circuit has no such operating point or phase
     */
    public Instant at(String operatingPoint, String phase, OptionalDouble wireCelsius) {
        String key = operatingPoint + " " + phase + (wireCelsius.isPresent() ? " " + wireCelsius.getAsDouble() : "");
        synchronized (instants) {
            return instants.computeIfAbsent(key, k -> made(operatingPoint, phase, wireCelsius));
        }
    }

    /**
     * A phase to be laid over faults traced at another phase of the same operating point, found without a factorisation of its own.
     *
     * @throws IllegalArgumentException when the circuit has no such operating point or phase
     * @throws loomcase.InputProblem when the healthy network opens one of its own fuses
     */
    public PhaseOverlay over(String operatingPoint, String first, String phase) {
        Instant there = at(operatingPoint, first);
        OperatingPoint op = circuit.operatingPoints().get(operatingPoint);
        return new PhaseOverlay(
                there.solver,
                NetlistBuilder.switched(circuit, op, phase(op, first), phase(op, phase), there.solver.net()));
    }

    private static OperatingPoint.Phase phase(OperatingPoint op, String phase) {
        return op.phases().stream()
                .filter(each -> each.id().equals(phase))
                .findFirst()
                .orElseThrow(
                        () -> new IllegalArgumentException("operating point " + op.id() + " has no phase " + phase));
    }

    private Instant made(String operatingPoint, String phase, OptionalDouble wireCelsius) {
        OperatingPoint op = circuit.operatingPoints().get(operatingPoint);
        if (op == null) throw new IllegalArgumentException("no operating point " + operatingPoint);
        Netlist net = NetlistBuilder.build(circuit, layout, withWiresAt(op, wireCelsius), phase(op, phase));
        return instant("operating point " + operatingPoint + ", phase " + phase, net);
    }

    /**
     * Factorises the healthy network of the quietest phase of some operating points, on all cores, so that asking for them
     * later costs nothing. May run beside other uses of this solver, which then wait for it.
     *
     * @throws IllegalArgumentException when the circuit has no such operating point
     */
    public void prepare(List<String> operatingPoints) {
        synchronized (instants) {
            List<OperatingPoint> missing = new ArrayList<>();
            for (String id : operatingPoints) {
                OperatingPoint op = circuit.operatingPoints().get(id);
                if (op == null) throw new IllegalArgumentException("no operating point " + id);
                if (!instants.containsKey(key(op))) missing.add(op);
            }
            if (missing.isEmpty()) return;
            // The first one makes the pattern that the others share.
            at(missing.get(0).id(), missing.get(0).quietest().id());
            List<Instant> made = missing.stream()
                    .skip(1)
                    .parallel()
                    .map(op -> made(op.id(), op.quietest().id(), OptionalDouble.empty()))
                    .toList();
            for (int i = 0; i < made.size(); i++) instants.put(key(missing.get(i + 1)), made.get(i));
        }
    }

    private static String key(OperatingPoint op) {
        return op.id() + " " + op.quietest().id();
    }

    /**
     * The solver of the engine at rest with the key off: nothing inside the control unit, the devices or the network acts,
     * see {@link Passive}. Temperatures of sensors are those of the first operating point that does not run the engine.
     *
     * @param batteryConnected false when the battery is disconnected too, so that the whole harness is without voltage
     * @param wireCelsius temperature of the wires, empty for that of this operating point
     */
    public Instant keyOff(boolean batteryConnected, OptionalDouble wireCelsius) {
        String key = "key off " + batteryConnected + " " + wireCelsius;
        synchronized (instants) {
            return instants.computeIfAbsent(key, k -> resting(batteryConnected, wireCelsius));
        }
    }

    private Instant resting(boolean batteryConnected, OptionalDouble wireCelsius) {
        OperatingPoint op = circuit.restingPoint();
        OperatingPoint.Phase none = new OperatingPoint.Phase("off", List.of());
        Netlist net = NetlistBuilder.build(circuit, layout, withWiresAt(op, wireCelsius), none);
        Passive.make(net, circuit, batteryConnected);
        return instant("key off, battery " + (batteryConnected ? "connected" : "disconnected"), net);
    }

    private static OperatingPoint withWiresAt(OperatingPoint op, OptionalDouble celsius) {
        if (celsius.isEmpty()) return op;
        return new OperatingPoint(
                op.id(), op.label(), op.batteryVolts(), op.engineRunning(), celsius.getAsDouble(), op.phases());
    }

    private Instant instant(String when, Netlist net) {
        return new Instant(circuit.id() + ", " + when, new PhaseSolver(net, circuit.devices(), patternOf(net)));
    }

    /** The pattern of the circuit's networks, which all have one shape. */
    private SparseLu.Pattern patternOf(Netlist net) {
        if (pattern.isEmpty()) pattern = Optional.of(DirectSolver.patternOf(net));
        return pattern.get();
    }
}
