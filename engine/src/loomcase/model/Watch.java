package loomcase.model;

import java.util.List;

/**
 * One code the control unit can set, and the electrical condition that sets it.
 *
 * @param spn suspect parameter number, 0 to 524287
 * @param fmi failure mode identifier the unit's own logic gives, 0 to 31
 * @param label what the code says, in words
 * @param circuitKind kind of circuit for the rules, one of {@link #CIRCUIT_KINDS}
 * @param device device it watches, empty when it watches a rail or the network
 * @param rail rail it hangs on, empty for none
 * @param measure what is measured
 * @param limit when the measured value counts as a fault
 * @param operatingPoints ids of the operating points at which the check runs
 * @param debounceSeconds how long the condition must last
 */
public record Watch(
        int spn,
        int fmi,
        String label,
        String circuitKind,
        String device,
        String rail,
        Measure measure,
        Limit limit,
        List<String> operatingPoints,
        double debounceSeconds) {

    /** The kinds of circuit, which tell the rules how the unit chooses the FMI it shows. */
    public static final List<String> CIRCUIT_KINDS = List.of(
            "ntc",
            "ratiometric-pull-down",
            "ratiometric-pull-up",
            "hall",
            "variable-reluctance",
            "low-side",
            "high-side",
            "injector",
            "bridge",
            "node",
            "supply",
            "network",
            "probe",
            "position",
            "power");

    /** What is measured, always against the control unit's own ground; volts unless said otherwise. */
    public sealed interface Measure {
        /** The phase at which it is measured. */
        String phase();

        /** The control-unit pins it takes, one or two. */
        List<String> pins();

        /** Every phase it looks at, one or two. */
        default List<String> phases() {
            return List.of(phase());
        }
    }

    /** Voltage of a pin. */
    public record PinVolts(String pin, String phase) implements Measure {
        public List<String> pins() {
            return List.of(pin);
        }
    }

    /** Voltage of a pin less that of another. */
    public record Difference(String pin, String minusPin, String phase) implements Measure {
        public List<String> pins() {
            return List.of(pin, minusPin);
        }
    }

    /** Absolute change of a pin's voltage (less that of {@code minusPin} unless that is empty) between two phases. */
    public record Swing(String pin, String minusPin, String fromPhase, String phase) implements Measure {
        public List<String> pins() {
            return minusPin.isEmpty() ? List.of(pin) : List.of(pin, minusPin);
        }

        @Override
        public List<String> phases() {
            return List.of(phase, fromPhase);
        }
    }

    /** Current through a pin's driver in amperes: into the pin for a low-side driver, out of it for a high-side one. */
    public record PinAmperes(String pin, String phase) implements Measure {
        public List<String> pins() {
            return List.of(pin);
        }
    }

    /** Absolute departure of a pin's voltage from what a healthy engine gives at that operating point. */
    public record Departure(String pin, String phase) implements Measure {
        public List<String> pins() {
            return List.of(pin);
        }
    }

    /**
     * A threshold with its spread.
     *
     * @param above true when a value above {@code value} is a fault, false when one below is
     * @param value threshold, volts or amperes as the measure says
     * @param spread standard deviation of threshold and measurement together, same unit
     */
    public record Limit(boolean above, double value, double spread) {
        public Limit {
            if (!(spread > 0)) throw new IllegalArgumentException("spread " + spread + " must be above 0");
        }
    }

    public Watch {
        operatingPoints = List.copyOf(operatingPoints);
    }

    /** {@code SPN/FMI}, the code's name. */
    public String code() {
        return spn + "/" + fmi;
    }
}
