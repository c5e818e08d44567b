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
    private static final Pattern NO_FIELD =
            Pattern.compile("unable to resolve method using strict-mode: loomcase\\.policy\\.(\\w+)\\.(\\w+)\\(");
    private static final Pattern NO_FACT = Pattern.compile("Unable to resolve ObjectType '(\\w+)'");
    private static final Pattern NO_WORD =
            Pattern.compile("The method (\\w+)\\([^)]*\\) is undefined for the type \\w*Conclusions");
    private static final Pattern SYNTAX = Pattern.compile("\\[ERR \\d+] Line \\d+:\\d+ (.*)");
    private static final Pattern JAVA = Pattern.compile("Rule Compilation error (.*)");

    /** What is wrong after {@code then} often only follows from a condition that was not understood. */
    static final Comparator<KnowledgeBuilderResult> ROOT_FIRST = Comparator.comparing(
                    (KnowledgeBuilderResult problem) ->
                            JAVA.matcher(flat(problem.getMessage())).matches())
            .thenComparingInt(DrlComplaint::line);

    private DrlComplaint() {}

    /**
     * File, line, rule and what is wrong.
     *
     * @param heads where each rule starts; empty if not known yet
     * @param family whose facts the file may name
     */
    static String sentence(
            String file, Map<String, ShopFolder.Place> heads, Family family, KnowledgeBuilderResult problem) {
        int line = line(problem);
        String rule = heads.entrySet().stream()
                .filter(head ->
                        head.getValue().file().equals(file) && head.getValue().line() <= line)
                .max(Comparator.comparingInt(head -> head.getValue().line()))
                .map(head -> ": rule \"" + head.getKey() + "\"")
                .orElse("");
        return file + (line > 0 ? " line " + line : "") + rule + ": " + what(problem.getMessage(), family);
    }

    /** File, line and what is wrong with a text that is not DRL. */
    static String unreadable(String file, KnowledgeBuilderResult problem) {
        return sentence(file, Map.of(), Family.CODES, problem);
    }

    /** First line at fault, 0 where the compiler names none. */
    static int line(KnowledgeBuilderResult problem) {
        int[] lines = problem.getLines();
        return lines.length == 0 ? 0 : lines[0];
    }

    private static String what(String message, Family family) {
        String text = flat(message);
        Matcher field = NO_FIELD.matcher(text);
        if (field.find()) {
            return field.group(1) + " has no field \"" + field.group(2) + "\"; allowed are "
                    + fields(field.group(1), family);
        }
        Matcher fact = NO_FACT.matcher(text);
        if (fact.find()) {
            return "\"" + fact.group(1) + "\" is no fact; allowed are " + facts(family)
                    + ", each with its import line at the top of the file";
        }
        Matcher word = NO_WORD.matcher(text);
        if (word.find()) {
            return "\"" + word.group(1) + "\" is no word of conclude; allowed are " + String.join(", ", family.words());
        }
        for (Pattern pattern : List.of(SYNTAX, JAVA)) {
            Matcher match = pattern.matcher(text);
            if (match.matches()) {
                return "this cannot be read as a rule: " + match.group(1).strip();
            }
        }
        return text;
    }

    private static String flat(String message) {
        return message.replaceAll("\\s+", " ").strip();
    }

    private static String facts(Family family) {
        List<String> names = family.facts().stream().map(Class::getSimpleName).toList();
        return String.join(", ", names.subList(0, names.size() - 1)) + " and " + names.get(names.size() - 1);
    }

    private static String fields(String fact, Family family) {
        return family.facts().stream()
                .filter(type -> type.getSimpleName().equals(fact))
                .flatMap(type -> Arrays.stream(type.getRecordComponents()))
                .map(component -> component.getName())
                .collect(Collectors.joining(", "));
    }
}
