package loomcase.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.DrillFile;
import loomcase.drill.RunFile;
import picocli.CommandLine;

/** Starts a student's run. */
@CommandLine.Command(
        name = "start",
        description = "Start a run of a drill: a new file that keeps what you do, line by line.",
        footer = {"", "Example:", "  loomcase drill start a.drill.json run.jsonl --by ada"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:started", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class DrillStart implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(index = "0", paramLabel = "DRILL", description = "drill file")
    private Path drill;

    @CommandLine.Parameters(index = "1", paramLabel = "RUN", description = "new run file, ending in .jsonl")
    private Path file;

    @CommandLine.Mixin
    private StampInput stamp;

    @Override
    public Integer call() {
        RunFile run = RunFile.start(new Casework(Shop.BUILT_IN), DrillFile.read(drill), file, stamp.stamp());
        new DrillText(Page.of(spec.commandLine().getOut())).status(run);
        return Main.ANSWER;
    }
}
