package loomcase.j1939;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;

/**
 * The four bytes of one trouble code as a sender put them on the network.
 *
 * <p>Byte 3 holds the FMI in its low 5 bits, byte 4 the conversion bit (8) and the occurrence count (7..1, 127 = not
 * available); the SPN lies as its {@link ConversionMethod} says.
 *
 * @param bits byte 1 in bits 0..7 up to byte 4 in bits 24..31
 */
public record Dtc(int bits) {
    /** Occurrence counts go from 0 to this; the next value means "not available". */
    public static final int MAX_COUNT = 126;

    private static final int COUNT_NOT_AVAILABLE = 127;
    private static final int CONVERSION_BIT = 0x80000000;

    /** Four bytes, each taken modulo 256, in the order sent. */
    public static Dtc of(int byte1, int byte2, int byte3, int byte4) {
        return new Dtc(byte1 & 0xFF | (byte2 & 0xFF) << 8 | (byte3 & 0xFF) << 16 | byte4 << 24);
    }

    /**
     * The bytes a sender would use for a code.
     *
     * @param count 0..{@value #MAX_COUNT}, or empty for "not available"
     * @throws IllegalArgumentException when the count is outside its range
     */
    public static Dtc of(Code code, OptionalInt count, ConversionMethod method) {
        int occurrences = count.orElse(COUNT_NOT_AVAILABLE);
        if (count.isPresent() && (occurrences < 0 || occurrences > MAX_COUNT)) {
            throw new IllegalArgumentException("occurrence count " + occurrences + " is outside 0.." + MAX_COUNT);
        }
        return new Dtc(method.spnBytes(code.spn())
                | code.fmi() << 16
                | occurrences << 24
                | (method.older() ? CONVERSION_BIT : 0));
    }

    /** Byte 1..4. */
    public int byteAt(int number) {
        if (number < 1 || number > 4) {
            throw new IllegalArgumentException("a trouble code has bytes 1..4, not " + number);
        }
        return bits >>> 8 * (number - 1) & 0xFF;
    }

    public int fmi() {
        return bits >>> 16 & 0x1F;
    }

    /** Occurrence count, empty where the sender says "not available" (127). */
    public OptionalInt count() {
        int count = bits >>> 24 & 0x7F;
        return count == COUNT_NOT_AVAILABLE ? OptionalInt.empty() : OptionalInt.of(count);
    }

    /** Whether the conversion bit is set: one of the three older layouts. */
    public boolean older() {
        return (bits & CONVERSION_BIT) != 0;
    }

    /**
     * Whether these bytes stand for "no code": SPN and FMI zero, or, from older senders and as padding, all four bytes FF.
     */
    public boolean none() {
        return (bits & 0xFFFFFF) == 0 || bits == 0xFFFFFFFF;
    }

    /** The code, if the sender laid it out by this method; whether it did is for the caller to know. */
    public Code code(ConversionMethod method) {
        return new Code(method.spn(byteAt(1), byteAt(2), byteAt(3)), fmi());
    }

    /** What the bytes alone say: certain for version 4, up to three candidates for the older layouts. */
    public CodeReading reading() {
        if (!older()) {
            return new CodeReading.Certain(code(ConversionMethod.VERSION_4));
        }
        Set<ConversionMethod> methods = EnumSet.range(ConversionMethod.VERSION_1, ConversionMethod.VERSION_3);
        List<CodeReading.Candidate> candidates = new ArrayList<>();
        for (ConversionMethod method : methods) {
            candidates.add(new CodeReading.Candidate(code(method), method));
        }
        return CodeReading.among(candidates);
    }

    /**
     * What the bytes say when the older layout of their sender is known.
     *
     * @param olderMethod version 1, 2 or 3; it decides only when the conversion bit is set
     */
    public CodeReading reading(ConversionMethod olderMethod) {
        return older() ? new CodeReading.Certain(code(olderMethod)) : reading();
    }
}
