package loomcase.build;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Handle;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;
import org.objectweb.asm.Type;

/**
 * Writes out what Java otherwise makes at the start of every run: a class for each lambda and method reference, and the
 * three methods of each record.
 *
 * <p>The compiler leaves for both a call that is linked when it is first reached (Java Virtual Machine Specification, 5.4.3.6;
 * {@code LambdaMetafactory} and {@code ObjectMethods} of the Java API). A run of less than a second reaches hundreds of
 * them, each once. Here the call becomes a plain one to a class or method that does what those two say they do. A new class
 * joins the nest of the one it stands in for, so that it may call what is private there.
 *
 * <p>Serializable and marked lambdas ({@code altMetafactory}) stay as they are.
 */
public final class PlainCalls {
    private final Map<String, ClassWriter> classes = new LinkedHashMap<>();
    private final Map<String, byte[]> made = new LinkedHashMap<>();
    private final Map<String, String> hosts = new LinkedHashMap<>();

    private PlainCalls() {}

    /**
     * Rewrites a jar in place.
     *
     * @param arguments the jar
     */
    public static void main(String[] arguments) throws IOException {
        Path jar = Path.of(arguments[0]);
        Path to = jar.resolveSibling(jar.getFileName() + ".new");
        rewrite(jar, to);
        Files.move(to, jar, StandardCopyOption.REPLACE_EXISTING);
    }

    /** Writes a jar's classes with plain calls to another jar; everything else as it is. */
    static void rewrite(Path jar, Path to) throws IOException {
        PlainCalls work = new PlainCalls();
        try (ZipFile in = new ZipFile(jar.toFile());
                ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(to))) {
            for (ZipEntry entry : Collections.list(in.entries())) {
                byte[] bytes;
                try (InputStream from = in.getInputStream(entry)) {
                    bytes = from.readAllBytes();
                }
                if (entry.getName().endsWith(".class")) work.add(entry.getName(), bytes);
                else put(out, entry.getName(), bytes);
            }
            for (Map.Entry<String, byte[]> e : work.all().entrySet()) put(out, e.getKey(), e.getValue());
        }
    }

    private static void put(ZipOutputStream out, String name, byte[] bytes) throws IOException {
        ZipEntry entry = new ZipEntry(name);
        // One jar for the same classes, whenever it is made.
        entry.setTimeLocal(java.time.LocalDateTime.of(1980, 1, 1, 0, 0));
        out.putNextEntry(entry);
        out.write(bytes);
        out.closeEntry();
    }

    private void add(String file, byte[] bytes) {
        ClassReader reader = new ClassReader(bytes);
        ClassWriter writer = new ClassWriter(0);
        reader.accept(new Rewriter(writer, reader.getClassName()), 0);
        classes.put(file, writer);
    }

    /** Every class by its file; the hosts of nests are told their new members. */
    private Map<String, byte[]> all() {
        hosts.forEach((member, host) -> classes.get(host + ".class").visitNestMember(member));
        Map<String, byte[]> out = new LinkedHashMap<>();
        classes.forEach((file, writer) -> out.put(file, writer.toByteArray()));
        out.putAll(made);
        return out;
    }

    /** One class rewritten. */
    private final class Rewriter extends ClassVisitor {
        private final String name;
        private String host;
        private final List<PlainRecord> records = new ArrayList<>();
        private int count;

        Rewriter(ClassVisitor to, String name) {
            super(Opcodes.ASM9, to);
            this.name = name;
            this.host = name;
        }

        @Override
        public void visitNestHost(String nestHost) {
            host = nestHost;
            super.visitNestHost(nestHost);
        }

        @Override
        public MethodVisitor visitMethod(int access, String method, String type, String sign, String[] thrown) {
            return new MethodVisitor(Opcodes.ASM9, super.visitMethod(access, method, type, sign, thrown)) {
                @Override
                public void visitInvokeDynamicInsn(String call, String calledType, Handle linker, Object... given) {
                    String by = linker.getOwner() + "." + linker.getName();
                    if (by.equals("java/lang/invoke/LambdaMetafactory.metafactory")) {
                        String made = lambda(call, calledType, given);
                        super.visitMethodInsn(Opcodes.INVOKESTATIC, made, PlainLambda.MAKE, calledType, false);
                    } else if (by.equals("java/lang/runtime/ObjectMethods.bootstrap")) {
                        PlainRecord r = new PlainRecord(name, call, calledType, given);
                        records.add(r);
                        super.visitMethodInsn(Opcodes.INVOKESTATIC, name, r.method(), calledType, false);
                    } else super.visitInvokeDynamicInsn(call, calledType, linker, given);
                }
            };
        }

        private String lambda(String call, String calledType, Object... given) {
            String made = name + "$$Plain" + count++;
            PlainLambda plain = new PlainLambda(
                    made, host, call, Type.getMethodType(calledType), (Type) given[0], (Handle) given[1], (Type)
                            given[2]);
            PlainCalls.this.made.put(made + ".class", plain.bytes());
            hosts.put(made, host);
            return made;
        }

        @Override
        public void visitEnd() {
            records.forEach(r -> r.write(cv));
            super.visitEnd();
        }
    }
}
