package loomcase.bench;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.stream.Stream;
import loomcase.policy.CircuitKinds;
import loomcase.policy.Conclusions;
import loomcase.policy.PlaceFact;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.policy.WatchedCode;
import org.drools.model.Model;
import org.drools.model.codegen.ExecutableModelProject;
import org.drools.modelcompiler.KieBaseBuilder;
import org.kie.api.KieBase;
import org.kie.api.KieServices;
import org.kie.api.builder.KieBuilder;
import org.kie.api.builder.KieFileSystem;
import org.kie.api.runtime.KieSession;

/**
 * Measures what one use of the built-in rules costs a fresh process, for each way of getting them ready.
 *
 * <p>Each run is a new process that makes the rule base, puts in {@value #CODES} codes and {@value #PLACES} places and
 * fires once. Time is wall time from start to end of the process; memory is the peak resident set that the kernel
 * reports. {@code none} makes the facts but no rules; {@code classic} and {@code codegen} compile the built-in DRL at
 * start, {@code prebuilt} loads what the build compiled, {@code shop} adds a folder with one rule. Ways ending in {@code +cds} use a class archive of that way.
 *
 * <p>Run: {@code mvn -q test-compile exec:exec -Dexec.executable=java -Dexec.classpathScope=test
 * "-Dexec.args=-cp %classpath loomcase.bench.RuleStart 7"}, where 7 is the number of runs a way.
 */
public final class RuleStart {
    private static final int CODES = 120;
    private static final int PLACES = 100;
    private static final List<String> WAYS = List.of("none", "classic", "codegen", "prebuilt", "shop");
    private static final List<String> FILES = List.of("masking.drl", "fmi-reading.drl", "cautions.drl");

    private static final String SHOP_RULE =
            """
            package loomcase.rules.codes
            import loomcase.policy.PlaceFact
            global loomcase.policy.Conclusions conclude
            rule "Wear glasses"
            @Reason("shop order")
            when
                $place : PlaceFact( fuel )
            then
                conclude.caution($place, "Wear glasses.");
            end
            """;

    private RuleStart() {}

    public static void main(String[] arguments) throws Exception {
        if (arguments.length == 2 && arguments[0].equals("way")) {
            one(arguments[1]);
        } else {
            compare(arguments.length == 0 ? 7 : Integer.parseInt(arguments[0]));
        }
    }

    private static void one(String way) throws Exception {
        List<Object> facts = facts();
        Conclusions conclusions = new Conclusions();
        int fired = 0;
        if (way.equals("shop")) {
            fired = shop();
        } else if (!way.equals("none")) {
            KieSession session = rules(way).newKieSession();
            session.setGlobal("conclude", conclusions);
            facts.forEach(session::insert);
            fired = session.fireAllRules();
            session.dispose();
        }
        String peak = Files.readAllLines(Path.of("/proc/self/status")).stream()
                .filter(line -> line.startsWith("VmHWM"))
                .findFirst()
                .orElse("VmHWM: 0 kB");
        System.out.println(fired + " " + peak.replaceAll("\\D", ""));
    }

    /** The program's own way with a shop folder of one rule; counts conclusions, as many as there are firings or more. */
    private static int shop() throws IOException {
        Path folder = Files.createTempDirectory("shop");
        Path file = folder.resolve("own.drl");
        Files.writeString(file, SHOP_RULE);
        PolicyOutcome outcome = Policy.withShopRules(folder).decide(only(WatchedCode.class), only(PlaceFact.class));
        Files.delete(file);
        Files.delete(folder);
        return outcome.masks().size()
                + outcome.readings().size()
                + outcome.cautions().size();
    }

