package loomcase.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.CaseFile;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.journal.Machine;
import picocli.CommandLine;

/** Opens a case: a new file with its first line. */
@CommandLine.Command(
        name = "open",
        description = "Open a case: a new file that keeps, line by line, what is seen and done.",
        mixinStandardHelpOptions = true)
final class OpenCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "CASE", description = "new case file, ending in .jsonl")
    private Path file;

    @CommandLine.Option(names = "--circuit", required = true, paramLabel = "FILE", description = "circuit file")
    private Path circuit;

    @CommandLine.Option(
            names = "--complaint",
            required = true,
            paramLabel = "TEXT",
            description = "what the driver or customer says")
    private String complaint;

    @CommandLine.Option(names = "--unit", paramLabel = "ID", description = "id of the machine")
    private String unit;

    @CommandLine.Option(names = "--hours", paramLabel = "HOURS", description = "engine hours")
    private Double hours;

    @CommandLine.Mixin
    private MachineInput machine;

    @CommandLine.Mixin
    private StampInput stamp;

    @Override
    public Integer call() {
        if (!file.toString().endsWith(CaseFile.ENDING))
            throw new InputProblem(file + ": a case file ends in " + CaseFile.ENDING);
        Fact.CircuitFile named = CaseFile.name(file, circuit);
        Entry entry = JournalFile.create(file, opened(named), stamp.stamp());
        spec.commandLine()
                .getOut()
                .println(file + ": line 1 recorded: case opened for circuit " + named.id() + ", digest "
                        + entry.digest());
        return Main.ANSWER;
    }

    private Fact.Opened opened(Fact.CircuitFile named) {
        try {
            return new Fact.Opened(
                    named,
                    complaint,
                    Optional.ofNullable(unit),
                    hours == null ? OptionalDouble.empty() : OptionalDouble.of(hours),
                    machine.over(Machine.NOT_SAID));
        } catch (IllegalArgumentException e) {
            throw new InputProblem(e.getMessage(), e);
        }
    }
}
