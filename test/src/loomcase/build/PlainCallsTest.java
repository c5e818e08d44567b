package loomcase.build;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.lang.reflect.Method;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import loomcase.cli.Main;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;

/** Rewritten classes beside Java's own linking of the same ones: Java is the oracle for what a lambda and a record do. */
class PlainCallsTest {
    private static final Set<String> LINKERS = Set.of("metafactory", "bootstrap");

    @TempDir
    private Path folder;

    @Test
    void everySortOfCallGivesWhatJavaGives() throws Exception {
        Path jar = rewritten(folderOf(Linked.class), "loomcase/build/Linked");
        assertEquals(List.of(), linkedAtRunTime(jar));
        try (URLClassLoader loader = instead(jar)) {
            Object there =
                    loader.loadClass(Linked.class.getName()).getConstructor().newInstance();
            assertEquals(new Linked().get(), ((Supplier<?>) there).get());
        }
    }

    /** Java's verifier looks at every class when it is linked. */
    @Test
    void everyClassOfTheProgramIsVerifiedAndNoneIsLinkedAtRunTime() throws Exception {
        Path jar = rewritten(folderOf(Main.class), "loomcase/");
        assertEquals(List.of(), linkedAtRunTime(jar));
        int classes = 0;
        try (URLClassLoader loader = instead(jar);
                ZipFile in = new ZipFile(jar.toFile())) {
            for (ZipEntry e : Collections.list(in.entries())) {
                if (!e.getName().endsWith(".class") || e.getName().endsWith("-info.class")) continue;
                String name = e.getName().substring(0, e.getName().length() - 6).replace('/', '.');
                assertEquals(loader, Class.forName(name, true, loader).getClassLoader());
                classes++;
            }
        }
        assertTrue(classes > 3000, classes + " classes");
    }

    @Test
    void theRewrittenProgramGivesTheSameAnswer() throws Exception {
        Path jar = rewritten(folderOf(Main.class), "");
        try (URLClassLoader loader = instead(jar)) {
            for (String[] command : new String[][] {
                {"rank", "--no-cache", "--circuit", "circuits/teaching.json", "--codes", "110/3,100/4", "--json"},
                {"next", "--help"},
                {"check", "circuits/teaching.json"}
            })
                assertEquals(
                        answer(Main.class, command),
                        answer(loader.loadClass(Main.class.getName()), command),
                        Arrays.toString(command));
        }
    }

    private static String answer(Class<?> main, String... command) throws Exception {
        Method run = main.getDeclaredMethod("run", PrintWriter.class, PrintWriter.class, String[].class);
        run.setAccessible(true);
        StringWriter out = new StringWriter();
        PrintWriter to = new PrintWriter(out);
        Object code = run.invoke(null, to, to, command);
        to.flush();
        assertTrue(out.toString().length() > 50, out.toString());
        return code + out.toString();
    }

    private static Path folderOf(Class<?> one) throws Exception {
        return Path.of(one.getProtectionDomain().getCodeSource().getLocation().toURI());
    }

    /** A jar of what a folder has under a name, rewritten. */
    private Path rewritten(Path classes, String beginning) throws IOException {
        Path jar = folder.resolve("before.jar");
        try (Stream<Path> all = Files.walk(classes);
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(jar))) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                String name = classes.relativize(file).toString().replace('\\', '/');
                if (!name.startsWith(beginning)) continue;
                out.putNextEntry(new ZipEntry(name));
                out.write(Files.readAllBytes(file));
            }
        }
        Path to = folder.resolve("after.jar");
        PlainCalls.rewrite(jar, to);
        return to;
    }

    private static List<String> linkedAtRunTime(Path jar) throws IOException {
        List<String> out = new ArrayList<>();
        try (ZipFile in = new ZipFile(jar.toFile())) {
            for (ZipEntry e : Collections.list(in.entries())) {
                if (!e.getName().endsWith(".class")) continue;
                new ClassReader(in.getInputStream(e)).accept(new Finder(e.getName(), out), 0);
            }
        }
        return out;
    }

    private static final class Finder extends ClassVisitor {
        private final String name;
        private final List<String> out;

        Finder(String name, List<String> out) {
            super(Opcodes.ASM9);
            this.name = name;
            this.out = out;
        }

        @Override
        public MethodVisitor visitMethod(int access, String method, String type, String sign, String[] thrown) {
            return new MethodVisitor(Opcodes.ASM9) {
                @Override
                public void visitInvokeDynamicInsn(String call, String calledType, Handle linker, Object... given) {
                    if (LINKERS.contains(linker.getName())) out.add(name + " " + call);
                }
            };
        }
    }

    /** A jar's classes instead of those that run this test, with the same libraries. */
    private static URLClassLoader instead(Path jar) throws IOException {
        ClassLoader libraries = new ClassLoader(PlainCallsTest.class.getClassLoader()) {
            @Override
            protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
                if (name.startsWith("loomcase.")) throw new ClassNotFoundException(name);
                return super.loadClass(name, resolve);
            }
        };
        return new URLClassLoader(new URL[] {jar.toUri().toURL()}, libraries);
    }
}
