package loomcase.journal;

import java.time.LocalDate;
import java.util.Optional;

/**
 * What a claim says of the machine beside its id, read from it and not from memory.
 *
 * @param serial serial number of engine or machine, empty when not said
 * @param inService date of first use, empty when not said
 * @param distance as the machine shows it, with its unit, such as {@code 412300 km}; empty when not said
 */
public record Machine(Optional<String> serial, Optional<LocalDate> inService, Optional<String> distance) {
    /** Nothing said. */
    public static final Machine NOT_SAID = new Machine(Optional.empty(), Optional.empty(), Optional.empty());

    public Machine {
        serial.ifPresent(s -> Words.some("serial", s));
        distance.ifPresent(d -> Words.some("distance", d));
    }
}