    private static <T> List<T> only(Class<T> kind) {
        return facts().stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    private static KieBase rules(String way) throws Exception {
        if (way.equals("prebuilt")) {
            List<Model> models = new ArrayList<>();
            for (String name : text("codes-models.txt").lines().toList()) {
                models.add((Model) Class.forName(name).getDeclaredConstructor().newInstance());
            }
            return KieBaseBuilder.createKieBaseFromModel(models);
        }
        KieServices services = KieServices.get();
        KieFileSystem files = services.newKieFileSystem();
        for (String file : FILES) {
            files.write("src/main/resources/rules/" + file, text(file));
        }
        KieBuilder builder = services.newKieBuilder(files);
        if (way.equals("codegen")) {
            builder.buildAll(ExecutableModelProject.class);
        } else {
            builder.buildAll(org.drools.compiler.kie.builder.impl.DrlProject.class);
        }
        if (!builder.getResults().getMessages().isEmpty()) {
            throw new IllegalStateException(builder.getResults().toString());
        }
        return services.newKieContainer(builder.getKieModule().getReleaseId()).getKieBase();
    }

    private static String text(String file) throws IOException {
        try (InputStream in = RuleStart.class.getResourceAsStream("/rules/" + file)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static List<Object> facts() {
        List<Object> facts = new ArrayList<>();
        for (int i = 0; i < CODES; i++) {
            String kind = CircuitKinds.ALL.get(i % CircuitKinds.ALL.size());
            facts.add(new WatchedCode(100 + i / 4, 2 + i % 8, kind, "device-" + i / 3, "rail-" + i % 3, "return", ""));
        }
        for (int i = 0; i < PLACES; i++) {
            String kind = CircuitKinds.ALL.get(i % CircuitKinds.ALL.size());
            facts.add(new PlaceFact("place-" + i, "connector", "", kind, i, i % 2 == 0, i % 3 == 0, false, i % 5 == 0));
        }
        return facts;
    }

    private static void compare(int runs) throws Exception {
        Path work = Files.createTempDirectory("rule-start");
        String classPath = jars(work);
        System.out.println("way            ms (min..max)         MiB   fired or concluded");
        for (String way : WAYS) {
            report(way, runs, classPath, List.of());
            Path archive = archive(work, classPath, way);
            report(way + "+cds", runs, classPath, List.of("-XX:SharedArchiveFile=" + archive));
        }
        try (Stream<Path> left = Files.list(work)) {
            left.forEach(RuleStart::delete);
        }
        Files.delete(work);
    }

    /**
     * Writes the class archive of one way: at exit if Java can, else from the list of loaded classes. Java 17 ends with a
     * segmentation fault when it writes an archive at exit after Drools compiled rules; without the generated lambda classes
     * the list works.
     */
    private static Path archive(Path work, String classPath, String way) throws Exception {
        Path archive = work.resolve(way + ".jsa");
        List<String> quiet = List.of("-Xlog:disable", "-XX:ErrorFile=/dev/null", "-XX:-CreateCoredumpOnCrash");
        try {
            List<String> atExit = new ArrayList<>(quiet);
            atExit.add("-XX:ArchiveClassesAtExit=" + archive);
            run(classPath, way, atExit);
            return archive;
        } catch (IllegalStateException e) {
            System.out.println("(no archive at exit: " + e.getMessage() + "; made from the class list)");
        }
        Path list = work.resolve(way + ".list");
        run(classPath, way, List.of("-XX:DumpLoadedClassList=" + list));
        Files.write(
                list,
                Files.readAllLines(list).stream()
                        .filter(line -> !line.startsWith("@lambda"))
                        .toList());
        List<String> command = new ArrayList<>(List.of(java(), "-Xshare:dump", "-cp", classPath));
        command.addAll(quiet);
        command.addAll(List.of("-XX:SharedClassListFile=" + list, "-XX:SharedArchiveFile=" + archive));
        Process dump = new ProcessBuilder(command)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        if (dump.waitFor() != 0) {
            throw new IllegalStateException("class archive of " + way + " ended with " + dump.exitValue());
        }
        return archive;
    }

    private static String java() {
        return Path.of(System.getProperty("java.home"), "bin", "java").toString();
    }

    private static void report(String label, int runs, String classPath, List<String> options) throws Exception {
        long[][] all = new long[3][runs];
        for (int i = 0; i < runs; i++) {
            long start = System.nanoTime();
            String[] answer = run(classPath, label.replace("+cds", ""), options).split(" ");
            all[0][i] = (System.nanoTime() - start) / 1_000_000;
            all[1][i] = Long.parseLong(answer[1]) / 1024;
            all[2][i] = Long.parseLong(answer[0]);
        }
        Arrays.stream(all).forEach(Arrays::sort);
        System.out.printf(
                "%-13s %5d (%d..%d) %15d %10d%n",
                label, all[0][runs / 2], all[0][0], all[0][runs - 1], all[1][runs / 2], all[2][runs / 2]);
    }

    private static String run(String classPath, String way, List<String> options) throws Exception {
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-Xshare:auto"));
        command.addAll(options);
        command.addAll(List.of("-cp", classPath, RuleStart.class.getName(), "way", way));
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip();
        int exit = process.waitFor();
        if (exit != 0) {
            throw new IllegalStateException("way " + way + " ended with " + exit);
        }
        return out.lines().reduce((first, last) -> last).orElseThrow();
    }

    /** A class archive only takes classes from jars, so folders on the class path are packed first. */
    private static String jars(Path work) throws IOException {
        List<String> out = new ArrayList<>();
        for (String entry : System.getProperty("java.class.path").split(File.pathSeparator)) {
            Path path = Path.of(entry);
            if (Files.isDirectory(path)) {
                Path jar = work.resolve(out.size() + ".jar");
                pack(path, jar);
                out.add(jar.toString());
            } else {
                out.add(entry);
            }
        }
        return String.join(File.pathSeparator, out);
    }

    private static void pack(Path folder, Path jar) throws IOException {
        try (OutputStream out = Files.newOutputStream(jar);
                JarOutputStream packed = new JarOutputStream(out);
                Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.filter(Files::isRegularFile).toList()) {
                packed.putNextEntry(new JarEntry(folder.relativize(file).toString()));
                packed.write(Files.readAllBytes(file));
                packed.closeEntry();
            }
        }
    }

    private static void delete(Path path) {
        try {
            Files.delete(path);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
