package loomcase;

import java.util.zip.CRC32C;

/** The checksum at the end of what is kept on disk: CRC-32C, as {@code java.util.zip} computes it. */
public final class Crc32c {
    private Crc32c() {}

    /** Of the first bytes, as many as are asked for. */
    public static int of(byte[] bytes, int length) {
        CRC32C crc = new CRC32C();
        crc.update(bytes, 0, length);
        return (int) crc.getValue();
    }
}
