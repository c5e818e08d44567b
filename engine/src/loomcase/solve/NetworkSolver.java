package loomcase.solve;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
 * <p>Healthy networks are factorised on first use and kept. Not thread-safe; make one per thread.
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

        /** Gives back the memory of the columns kept so far. */
        public void forget() {
            solver.forget();
        }

        /** The same by factorising the edited network from nothing: slow, for comparison. */
        public Solution solveAfresh(List<Edit> edits) {
            return new DirectSolver(
                            Changes.of(solver.net(), solver.devices(), edits).applyTo(solver.net()))
                    .solve();
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
        return instants.computeIfAbsent(operatingPoint + " " + phase, key -> {
            OperatingPoint op = circuit.operatingPoints().get(operatingPoint);
            if (op == null) throw new IllegalArgumentException("no operating point " + operatingPoint);
            OperatingPoint.Phase p = op.phases().stream()
                    .filter(each -> each.id().equals(phase))
                    .findFirst()
                    .orElseThrow(() -> new IllegalArgumentException(
                            "operating point " + operatingPoint + " has no phase " + phase));
            Netlist net = NetlistBuilder.build(circuit, layout, op, p);
            String title = circuit.id() + ", operating point " + operatingPoint + ", phase " + phase;
            return new Instant(title, new PhaseSolver(net, circuit.devices(), patternOf(net)));
        });
    }

    /** The pattern of the circuit's networks, which all have one shape. */
    private SparseLu.Pattern patternOf(Netlist net) {
        if (pattern.isEmpty()) pattern = Optional.of(DirectSolver.patternOf(net));
        return pattern.get();
    }
}
