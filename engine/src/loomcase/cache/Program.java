package loomcase.cache;

import java.io.File;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.Optional;
import java.util.zip.CRC32;
import java.util.zip.CRC32C;
import java.util.zip.Checksum;

/** What stands for the running program: its own classes and the Java that runs them. */
public final class Program {
    private static final int END_MARK = 0x06054b50;
    private static final int SHORTEST_END = 22;
    private static final int LONGEST_END = SHORTEST_END + 65535;

    private Program() {}

    /**
     * Checksums of the jar's directory, its size, and the version of Java.
     *
     * <p>The directory at the end of a jar holds name, size, time and CRC-32 of every entry, so no class is read. A change
     * anywhere in the program makes other tables, whether or not it matters for them. Source of the form: PKWARE .ZIP
     * application note 6.3, 4.3.12 and 4.3.16 (from memory).
     *
     * @return empty when the program does not run from a jar: its classes may then change under way
     */
    public static Optional<String> identity() {
        String first = System.getProperty("java.class.path").split(File.pathSeparator)[0];
        return first.endsWith(".jar") ? identity(Path.of(first)) : Optional.empty();
    }

    /** Two that differ in kind: a secure digest would take ten times as long, and nobody forges a program for its tables. */
    private static long checksum(Checksum by, byte[] bytes) {
        by.update(bytes, 0, bytes.length);
        return by.getValue();
    }

    static Optional<String> identity(Path jar) {
        try (RandomAccessFile file = new RandomAccessFile(jar.toFile(), "r")) {
            long size = file.length();
            byte[] end = new byte[(int) Math.min(size, LONGEST_END)];
            file.seek(size - end.length);
            file.readFully(end);
            ByteBuffer at = ByteBuffer.wrap(end).order(ByteOrder.LITTLE_ENDIAN);
            int p = end.length - SHORTEST_END;
            while (p >= 0 && at.getInt(p) != END_MARK) p--;
            if (p < 0) return Optional.empty();
            byte[] directory = new byte[at.getInt(p + 12)];
            file.seek(Integer.toUnsignedLong(at.getInt(p + 16)));
            file.readFully(directory);
            String java = System.getProperty("java.vm.version") + " " + System.getProperty("os.arch");
            return Optional.of(java + " " + size + " " + checksum(new CRC32(), directory) + " "
                    + checksum(new CRC32C(), directory));
        } catch (IOException | NegativeArraySizeException unreadable) {
            return Optional.empty();
        }
    }
}
