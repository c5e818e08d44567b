package loomcase.j1939.log;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import loomcase.j1939.Lamps;

/**
 * The codes of one sender.
 *
 * @param network interface name in the log, as {@code can0}; empty where the log names none
 * @param address source address, 0..255
 * @param lamps as in its last DM1, empty if it sent only DM2
 * @param codes active ones first, then by SPN and FMI
 */
public record SourceCodes(String network, int address, Optional<Lamps> lamps, List<CodeSeen> codes) {
    public SourceCodes {
        Objects.requireNonNull(network, "network");
        Objects.requireNonNull(lamps, "lamps");
        codes = List.copyOf(codes);
    }
}
