package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.OpenCase;
import loomcase.drill.RunFile;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.model.read.Cursor;
import picocli.CommandLine;

/** Adds a line to a case; each kind of line is a command below this one. */
@CommandLine.Command(
        name = "record",
        description =
                "Add what was seen or done to a case. Lines are never changed; a wrong one is corrected by a new one.",
        synopsisSubcommandLabel = "KIND",
        subcommands = {
            RecordCodes.class,
            RecordReading.class,
            RecordWatched.class,
            RecordMoved.class,
            RecordSeen.class,
            RecordSwapped.class,
            RecordGauged.class,
            RecordAccess.class,
            RecordWork.class,
            RecordRefused.class,
            RecordPhoto.class,
            RecordKept.class,
            RecordPart.class,
            RecordChose.class,
            RecordApproved.class,
            RecordNote.class,
            CorrectCommand.class
        },
        mixinStandardHelpOptions = true)
final class RecordCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "CASE", description = "case file")
    private Path file;

    @CommandLine.Mixin
    private StampInput stamp;

    @CommandLine.Option(
            names = "--confirm",
            scope = CommandLine.ScopeType.INHERIT,
            description = "record it although it is odd; the oddity is written down with it")
    private boolean confirm;

    @Override
    public Integer call() {
        throw new InputProblem("say what to record: "
                + String.join(", ", spec.commandLine().getSubcommands().keySet()));
    }

    /** The case that lines are added to. */
    Path file() {
        return file;
    }

    /** Adds what a kind makes of the typed words, or lets it stand in place of an earlier line. */
    int add(RecordKind kind, OptionalInt corrects) {
        OpenCase input = kind.input(file);
        if (RunFile.isRun(input.journal()))
            throw new InputProblem(
                    file + " is the run of a drill, whose engine gives the outcome; use: drill do " + file);
        OpenCase.Recorded recorded =
                input.record(fact(kind, input, corrects), stamp.stamp(), confirm, Optional.empty());
        PrintWriter err = spec.commandLine().getErr();
        if (recorded instanceof OpenCase.NeedsConfirmation odd) {
            err.println("loomcase: not recorded: " + odd.reason() + "; if it is so, repeat with --confirm");
            return Main.NOT_SETTLED;
        }
        JournalFile.Added added = ((OpenCase.Added) recorded).added();
        added.notices().forEach(n -> err.println("loomcase: " + n));
        spec.commandLine()
                .getOut()
                .println(file + ": line " + added.entry().n() + " recorded: "
                        + Cursor.oneLine(added.entry().fact().toString()));
        return Main.ANSWER;
    }

    private static Fact fact(RecordKind kind, OpenCase input, OptionalInt corrects) {
        try {
            Fact fact = kind.fact(input);
            return corrects.isPresent() ? new Fact.Correction(corrects.getAsInt(), fact) : fact;
        } catch (IllegalArgumentException e) {
            throw new InputProblem("not recorded: " + e.getMessage(), e);
        }
    }
}
