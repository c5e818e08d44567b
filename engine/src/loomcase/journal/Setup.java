package loomcase.journal;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The state of engine and harness in which something was measured or watched.
 *
 * @param operatingPoint id of an operating point of the circuit; empty for key off
 * @param phase id of a phase of that operating point, when the reading belongs to one
 * @param unplugged connectors taken apart, each once
 * @param jumpers leads clipped on
 * @param wireCelsius temperature of the wires, degrees Celsius, within −60 to 200; empty when not said
 */
public record Setup(
        Optional<String> operatingPoint,
        Optional<String> phase,
        List<String> unplugged,
        List<Jumper> jumpers,
        OptionalDouble wireCelsius) {
    /** The word for no operating point: the key is off. */
    public static final String KEY_OFF = "key-off";

    public static final double LEAST_CELSIUS = -60;
    public static final double MOST_CELSIUS = 200;

    public Setup {
        unplugged = List.copyOf(unplugged);
        jumpers = List.copyOf(jumpers);
        if (operatingPoint.isPresent() && operatingPoint.get().equals(KEY_OFF))
            throw new IllegalArgumentException("key-off is no operating point; leave the operating point empty");
        if (phase.isPresent() && operatingPoint.isEmpty())
            throw new IllegalArgumentException("phase " + phase.get() + " needs an operating point; the key is off");
        if (new HashSet<>(unplugged).size() < unplugged.size())
            throw new IllegalArgumentException("a connector is unplugged twice in " + unplugged);
        if (wireCelsius.isPresent()
                && !(wireCelsius.getAsDouble() >= LEAST_CELSIUS && wireCelsius.getAsDouble() <= MOST_CELSIUS))
            throw new IllegalArgumentException(
                    "wire temperature " + wireCelsius.getAsDouble() + " is not within -60 to 200 degrees Celsius");
    }

    /** Plugs mated, nothing clipped on. */
    public static Setup at(Optional<String> operatingPoint) {
        return new Setup(operatingPoint, Optional.empty(), List.of(), List.of(), OptionalDouble.empty());
    }

    /** Whether the circuit has power: the key is on. */
    public boolean powered() {
        return operatingPoint.isPresent();
    }

    @Override
    public String toString() {
        List<String> parts = new ArrayList<>();
        parts.add(
                operatingPoint.orElse(KEY_OFF) + phase.map(p -> ", phase " + p).orElse(""));
        if (!unplugged.isEmpty()) parts.add("unplugged " + String.join(", ", unplugged));
        for (Jumper jumper : jumpers) parts.add("jumper " + jumper);
        if (wireCelsius.isPresent()) parts.add("wires at " + Shown.plain(wireCelsius.getAsDouble()) + " °C");
        return String.join("; ", parts);
    }
}
