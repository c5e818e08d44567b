package loomcase.model;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The engine control unit: its plugs, its internal 5 V rails and what stands behind each pin.
 *
 * @param id the id in the circuit file
 * @param label what a technician would call it
 * @param address its J1939 source address, 0 to 253
 * @param connectors plugs that mate with it
 * @param rails sensor supplies inside it
 * @param pins function by cavity ({@code CONNECTOR/CAVITY})
 * @param minimumSupplyVolts below this between its power and ground it is silent
 */
public record ControlUnit(
        String id,
        String label,
        int address,
        List<String> connectors,
        Map<String, Rail> rails,
        Map<String, Pin> pins,
        double minimumSupplyVolts) {

    /**
     * A regulated sensor supply that can source but not sink.
     *
     * @param id the id in the circuit file
     * @param volts regulated voltage above the unit's ground
     * @param ohms output resistance while regulating
     * @param limitAmperes current at which it stops regulating
     */
    public record Rail(String id, double volts, double ohms, double limitAmperes) {}

    /**
     * One pin.
     *
     * @param cavity where the harness meets it
     * @param label signal name, in words
     * @param function electrical function
     * @param clamp protection of a signal pin, empty for none
     */
    public record Pin(String cavity, String label, PinFunction function, Optional<Clamp> clamp) {}

    /**
     * Diodes that hold a pin between {@code −0.6 V} and {@code highVolts}.
     *
     * @param highVolts voltage above which the clamp conducts
     * @param ohms its resistance then
     */
    public record Clamp(double highVolts, double ohms) {}

    /** What stands behind a pin; every resistance in ohms. */
    public sealed interface PinFunction {
        /** The word used in circuit files. */
        String word();
    }

    /** Battery feed; {@code loadOhms} is the unit's own load to its ground. */
    public record Power(double loadOhms) implements PinFunction {
        public String word() {
            return "power";
        }
    }

    /** Ground of the unit. */
    public record GroundPin() implements PinFunction {
        public String word() {
            return "ground";
        }
    }

    /** Output of a rail. */
    public record Supply(String rail) implements PinFunction {
        public String word() {
            return "supply";
        }
    }

    /** Sensor return, tied to the unit's ground. */
    public record Return(double ohms) implements PinFunction {
        public String word() {
            return "return";
        }
    }

    /** Input with a resistor to an internal protected supply. */
    public record PullUp(double volts, double ohms) implements PinFunction {
        public String word() {
            return "pull-up-input";
        }
    }

    /** Input with a resistor to the unit's ground. */
    public record PullDown(double ohms) implements PinFunction {
        public String word() {
            return "pull-down-input";
        }
    }

    /** One half of a differential input: a resistor to a bias voltage. */
    public record Differential(double biasVolts, double ohms) implements PinFunction {
        public String word() {
            return "differential-input";
        }
    }

    /** Switch to the unit's ground. Off, a weak resistor pulls the pin to {@code diagnosticVolts}. */
    public record LowSide(double onOhms, double limitAmperes, double diagnosticVolts, double diagnosticOhms)
            implements PinFunction {
        public String word() {
            return "low-side-driver";
        }
    }

    /** Switch to the unit's battery feed. Off, a weak resistor pulls the pin to {@code diagnosticVolts}. */
    public record HighSide(double onOhms, double limitAmperes, double diagnosticVolts, double diagnosticOhms)
            implements PinFunction {
        public String word() {
            return "high-side-driver";
        }
    }

    /**
     * A line of the two-wire network. On, it is driven dominant through {@code driveOhms}.
     *
     * @param bus name of the network
     * @param high true for the high line
     * @param terminatorOhms resistor to the other line inside the unit, infinite for none; given on the high line
     */
    public record Network(String bus, boolean high, double terminatorOhms) implements PinFunction {
        public String word() {
            return high ? "can-high" : "can-low";
        }
    }

    public ControlUnit {
        connectors = List.copyOf(connectors);
        rails = Ordered.copy(rails);
        pins = Ordered.copy(pins);
    }

    /** The unit as a place. */
    public PlaceId place() {
        return new PlaceId(PlaceId.Kind.CONTROL_UNIT, id);
    }
}
