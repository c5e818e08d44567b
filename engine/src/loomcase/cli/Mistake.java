package loomcase.cli;

import java.util.List;
import picocli.CommandLine;

/** What the command line parser has to say about a user's mistake, as one sentence with a likely remedy. */
final class Mistake {
    private Mistake() {}

    static String of(CommandLine.ParameterException problem) {
        String command = problem.getCommandLine().getCommandSpec().qualifiedName();
        return sentence(problem) + "; see '" + command + " --help'";
    }

    private static String sentence(CommandLine.ParameterException problem) {
        if (problem instanceof CommandLine.UnmatchedArgumentException u) return unmatched(u);
        List<String> unmatched = problem.getCommandLine().getUnmatchedArguments();
        // A misspelt option is the cause of the missing one, so it comes first.
        if (problem instanceof CommandLine.MissingParameterException && !unmatched.isEmpty())
            return unmatched(new CommandLine.UnmatchedArgumentException(problem.getCommandLine(), unmatched));
        String text = problem.getMessage()
                .replaceFirst("is not an? (int|long)$", "is not a whole number")
                .replaceFirst("is not a double$", "is not a number")
                .replaceFirst("(?s)cannot convert ('.*') to BigDecimal \\(.*", "$1 is not a number such as 12.50")
                .replaceFirst(
                        "(?s)cannot convert ('.*') to class java.time.LocalDate \\(.*",
                        "$1 is no day of the calendar such as 2024-05-01");
        return text.isEmpty()
                ? "bad arguments"
                : text.substring(0, 1).toLowerCase(java.util.Locale.ROOT) + text.substring(1);
    }

    private static String unmatched(CommandLine.UnmatchedArgumentException problem) {
        String word = problem.getUnmatched().get(0);
        boolean top = problem.getCommandLine().getParent() == null;
        String what = problem.isUnknownOption() || word.startsWith("-")
                ? "unknown option '" + word + "'"
                : top ? "unknown command '" + word + "'" : "'" + word + "' is one argument too many";
        List<String> near = problem.getSuggestions();
        return near.isEmpty()
                ? what
                : what + " (did you mean " + String.join(" or ", near.subList(0, Math.min(2, near.size()))) + "?)";
    }
}
