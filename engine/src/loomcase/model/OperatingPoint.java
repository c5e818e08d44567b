package loomcase.model;

import java.util.Comparator;
import java.util.List;

/**
 * One steady state in which the engine is looked at, such as key on and cold or loaded and hot.
 *
 * @param id the id in the circuit file
 * @param label in words
 * @param batteryVolts open-circuit voltage of the supply
 * @param engineRunning whether the engine turns
 * @param wireCelsius temperature of the wires
 * @param phases the instants at which the control unit measures in this state
 */
public record OperatingPoint(
        String id, String label, double batteryVolts, boolean engineRunning, double wireCelsius, List<Phase> phases) {

    /**
     * An instant within an operating point: which outputs are driven, which sensors pull, which nodes talk.
     *
     * <p>A direct-current network has no time, so a pulse, a driver test or a bus message is seen as the difference
     * between two such instants.
     *
     * @param id the id in the circuit file
     * @param on control-unit pins ({@code CONNECTOR/CAVITY}) and devices that are active at this instant
     */
    public record Phase(String id, List<String> on) {
        public Phase {
            on = List.copyOf(on);
        }
    }

    public OperatingPoint {
        phases = List.copyOf(phases);
    }

    /** The phase in which least is active. */
    public Phase quietest() {
        return phases.stream().min(Comparator.comparingInt(p -> p.on().size())).orElseThrow();
    }

    /** True when the operating point has a phase of this id. */
    public boolean has(String phase) {
        return phases.stream().anyMatch(p -> p.id().equals(phase));
    }
}
