package loomcase.cache;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import loomcase.journal.Digest;

/** What stands for the running program: its own classes and the Java that runs them. */
public final class Program {
    private static final String OWN = "loomcase/";

    private Program() {}

    /**
     * A digest of the names and CRC-32 of the program's classes in its jar, and of the version of Java.
     *
     * <p>The jar's directory holds these sums, so no class is read. A change anywhere in the program makes other tables,
     * whether or not it matters for them.
     *
     * @return empty when the program does not run from a jar: its classes may then change under way
     */
    public static Optional<String> identity() {
        String first = System.getProperty("java.class.path").split(java.io.File.pathSeparator)[0];
        return first.endsWith(".jar") ? identity(Path.of(first)) : Optional.empty();
    }

    static Optional<String> identity(Path jar) {
        TreeMap<String, Long> sums = new TreeMap<>();
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            for (var entries = zip.entries(); entries.hasMoreElements(); ) {
                ZipEntry e = entries.nextElement();
                if (e.getName().startsWith(OWN)) sums.put(e.getName(), e.getCrc());
            }
        } catch (IOException unreadable) {
            return Optional.empty();
        }
        if (sums.isEmpty()) return Optional.empty();
        String java = System.getProperty("java.vm.version") + " " + System.getProperty("os.arch");
        return Optional.of(Digest.of(java + sums).hex());
    }
}
