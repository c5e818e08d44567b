package loomcase.policy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.drools.compiler.kie.builder.impl.InternalKieModule;
import org.drools.model.codegen.ExecutableModelProject;
import org.kie.api.KieServices;
import org.kie.api.builder.KieBuilder;
import org.kie.api.builder.KieFileSystem;
import org.kie.api.builder.Message;

/**
 * Build step: turns the built-in DRL files into Java classes, so that the program need not compile them at every start.
 *
 * <p>The build runs it after the Java compiler; the program itself never does, and the library it needs is left out of
 * the delivery. The figures that led to this are those of the {@code RuleStart} benchmark.
 */
public final class RuleCompiler {
    private RuleCompiler() {}

    /**
     * Compiles every family of rules of which a DRL file, or a class that it names, has changed.
     *
     * @param arguments folder of DRL files, then folder for the classes
     * @throws IOException if a file cannot be read or written
     * @throws IllegalStateException if a rule does not compile; the message lists file and line
     */
    public static void main(String[] arguments) throws IOException {
        Path classes = Path.of(arguments[1]);
        Map<Family, List<Path>> rules = byFamily(drlFiles(Path.of(arguments[0])));
        Path stamp = classes.resolveSibling("rules-compiled-from.txt");
        List<String> before = Files.exists(stamp) ? Files.readAllLines(stamp) : List.of();
        List<String> now = new ArrayList<>();
        for (Family family : Family.values()) {
            String digest = family.word() + " " + digest(family, rules.getOrDefault(family, List.of()), classes);
            if (!before.contains(digest) || !Files.exists(resource(classes, family.models()))) {
                // A compilation that fails half-way must not be taken for done.
                Files.deleteIfExists(stamp);
                write(family, rules.getOrDefault(family, List.of()), classes);
            }
            now.add(digest);
        }
        Files.write(stamp, now);
    }

    private static Map<Family, List<Path>> byFamily(List<Path> files) throws IOException {
        Map<Family, List<Path>> sorted = new EnumMap<>(Family.class);
        for (Path file : files) {
            Family family = DrlHeads.family(file.getFileName().toString(), Files.readString(file));
            sorted.computeIfAbsent(family, any -> new ArrayList<>()).add(file);
        }
        return sorted;
    }

    private static void write(Family family, List<Path> rules, Path classes) throws IOException {
        String folder = family.drlPackage().replace('.', '/');
        removeEarlier(classes.resolve(folder));
        List<String> models = new ArrayList<>();
        InternalKieModule module = compile(rules);
        for (String name : module.getFileNames()) {
            if (name.startsWith(folder) && name.endsWith(".class")) {
                Path file = classes.resolve(name);
                Files.createDirectories(file.getParent());
                Files.write(file, module.getBytes(name));
            } else if (name.endsWith("/drools-model")) {
                // Its first line is the version of the rule engine, the others are the classes that start the rules.
                new String(module.getBytes(name), StandardCharsets.UTF_8)
                        .lines()
                        .skip(1)
                        .forEach(models::add);
            }
        }
        Files.createDirectories(resource(classes, family.models()).getParent());
        Files.write(resource(classes, family.ruleNames()), ruleNames(rules));
        Files.write(resource(classes, family.models()), models);
    }

    private static Path resource(Path classes, String resource) {
        return classes.resolve(resource.substring(1));
    }

    private static List<String> ruleNames(List<Path> rules) throws IOException {
        Map<String, String> texts = new TreeMap<>();
        for (Path file : rules) texts.put(file.getFileName().toString(), Files.readString(file));
        return List.copyOf(DrlHeads.of(texts).keySet());
    }

    private static List<Path> drlFiles(Path folder) throws IOException {
        try (Stream<Path> found = Files.list(folder)) {
            return found.filter(file -> file.toString().endsWith(".drl"))
                    .sorted()
                    .toList();
        }
    }

    /** SHA-256 of all that the outcome depends on: the rules, the classes they name, and the rule engine. */
    private static String digest(Family family, List<Path> rules, Path classes) throws IOException {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            for (Path rule : rules) {
                digest.update(rule.getFileName().toString().getBytes(StandardCharsets.UTF_8));
                digest.update(Files.readAllBytes(rule));
            }
            for (Class<?> named : family.named()) {
                digest.update(Files.readAllBytes(classes.resolve(named.getName().replace('.', '/') + ".class")));
            }
            digest.update(KieServices.class
                    .getProtectionDomain()
                    .getCodeSource()
                    .getLocation()
                    .toString()
                    .getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    private static InternalKieModule compile(List<Path> rules) throws IOException {
        KieServices services = KieServices.get();
        KieFileSystem files = services.newKieFileSystem();
        for (Path file : rules) {
            files.write("src/main/resources/rules/" + file.getFileName(), Files.readString(file));
        }
        KieBuilder builder = services.newKieBuilder(files).buildAll(ExecutableModelProject.class);
        if (builder.getResults().hasMessages(Message.Level.ERROR)) {
            throw new IllegalStateException(builder.getResults().getMessages(Message.Level.ERROR).stream()
                    .map(message -> message.getPath() + " line " + message.getLine() + ": " + message.getText())
                    .collect(Collectors.joining("\n")));
        }
        return (InternalKieModule) builder.getKieModule();
    }

    /** Class names hold a digest of the rules, so classes of an earlier state would stay behind. */
    private static void removeEarlier(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return;
        }
        try (Stream<Path> found = Files.walk(folder)) {
            for (Path path : found.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        }
    }
}
