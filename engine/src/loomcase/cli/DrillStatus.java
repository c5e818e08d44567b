package loomcase.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.RunFile;
import picocli.CommandLine;

/** Shows how a run stands. */
@CommandLine.Command(
        name = "status",
        description = "Show how a run stands: complaint, codes, clock, what is open, what was done.",
        footer = {"", "Example:", "  loomcase drill status run.jsonl"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:shown", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class DrillStatus implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(paramLabel = "RUN", description = "run file")
    private Path file;

    @Override
    public Integer call() {
        RunFile run = RunFile.open(new Casework(Shop.BUILT_IN), file);
        run.journal().notices().forEach(n -> spec.commandLine().getErr().println("loomcase: " + n));
        new DrillText(Page.of(spec.commandLine().getOut())).status(run);
        return Main.ANSWER;
    }
}
