package loomcase.build;

import java.io.IOException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Opcodes;

/**
 * Gives libraries that were compiled for Java 5 class files of Java 11.
 *
 * <p>Java keeps no class below version 50 in its archive of loaded classes (JDK 17, {@code SystemDictionaryShared}), so
 * those would be found, read and verified at every start. Later versions carry stack maps; they are computed here.
 */
public final class NewerClasses {
    private NewerClasses() {}

    /**
     * Rewrites jars in place.
     *
     * @param arguments a folder, then what the names of the jars in it begin with
     */
    public static void main(String[] arguments) throws IOException {
        List<String> names = Arrays.asList(arguments).subList(1, arguments.length);
        List<Path> jars;
        try (Stream<Path> all = Files.list(Path.of(arguments[0]))) {
            jars = all.filter(p -> names.stream()
                            .anyMatch(n -> p.getFileName().toString().startsWith(n + "-")))
                    .toList();
        }
        if (jars.size() != names.size()) throw new IOException(arguments[0] + " has " + jars + " for " + names);
        for (Path jar : jars) {
            Path made = jar.resolveSibling(jar.getFileName() + ".new");
            rewrite(jar, made);
            Files.move(made, jar, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    /** Writes a jar's classes in the newer form to another jar; everything else as it is. */
    static void rewrite(Path jar, Path to) throws IOException {
        try (URLClassLoader loader = new URLClassLoader(new URL[] {jar.toUri().toURL()});
                ZipFile in = new ZipFile(jar.toFile());
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(to))) {
            for (ZipEntry entry : Collections.list(in.entries())) {
                byte[] bytes = in.getInputStream(entry).readAllBytes();
                boolean isClass =
                        entry.getName().endsWith(".class") && !entry.getName().endsWith("module-info.class");
                out.putNextEntry(new ZipEntry(entry.getName()));
                out.write(isClass ? newer(bytes, loader) : bytes);
                out.closeEntry();
            }
        }
    }

    private static byte[] newer(byte[] bytes, ClassLoader loader) {
        ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_FRAMES) {
            @Override
            protected ClassLoader getClassLoader() {
                return loader;
            }
        };
        new ClassReader(bytes)
                .accept(
                        new ClassVisitor(Opcodes.ASM9, writer) {
                            @Override
                            public void visit(
                                    int version, int access, String name, String sign, String above, String[] faces) {
                                super.visit(Math.max(version, Opcodes.V11), access, name, sign, above, faces);
                            }
                        },
                        ClassReader.SKIP_FRAMES);
        return writer.toByteArray();
    }
}
