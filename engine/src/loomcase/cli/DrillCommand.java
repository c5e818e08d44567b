package loomcase.cli;

import java.util.concurrent.Callable;
import loomcase.InputProblem;
import picocli.CommandLine;

/** Drills: an instructor plants a fault, a student finds it. */
@CommandLine.Command(
        name = "drill",
        description = {
            "Plant a fault in an engine that is a circuit file, and find it as on a real one.",
            "Instructor: faults, plant, reveal, solve, class. Student: start, do, status, debrief."
        },
        synopsisSubcommandLabel = "COMMAND",
        commandListHeading = "%nCommands (each has its own --help):%n",
        subcommands = {
            DrillFaults.class,
            DrillPlant.class,
            DrillReveal.class,
            DrillSolve.class,
            DrillClass.class,
            DrillStart.class,
            DrillDo.class,
            DrillStatus.class,
            DrillDebrief.class
        },
        footer = {
            "",
            "Example:",
            "  loomcase drill start demo-cases/shop-floor.drill.json run.jsonl",
            "  loomcase drill do run.jsonl access open cover",
            "  loomcase drill do run.jsonl reading volts C1/1 chassis --unplugged C1 --at key-on"
        },
        mixinStandardHelpOptions = true)
final class DrillCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @Override
    public Integer call() {
        throw new InputProblem("say what to do with drills: "
                + String.join(", ", spec.commandLine().getSubcommands().keySet()));
    }
}
