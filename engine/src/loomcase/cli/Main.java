package loomcase.cli;

import loomcase.InputProblem;
import picocli.CommandLine;

/** The command line: finds the command, prints user mistakes as one line, and sets the exit code. */
@CommandLine.Command(
        name = "loomcase",
        description = "From engine trouble codes to the one place in the wiring harness that explains them.",
        mixinStandardHelpOptions = true,
        version = "loomcase 0.1.0",
        subcommands = {
            CheckCommand.class,
            CodesCommand.class,
            OpenCommand.class,
            RankCommand.class,
            RecordCommand.class,
            ShowCommand.class,
            WiresCommand.class
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:an answer", "1:not settled, or a check failed", "2:bad input", "3:a fault in Loomcase itself"
        })
public final class Main {
    /** Exit code of an answer. */
    static final int ANSWER = 0;

    /** Exit code when the evidence does not settle the matter, or a check fails. */
    static final int NOT_SETTLED = 1;

    /** Exit code of bad input. */
    static final int BAD_INPUT = 2;

    /** Exit code when Loomcase itself fails; the launcher uses it too when the build does. */
    static final int OWN_FAULT = 3;

    public static void main(String[] arguments) {
        System.exit(run(arguments));
    }

    /** Runs a command and returns its exit code. */
    static int run(String... arguments) {
        return run(new CommandLine(new Main()), arguments);
    }

    /** The same with a command line whose output was redirected. */
    static int run(CommandLine line, String... arguments) {
        line.setExecutionExceptionHandler((problem, command, parsed) -> {
            if (problem instanceof InputProblem) {
                command.getErr().println("loomcase: " + problem.getMessage());
                return BAD_INPUT;
            }
            command.getErr()
                    .println("loomcase: a fault in Loomcase itself, not in your files: " + problem
                            + "; set LOOMCASE_TRACE=1 to see where");
            if (System.getenv("LOOMCASE_TRACE") != null) problem.printStackTrace(command.getErr());
            return OWN_FAULT;
        });
        if (arguments.length == 0) {
            line.usage(line.getOut());
            return BAD_INPUT;
        }
        return line.execute(arguments);
    }
}
