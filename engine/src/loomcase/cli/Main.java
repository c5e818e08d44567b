package loomcase.cli;

import java.io.BufferedWriter;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import loomcase.InputProblem;
import picocli.CommandLine;

/** The command line: finds the command, prints user mistakes as one line, and sets the exit code. */
@CommandLine.Command(
        name = "loomcase",
        description = "From engine trouble codes to the one place in the wiring harness that explains them.",
        version = "loomcase 0.9.0",
        subcommands = {
            RankCommand.class,
            CodesCommand.class,
            OpenCommand.class,
            RecordCommand.class,
            NextCommand.class,
            VerdictCommand.class,
            ShowCommand.class,
            JobCommand.class,
            FitCommand.class,
            ClaimCommand.class,
            ProofCommand.class,
            FleetCommand.class,
            CheckCommand.class,
            DrillCommand.class,
            WiresCommand.class,
            ServeCommand.class,
            StudyCommand.class
        },
        synopsisSubcommandLabel = "COMMAND ...",
        commandListHeading = "%nCommands (each has its own --help):%n",
        footer = {
            "",
            "Examples:",
            "  loomcase rank --circuit circuits/teaching.json --codes 110/3,100/4",
            "  loomcase codes demo-cases/five-volt-splice-open.log"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:an answer",
            "1:not settled, or a check failed",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
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

    /** Environment variable that asks for the stack trace of a fault in Loomcase itself. */
    private static final String TRACE = "LOOMCASE_TRACE";

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Option(
            names = {"-V", "--version"},
            versionHelp = true,
            description = "show the version and stop")
    private boolean version;

    public static void main(String[] arguments) {
        Output stdout = new Output(new FileOutputStream(FileDescriptor.out));
        PrintWriter out = utf8(stdout);
        PrintWriter err = utf8(new FileOutputStream(FileDescriptor.err));
        int code = run(out, err, arguments);
        out.flush();
        Optional<String> lost = stdout.problem();
        lost.ifPresent(why -> err.println("loomcase: the answer could not be written to the output: " + why));
        err.flush();
        System.exit(lost.isPresent() ? BAD_INPUT : code);
    }

    /** JSON is UTF-8 by its standard, whatever the machine's language; text follows, so that a log of both is readable. */
    private static PrintWriter utf8(OutputStream to) {
        return new PrintWriter(new BufferedWriter(new OutputStreamWriter(to, StandardCharsets.UTF_8)), false);
    }

    /** Runs a command with its output sent elsewhere and returns its exit code. */
    static int run(PrintWriter out, PrintWriter err, String... arguments) {
        try {
            return run(
                    only(HeadStart.of(arguments), arguments)
                            .orElseGet(() -> new CommandLine(new Main()))
                            .setOut(out)
                            .setErr(err),
                    arguments);
        } catch (Exception | OutOfMemoryError | StackOverflowError | LinkageError problem) {
            return ownFault(problem, err, System.getenv(TRACE) != null);
        }
    }

    /** The program with one command: to make the options of all of them known takes longer than many a command. */
    @CommandLine.Command(name = "loomcase")
    private static final class Root {}

    /** A command line that knows just the command named first; empty when no command is. */
    private static Optional<CommandLine> only(HeadStart headStart, String... arguments) {
        if (arguments.length == 0) return Optional.empty();
        for (Class<?> command :
                Main.class.getAnnotation(CommandLine.Command.class).subcommands())
            if (command.getAnnotation(CommandLine.Command.class).name().equals(arguments[0]))
                return Optional.of(new CommandLine(new Root(), factory(headStart)).addSubcommand(command));
        return Optional.empty();
    }

    private static CommandLine.IFactory factory(HeadStart headStart) {
        CommandLine.IFactory usual = CommandLine.defaultFactory();
        return new CommandLine.IFactory() {
            @Override
            public <T> T create(Class<T> type) throws Exception {
                return type == CircuitInput.class ? type.cast(new CircuitInput(headStart)) : usual.create(type);
            }
        };
    }

    /** The same with a command line that has its output set. */
    static int run(CommandLine line, String... arguments) {
        line.setExpandAtFiles(false);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setUsageHelpWidth(Page.columns());
        line.setParameterExceptionHandler((problem, given) -> {
            line.getErr().println(oneLine("loomcase: " + Mistake.of(problem)));
            return BAD_INPUT;
        });
        line.setExecutionExceptionHandler((problem, command, parsed) -> {
            if (!(problem instanceof InputProblem))
                return ownFault(problem, command.getErr(), System.getenv(TRACE) != null);
            command.getErr().println(oneLine("loomcase: " + problem.getMessage()));
            return BAD_INPUT;
        });
        if (arguments.length == 0) {
            line.getErr()
                    .println("loomcase: no command is given; commands are "
                            + String.join(", ", line.getSubcommands().keySet()) + "; see 'loomcase --help'");
            return BAD_INPUT;
        }
        return line.execute(arguments);
    }

    /** Says in one line that Loomcase failed; the trace is for whoever mends it. */
    static int ownFault(Throwable problem, PrintWriter err, boolean trace) {
        String what = problem.getMessage() == null ? problem.getClass().getSimpleName() : problem.getMessage();
        if (problem instanceof OutOfMemoryError) what = "out of memory (" + what + ")";
        err.println(oneLine("loomcase: internal error: " + what + "; please report it with the command you ran"));
        if (trace) problem.printStackTrace(err);
        return OWN_FAULT;
    }

    private static String oneLine(String text) {
        return text.strip().replaceAll("\\s*\\R\\s*", " ");
    }
}
