package loomcase.policy;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.kie.internal.builder.KnowledgeBuilderResult;

/** Turns a complaint of the rule compiler into one sentence that a foreman can act on. */
final class DrlComplaint {
    private static final List<Class<? extends Record>> FACTS = List.of(WatchedCode.class, PlaceFact.class);
    private static final Pattern NO_FIELD =
            Pattern.compile("unable to resolve method using strict-mode: loomcase\\.policy\\.(\\w+)\\.(\\w+)\\(");
    private static final Pattern NO_FACT = Pattern.compile("Unable to resolve ObjectType '(\\w+)'");
    private static final Pattern SYNTAX = Pattern.compile("\\[ERR \\d+] Line \\d+:\\d+ (.*)");
    private static final Pattern JAVA = Pattern.compile("Rule Compilation error (.*)");

    private DrlComplaint() {}

    /**
     * File, line, rule and what is wrong.
     *
     * @param heads where each rule starts; empty if not known yet
     */
    static String sentence(String file, Map<String, ShopFolder.Place> heads, KnowledgeBuilderResult problem) {
        int line = line(problem);
        String rule = heads.entrySet().stream()
                .filter(head ->
                        head.getValue().file().equals(file) && head.getValue().line() <= line)
                .max(Comparator.comparingInt(head -> head.getValue().line()))
                .map(head -> ": rule \"" + head.getKey() + "\"")
                .orElse("");
        return file + (line > 0 ? " line " + line : "") + rule + ": " + what(problem.getMessage());
    }

    /** First line at fault, 0 where the compiler names none. */
    static int line(KnowledgeBuilderResult problem) {
        int[] lines = problem.getLines();
        return lines.length == 0 ? 0 : lines[0];
    }

    private static String what(String message) {
        String text = message.replaceAll("\\s+", " ").strip();
        Matcher field = NO_FIELD.matcher(text);
        if (field.find()) {
            return field.group(1) + " has no field \"" + field.group(2) + "\"; allowed are " + fields(field.group(1));
        }
        Matcher fact = NO_FACT.matcher(text);
        if (fact.find()) {
            String allowed = FACTS.stream().map(Class::getSimpleName).collect(Collectors.joining(" and "));
            return "\"" + fact.group(1) + "\" is no fact; allowed are " + allowed
                    + ", each with its import line at the top of the file";
        }
        for (Pattern pattern : List.of(SYNTAX, JAVA)) {
            Matcher match = pattern.matcher(text);
            if (match.matches()) {
                return "this cannot be read as a rule: " + match.group(1).strip();
            }
        }
        return text;
    }

    private static String fields(String fact) {
        return FACTS.stream()
                .filter(type -> type.getSimpleName().equals(fact))
                .flatMap(type -> Arrays.stream(type.getRecordComponents()))
                .map(component -> component.getName())
                .collect(Collectors.joining(", "));
    }
}
