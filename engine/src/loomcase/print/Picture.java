package loomcase.print;

import java.util.Arrays;

/**
 * The bytes of a photograph, JPEG or PNG by their signature (ISO/IEC 10918-1, marker SOI; ISO/IEC 15948, 5.2).
 *
 * <p>A class, not a record, because two pictures are equal when their bytes are.
 */
public final class Picture {
    private static final byte[] JPEG = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF};
    private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};

    private final byte[] bytes;

    /**
     * Takes a copy.
     *
     * @throws IllegalArgumentException when the bytes are neither JPEG nor PNG
     */
    public Picture(byte[] bytes) {
        if (!known(bytes)) throw new IllegalArgumentException("neither a JPEG nor a PNG");
        this.bytes = bytes.clone();
    }

    /** Whether bytes begin as a JPEG or PNG does. */
    public static boolean known(byte[] bytes) {
        return starts(bytes, JPEG) || starts(bytes, PNG);
    }

    private static boolean starts(byte[] bytes, byte[] with) {
        return bytes.length >= with.length && Arrays.equals(bytes, 0, with.length, with, 0, with.length);
    }

    public String mediaType() {
        return starts(bytes, PNG) ? "image/png" : "image/jpeg";
    }

    public byte[] bytes() {
        return bytes.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Picture p && Arrays.equals(bytes, p.bytes);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(bytes);
    }
}
