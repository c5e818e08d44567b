package loomcase.policy;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * One place in the harness that a technician may work at, as the caution rules see it.
 *
 * @param id id of the place in the circuit file
 * @param kind branch, connector, cavity, splice, wire, device, control-unit, ground or fuse
 * @param deviceKind kind of device there, in the circuit file's words; empty where none
 * @param circuitKinds kinds of circuit that pass here, from {@link CircuitKinds#ALL}, separated by blanks or commas
 * @param zoneCelsius highest temperature of the zone with the engine warm, degrees Celsius
 * @param movingParts a fan, belt or other moving part is within reach
 * @param fuel a fuel line is within reach or is opened on the way
 * @param coolant a coolant line is within reach or is opened on the way
 * @param boosted a circuit here carries a driver's boosted voltage
 */
public record PlaceFact(
        String id,
        String kind,
        String deviceKind,
        String circuitKinds,
        double zoneCelsius,
        boolean movingParts,
        boolean fuel,
        boolean coolant,
        boolean boosted) {
    public PlaceFact {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(deviceKind, "deviceKind");
        split(circuitKinds).forEach(CircuitKinds::require);
        if (!Double.isFinite(zoneCelsius)) {
            throw new IllegalArgumentException("zoneCelsius is " + zoneCelsius + "; allowed is a finite number");
        }
    }

    /** Whether a circuit of this kind passes here; the word that caution rules use. */
    public boolean carries(String circuitKind) {
        CircuitKinds.require(circuitKind);
        return split(circuitKinds).contains(circuitKind);
    }

    private static List<String> split(String kinds) {
        return Arrays.stream(kinds.split("[\\s,]+"))
                .filter(kind -> !kind.isEmpty())
                .toList();
    }
}
