package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.Ending;
import loomcase.drill.Request;
import loomcase.drill.Run;
import loomcase.drill.RunFile;
import picocli.CommandLine;

/** Does one thing in a run; each kind is a command below this one, with the words of {@code record}. */
@CommandLine.Command(
        name = "do",
        description = {
            "Do one thing in a run. The words are those of 'record', without the outcome: that is what you learn.",
            "Everything costs minutes, some things money. Harmful tests do their harm."
        },
        synopsisSubcommandLabel = "KIND",
        subcommands = {
            DoReading.class,
            DoWatched.class,
            DoMoved.class,
            DoSeen.class,
            DoSwapped.class,
            DoGauged.class,
            DoAccess.class,
            DoCodes.class,
            DoWork.class,
            DoHint.class,
            DoClaim.class,
            DoGiveUp.class,
            DoNote.class
        },
        mixinStandardHelpOptions = true)
final class DrillDo implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "RUN", description = "run file")
    private Path file;

    @CommandLine.Mixin
    private StampInput stamp;

    @Override
    public Integer call() {
        throw new InputProblem("say what to do: "
                + String.join(", ", spec.commandLine().getSubcommands().keySet()));
    }

    int act(DoKind kind) {
        RunFile run = RunFile.open(new Casework(Shop.BUILT_IN), file);
        Request request;
        try {
            request = kind.request(run.workshop().check().names());
        } catch (IllegalArgumentException e) {
            throw new InputProblem(e.getMessage(), e);
        }
        PrintWriter err = spec.commandLine().getErr();
        run.journal().notices().forEach(n -> err.println("loomcase: " + n));
        Run.Step step = run.act(request, stamp.stamp());
        new DrillText(Page.of(spec.commandLine().getOut())).step(run, step);
        boolean claimedWrongly = request instanceof Request.Claim
                && run.run().ending().filter(e -> e != Ending.SOLVED).isPresent();
        return claimedWrongly ? Main.NOT_SETTLED : Main.ANSWER;
    }
}
