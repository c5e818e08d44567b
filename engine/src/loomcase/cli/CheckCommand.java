package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import loomcase.check.CircuitCheck;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;
import picocli.CommandLine;

/** Proves a circuit file before it is trusted. */
@CommandLine.Command(
        name = "check",
        description =
                "Prove that a circuit file can be trusted: wiring complete, healthy engine quiet, codes reachable.",
        footer = {"", "Example:", "  loomcase check circuits/teaching.json"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:proved",
            "1:problems, one a line",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class CheckCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(paramLabel = "CIRCUIT", description = "circuit file")
    private Path file;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        Circuit circuit = CircuitReader.read(file);
        ProgressLine progress = ProgressLine.of("checking", spec.commandLine().getErr());
        List<String> problems =
                CircuitCheck.problems(circuit, CircuitInput.policy(circuit, Optional.empty()), progress::share);
        progress.clear();
        for (String problem : problems) out.println(file + ": " + problem);
        out.println(
                problems.isEmpty()
                        ? file + ": proved. " + circuit.wires().size() + " wires, "
                                + circuit.devices().size() + " devices, "
                                + circuit.branches().size() + " branches, "
                                + circuit.watches().size() + " watches."
                        : file + ": " + (problems.size() == 1 ? "1 problem" : problems.size() + " problems"));
        return problems.isEmpty() ? Main.ANSWER : Main.NOT_SETTLED;
    }
}
