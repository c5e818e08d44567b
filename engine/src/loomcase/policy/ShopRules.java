package loomcase.policy;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** A shop's own rules, compiled, with the names of the built-in rules that they set aside. */
final class ShopRules {
    private final RuleBase rules;
    private final Map<String, ShopFolder.Place> heads;
    private final Set<String> off;

    private ShopRules(RuleBase rules, Map<String, ShopFolder.Place> heads, Set<String> off) {
        this.rules = rules;
        this.heads = heads;
        this.off = off;
    }

    /**
     * Reads and compiles a shop's folder.
     *
     * @throws PolicyProblem if it cannot be used
     */
    static ShopRules read(Path folder, Set<String> builtInNames) {
        ShopFolder read = ShopFolder.read(folder);
        Set<String> known = new TreeSet<>(builtInNames);
        known.addAll(read.heads().keySet());
        return new ShopRules(ShopCompiler.compile(read), read.heads(), read.off(known));
    }

    /** Whether a built-in rule of this name gives way. */
    boolean displaces(String builtInRule) {
        return off.contains(builtInRule) || heads.containsKey(builtInRule);
    }

    /**
     * What the shop's rules say, without those turned off.
     *
     * @throws PolicyProblem if a rule says something that cannot be
     */
    Conclusions run(List<WatchedCode> codes, List<PlaceFact> places, List<HarmFact> harms) {
        Conclusions conclusions = new Conclusions();
        try {
            rules.run(codes, places, harms, off, conclusions);
        } catch (RuntimeException e) {
            throw new PolicyProblem(at(conclusions.speaker()) + deepest(e).getMessage());
        }
        requireOneVoice(conclusions.readings());
        return conclusions;
    }

    private void requireOneVoice(List<FmiReading> readings) {
        Map<String, Set<String>> speakers = readings.stream()
                .collect(Collectors.groupingBy(
                        reading -> "\"" + reading.circuitKind() + "\" condition " + reading.conditionFmi(),
                        Collectors.mapping(FmiReading::rule, Collectors.toCollection(TreeSet::new))));
        Map<String, Double> totals = readings.stream()
                .collect(Collectors.groupingBy(
                        reading -> "\"" + reading.circuitKind() + "\" condition " + reading.conditionFmi(),
                        Collectors.summingDouble(FmiReading::weight)));
        new TreeSet<>(totals.keySet()).forEach(key -> {
            if (totals.get(key) > 1 + 1e-9) {
                throw new PolicyProblem(at(speakers.get(key).iterator().next()) + "how " + key
                        + " is shown is said twice (by " + String.join(" and ", speakers.get(key))
                        + "); allowed is one rule that says it once");
            }
        });
    }

    private String at(String rule) {
        ShopFolder.Place head = heads.get(rule);
        return head == null
                ? "shop rules: a condition cannot be checked: "
                : head.file() + " line " + head.line() + ": rule \"" + rule + "\": ";
    }

    private static Throwable deepest(Throwable problem) {
        return problem.getCause() == null ? problem : deepest(problem.getCause());
    }
}
