package loomcase.j1939.log;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import loomcase.j1939.ConversionMethod;

/**
 * What the user knows beforehand.
 *
 * @param olderMethods for a sender's address (0..255) the older layout of its codes, version 1, 2 or 3; it decides only for
 *     codes whose conversion bit is set
 */
public record ReadOptions(Map<Integer, ConversionMethod> olderMethods) {
    /** Nothing known. */
    public static final ReadOptions NONE = new ReadOptions(Map.of());

    public ReadOptions {
        olderMethods = Map.copyOf(olderMethods);
        olderMethods.forEach((address, method) -> {
            if (address < 0 || address > 255) {
                throw new IllegalArgumentException("source address " + address + " is outside 0..255");
            }
            if (!method.older()) {
                throw new IllegalArgumentException("address " + address + ": " + method
                        + " is told by its conversion bit; name version 1, 2 or 3 for codes where that bit is set");
            }
        });
    }

    /** These options, and the older layout of one more sender. */
    public ReadOptions with(int address, ConversionMethod olderMethod) {
        Map<Integer, ConversionMethod> more = new HashMap<>(olderMethods);
        more.put(address, olderMethod);
        return new ReadOptions(more);
    }

    Optional<ConversionMethod> olderMethod(int address) {
        return Optional.ofNullable(olderMethods.get(address));
    }
}
