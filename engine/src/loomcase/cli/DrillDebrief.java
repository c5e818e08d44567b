package loomcase.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.Debrief;
import loomcase.drill.RunFile;
import loomcase.json.DrillReport;
import picocli.CommandLine;

/** Looks back at a run that is over. */
@CommandLine.Command(
        name = "debrief",
        description = "Look back at a run that is over: step by step, beside what the planner would have done.",
        footer = {"", "Example:", "  loomcase drill debrief run.jsonl"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:the debrief", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class DrillDebrief implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(paramLabel = "RUN", description = "run file")
    private Path file;

    @CommandLine.Option(names = "--json", description = "the answer for a program")
    private boolean json;

    @Override
    public Integer call() {
        RunFile run = RunFile.open(new Casework(Shop.BUILT_IN), file);
        Debrief debrief = Debrief.of(run);
        if (json)
            DrillReport.of(debrief, run.bench().circuit().costs())
                    .print(spec.commandLine().getOut());
        else
            new DrillText(Page.of(spec.commandLine().getOut()))
                    .debrief(debrief, run.bench().circuit().costs());
        return Main.ANSWER;
    }
}
