package loomcase.cli;

import java.util.OptionalInt;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import picocli.CommandLine;

/** Adds a line that stands in place of an earlier one. */
@CommandLine.Command(
        name = "correct",
        description = "Say what line N should have said. The old line stays in the file; the new one holds.",
        synopsisSubcommandLabel = "KIND",
        subcommands = {
            RecordOpened.class,
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
            RecordNote.class
        },
        mixinStandardHelpOptions = true)
final class CorrectCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "N", description = "number of the line that was wrong")
    private int line;

    @Override
    public Integer call() {
        throw new InputProblem("say what line " + line + " should have said: "
                + String.join(", ", spec.commandLine().getSubcommands().keySet())
                + "; a note if nothing should stand there");
    }

    int add(RecordKind kind) {
        return ((RecordCommand) spec.parent().userObject()).add(kind, OptionalInt.of(line));
    }
}
