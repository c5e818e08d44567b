package loomcase.build;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.DataInputStream;
import java.io.IOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Path;
import java.util.Collections;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.apache.commons.math3.special.Erf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class NewerClassesTest {
    /** Version of class files of Java 11: Java Virtual Machine Specification, 4.1, table 4.1-A. */
    private static final int JAVA_11 = 55;

    @TempDir
    private Path folder;

    /** Java's own verifier is the judge: it refuses a class whose stack maps do not fit, when the class is first used. */
    @Test
    void everyClassOfTheRewrittenLibrariesIsVerified() throws Exception {
        assertTrue(verified(CommandLine.class, "picocli") > 100);
        assertTrue(verified(Erf.class, "org.apache.commons.math3") > 500);
    }

    @Test
    void aRewrittenFunctionGivesTheSame() throws Exception {
        Path jar = rewritten(Erf.class);
        try (URLClassLoader loader = alone(jar)) {
            Object erf = loader.loadClass(Erf.class.getName())
                    .getMethod("erf", double.class)
                    .invoke(null, 0.5);
            assertEquals(Erf.erf(0.5), erf);
        }
    }

    private int verified(Class<?> one, String inPackage) throws Exception {
        Path jar = rewritten(one);
        int n = 0;
        try (URLClassLoader loader = alone(jar);
                ZipFile in = new ZipFile(jar.toFile())) {
            for (ZipEntry e : Collections.list(in.entries())) {
                if (!e.getName().endsWith(".class") || !e.getName().startsWith(inPackage.replace('.', '/'))) continue;
                try (DataInputStream bytes = new DataInputStream(in.getInputStream(e))) {
                    bytes.skipBytes(6);
                    assertTrue(bytes.readUnsignedShort() >= JAVA_11, e.getName());
                }
                String name = e.getName().substring(0, e.getName().length() - 6).replace('/', '.');
                Class<?> c = Class.forName(name, true, loader);
                assertEquals(loader, c.getClassLoader());
                n++;
            }
        }
        return n;
    }

    private Path rewritten(Class<?> one) throws IOException, URISyntaxException {
        Path jar =
                Path.of(one.getProtectionDomain().getCodeSource().getLocation().toURI());
        Path out = folder.resolve(jar.getFileName());
        NewerClasses.rewrite(jar, out);
        return out;
    }

    private static URLClassLoader alone(Path jar) throws IOException {
        return new URLClassLoader(new URL[] {jar.toUri().toURL()}, ClassLoader.getPlatformClassLoader());
    }
}
