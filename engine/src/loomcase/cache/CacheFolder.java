package loomcase.cache;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import loomcase.journal.Digest;
import loomcase.predict.Dictionary;

/**
 * A folder of what was worked out of circuits before, called tables here.
 *
 * @param folder where tables are read and written, made when the first one is written; without it nothing is written
 * @param shipped a second folder, read only, that came with the program
 * @param program what stands for the program and the Java that runs it; tables of another are not seen
 * @param mostBytes size above which tables used longest ago are deleted
 */
public record CacheFolder(Optional<Path> folder, Optional<Path> shipped, String program, long mostBytes) {
    /** Size of a folder unless said otherwise; a table of a large harness has about half a megabyte. */
    public static final long MOST_BYTES = 64L << 20;

    private static final String ENDING = ".table";

    /** System property that names the folder; without it nothing more is kept. The launcher sets it. */
    public static final String FOLDER = "loomcase.cache";

    /** System property that names the folder of tables that came with the program. */
    public static final String SHIPPED = "loomcase.shipped";

    /** The folder that the launcher named; empty when it named none or the program does not run from a jar. */
    public static Optional<CacheFolder> ofThisRun() {
        Optional<Path> folder = property(FOLDER);
        Optional<Path> shipped = property(SHIPPED);
        if (folder.isEmpty() && shipped.isEmpty()) return Optional.empty();
        return Program.identity().map(p -> new CacheFolder(folder, shipped, p, MOST_BYTES));
    }

    private static Optional<Path> property(String name) {
        return Optional.ofNullable(System.getProperty(name))
                .filter(value -> !value.isBlank())
                .map(Path::of);
    }

    /** What was solved of the circuit whose file has this digest. */
    public Dictionary of(Digest circuit) {
        return new Dictionary() {
            @Override
            public Optional<byte[]> get(String what) {
                String name = name(circuit, what);
                return folder.flatMap(f -> read(f.resolve(name))).or(() -> shipped.flatMap(s -> read(s.resolve(name))));
            }

            @Override
            public void put(String what, byte[] bytes) {
                folder.ifPresent(f -> write(f, name(circuit, what), bytes));
            }
        };
    }

    private String name(Digest circuit, String what) {
        return Digest.of(String.join("\n", circuit.hex(), program, what)).hex() + ENDING;
    }

    private static Optional<byte[]> read(Path file) {
        try {
            byte[] bytes = Files.readAllBytes(file);
            touch(file);
            return Optional.of(bytes);
        } catch (IOException absent) {
            return Optional.empty();
        }
    }

    /** Marks as used just now, where that is allowed. */
    private static void touch(Path file) {
        try {
            Files.setLastModifiedTime(file, FileTime.from(Instant.now()));
        } catch (IOException readOnly) {
            return;
        }
    }

    /** Writes beside the place and moves there, so that nobody ever reads half a table. */
    private void write(Path folder, String name, byte[] bytes) {
        if (bytes.length > mostBytes) return;
        try {
            Files.createDirectories(folder);
            Path half = folder.resolve(name + "." + ProcessHandle.current().pid() + ".half");
            try {
                Files.write(half, bytes);
                Files.move(
                        half,
                        folder.resolve(name),
                        StandardCopyOption.ATOMIC_MOVE,
                        StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(half);
            }
            keepBelow(folder);
        } catch (IOException full) {
            // A cache that cannot be written saves nothing and harms nothing.
            return;
        }
    }

    private record Kept(Path file, long bytes, FileTime used) {}

    private void keepBelow(Path folder) throws IOException {
        List<Kept> all = new ArrayList<>();
        try (Stream<Path> files = Files.list(folder)) {
            for (Path f : files.filter(Files::isRegularFile).toList())
                all.add(new Kept(f, Files.size(f), Files.getLastModifiedTime(f)));
        }
        all.sort(Comparator.comparing(Kept::used));
        long sum = all.stream().mapToLong(Kept::bytes).sum();
        for (Kept k : all) {
            if (sum <= mostBytes) return;
            Files.deleteIfExists(k.file);
            sum -= k.bytes;
        }
    }
}
