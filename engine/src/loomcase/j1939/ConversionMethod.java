package loomcase.j1939;

/**
 * How a sender lays the 19 bits of an SPN into the first three bytes of a trouble code.
 *
 * <p>In every version the FMI is the low 5 bits of byte 3; the versions differ in where the SPN bits go (s18 is the most
 * significant):
 *
 * <pre>
 *             byte 1     byte 2     byte 3, high 3 bits   conversion bit
 * version 1   s18..s11   s10..s3    s2..s0                1
 * version 2   s10..s3    s18..s11   s2..s0                1
 * version 3   s7..s0     s15..s8    s18..s16              1
 * version 4   s7..s0     s15..s8    s18..s16              0
 * </pre>
 *
 * <p>Source: see the package chapter; the worked example SPN 1208, FMI 3, count 10 of the standard is in the tests.
 */
public enum ConversionMethod {
    VERSION_1(true),
    VERSION_2(true),
    VERSION_3(true),
    VERSION_4(false);

    private final boolean older;

    ConversionMethod(boolean older) {
        this.older = older;
    }

    /** Whether the sender sets the conversion bit; the three older versions cannot be told apart by their bytes. */
    public boolean older() {
        return older;
    }

    /** SPN held in the first three bytes of a trouble code, each 0..255. */
    int spn(int byte1, int byte2, int byte3) {
        int top3 = byte3 >>> 5;
        return switch (this) {
            case VERSION_1 -> byte1 << 11 | byte2 << 3 | top3;
            case VERSION_2 -> byte2 << 11 | byte1 << 3 | top3;
            case VERSION_3, VERSION_4 -> top3 << 16 | byte2 << 8 | byte1;
        };
    }

    /** The first three bytes of a trouble code without the FMI: byte 1 in bits 0..7, byte 2 in 8..15, byte 3 in 16..23. */
    int spnBytes(int spn) {
        return switch (this) {
            case VERSION_1 -> spn >>> 11 | (spn >>> 3 & 0xFF) << 8 | (spn & 7) << 21;
            case VERSION_2 -> (spn >>> 3 & 0xFF) | spn >>> 11 << 8 | (spn & 7) << 21;
            case VERSION_3, VERSION_4 -> spn & 0xFFFF | spn >>> 16 << 21;
        };
    }
}
