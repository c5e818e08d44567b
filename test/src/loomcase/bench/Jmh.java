package loomcase.bench;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import javax.tools.JavaCompiler;
import javax.tools.ToolProvider;

/**
 * Generates and runs the benchmarks of {@link Kernels} with JMH.
 *
 * <p>The generator is an annotation processor; it runs here, when somebody wants to measure, and not in any build. Run from
 * the project folder: {@code java -cp "target/test-classes:target/classes:$(cat target/test-classpath.txt)"
 * loomcase.bench.Jmh}, with JMH's own arguments behind it, such as {@code rank -wi 1}. Needs a JDK.
 */
public final class Jmh {
    private static final Path MADE = Path.of("target/jmh");

    private Jmh() {}

    public static void main(String[] arguments) throws IOException, InterruptedException {
        Files.createDirectories(MADE);
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        if (compiler == null) throw new IOException("the generator needs a JDK, not only a JRE");
        String path = System.getProperty("java.class.path");
        int failed = compiler.run(
                null,
                null,
                null,
                "-nowarn",
                "-processor",
                "org.openjdk.jmh.generators.BenchmarkProcessor",
                "-d",
                MADE.toString(),
                "-cp",
                path,
                "test/src/loomcase/bench/Kernels.java");
        if (failed != 0) throw new IOException("the benchmarks cannot be generated");
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                MADE + File.pathSeparator + path,
                "org.openjdk.jmh.Main"));
        command.addAll(Arrays.asList(arguments));
        System.exit(new ProcessBuilder(command).inheritIO().start().waitFor());
    }
}
