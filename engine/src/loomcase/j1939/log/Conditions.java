package loomcase.j1939.log;

import java.util.Objects;
import java.util.Optional;

/**
 * Engine speed and coolant temperature that one sender reported, from which a caller may guess the operating point.
 *
 * <p>Speed: PGN 61444, SPN 190, bytes 4 and 5, low first, 0.125 rpm a bit. Coolant: PGN 65262, SPN 110, byte 1, 1 degree
 * Celsius a bit, from -40. Values from FB hex in the high byte up are not measurements and are left out. Sources: public
 * J1939 parameter lists, see the worked values in the tests.
 *
 * @param network interface name in the log
 * @param address source address, 0..255
 */
public record Conditions(String network, int address, Optional<Range> engineRpm, Optional<Range> coolantCelsius) {
    /**
     * A quantity over the log.
     *
     * @param last as the log ends
     * @param samples how many valid values were seen, at least 1
     */
    public record Range(double last, double least, double most, long samples) {
        public Range {
            if (samples < 1 || !(least <= last && last <= most)) {
                throw new IllegalArgumentException(
                        "range " + least + ".." + most + " with last " + last + " of " + samples + " samples");
            }
        }
    }

    public Conditions {
        Objects.requireNonNull(network, "network");
        Objects.requireNonNull(engineRpm, "engineRpm");
        Objects.requireNonNull(coolantCelsius, "coolantCelsius");
    }
}
