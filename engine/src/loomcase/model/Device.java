package loomcase.model;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A part that the harness plugs into: sensor, actuator, node on the network, battery.
 *
 * @param id the id in the circuit file
 * @param label what a technician would call it
 * @param nature what it is electrically
 * @param terminals cavity on which each terminal role lands
 * @param tolerancePercent spread (about two standard deviations) of its healthy value
 * @param conditions true engine conditions that it would report faithfully
 * @param hazards what can hurt near it, words from a fixed list: {@code moving} (a fan, belt, shaft or motor-driven
 *     part), {@code fuel} (a fuel line or tank), {@code coolant} (hot coolant under pressure), {@code boosted} (the
 *     injector driver's voltage, far above battery; not charge air), {@code battery} (a feed that carries strong battery
 *     current)
 */
public record Device(
        String id,
        String label,
        Nature nature,
        Map<String, String> terminals,
        double tolerancePercent,
        List<Condition> conditions,
        List<String> hazards) {

    /**
     * A state of the engine, not of the wiring, that sets codes through a healthy circuit.
     *
     * @param id the id in the circuit file
     * @param label in words
     * @param quantity which quantity of the device differs
     * @param value its value then
     */
    public record Condition(String id, String label, Edit.Quantity quantity, double value) {}

    /** The condition of an id, empty where it reports none such. */
    public Optional<Condition> condition(String id) {
        return conditions.stream().filter(c -> c.id().equals(id)).findFirst();
    }

    /** True when an instrument of its own shows a condition that it reports: one of a battery is read with a meter at its posts. */
    public boolean isGauged() {
        return !conditions.isEmpty() && !(nature instanceof Battery);
    }

    /** What a device is electrically; every resistance in ohms. */
    public sealed interface Nature {
        /** The word used in circuit files. */
        String word();

        /** Terminal roles that must land on a cavity. */
        List<String> roles();
    }

    /** Thermistor law by two constants: {@code R = ohmsAt25 · exp(beta · (1/T − 1/298.15 K))} (IEC 60539-1). */
    public record Ntc(double ohmsAt25, double beta, PerPoint celsius) implements Nature {
        public String word() {
            return "ntc";
        }

        public List<String> roles() {
            return List.of("signal", "return");
        }

        /** Resistance in ohms at a temperature in degrees Celsius. */
        public double ohms(double atCelsius) {
            return ohmsAt25 * Math.exp(beta * (1 / (atCelsius + 273.15) - 1 / 298.15));
        }
    }

    /** What an amplified sensor's output does when its supply or return is lost. */
    public enum Unpowered {
        /** Protection diodes tie the output to supply and return. */
        DIODES,
        /** The output goes open. */
        HIGH_IMPEDANCE
    }

    /**
     * Three-wire sensor whose output is a share of its supply.
     *
     * @param fraction output as a share of supply, 0 to 1
     * @param supplyOhms its load on the supply
     * @param outputOhms output resistance
     * @param minimumSupplyVolts below this it does not work
     * @param unpowered what its output does then
     */
    public record Ratiometric(
            PerPoint fraction, double supplyOhms, double outputOhms, double minimumSupplyVolts, Unpowered unpowered)
            implements Nature {
        public String word() {
            return "ratiometric";
        }

        public List<String> roles() {
            return List.of("supply", "return", "signal");
        }
    }

    /** Hall switch with open collector: pulls its signal to return while the target passes (a phase switches it on). */
    public record Hall(double supplyOhms, double onOhms, double minimumSupplyVolts) implements Nature {
        public String word() {
            return "hall";
        }

        public List<String> roles() {
            return List.of("supply", "return", "signal");
        }
    }

    /** Variable-reluctance pick-up: a coil that gives {@code peakVolts} between its ends in a phase that switches it on. */
    public record VariableReluctance(double coilOhms, PerPoint peakVolts) implements Nature {
        public String word() {
            return "variable-reluctance";
        }

        public List<String> roles() {
            return List.of("positive", "negative");
        }
    }

    /** Two-terminal load; {@code word} is one of coil, injector, heater, motor, probe, terminator. */
    public record Load(String word, double ohms) implements Nature {
        /** The words allowed. */
        public static final List<String> WORDS = List.of("coil", "injector", "heater", "motor", "probe", "terminator");

        public List<String> roles() {
            return List.of("a", "b");
        }
    }

    /** Actuator: a motor and a ratiometric position sensor in one housing. */
    public record MotorWithPosition(double motorOhms, Ratiometric position) implements Nature {
        public String word() {
            return "motor-with-position";
        }

        public List<String> roles() {
            return List.of("motorA", "motorB", "supply", "return", "signal");
        }
    }

    /**
     * Smart node on a two-wire network; it talks in a phase that switches it on.
     *
     * @param supplyOhms its load on the battery
     * @param minimumSupplyVolts below this it is silent
     * @param terminatorOhms resistor between the two lines inside it, infinite for none
     */
    public record Node(double supplyOhms, double minimumSupplyVolts, double terminatorOhms) implements Nature {
        public String word() {
            return "node";
        }

        public List<String> roles() {
            return List.of("power", "ground", "canHigh", "canLow");
        }
    }

    /** Relay: contact closes when the coil sees at least {@code pullInVolts}. */
    public record Relay(double coilOhms, double contactOhms, double pullInVolts) implements Nature {
        public String word() {
            return "relay";
        }

        public List<String> roles() {
            return List.of("coilA", "coilB", "contactA", "contactB");
        }
    }

    /** Battery with its negative on the chassis; the voltage comes from the operating point. */
    public record Battery(double ohms) implements Nature {
        public String word() {
            return "battery";
        }

        public List<String> roles() {
            return List.of("positive");
        }
    }

    public Device {
        terminals = Ordered.copy(terminals);
        conditions = List.copyOf(conditions);
        hazards = List.copyOf(hazards);
    }

    /** The device as a place. */
    public PlaceId place() {
        return new PlaceId(PlaceId.Kind.DEVICE, id);
    }
}
