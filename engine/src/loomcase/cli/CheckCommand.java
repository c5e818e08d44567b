package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.check.CircuitCheck;
import loomcase.journal.Digest;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;
import picocli.CommandLine;

/** Proves a circuit file, or a case, before it is trusted. */
@CommandLine.Command(
        name = "check",
        description = {
            "Prove that a circuit file can be trusted: wiring complete, healthy engine quiet, codes reachable.",
            "Prove that a case (a file ending in .jsonl) is as it was written and fits its circuit."
        },
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

    @CommandLine.Parameters(paramLabel = "CIRCUIT|CASE", description = "circuit file, or case file ending in .jsonl")
    private Path file;

    @CommandLine.Option(
            names = "--last",
            paramLabel = "DIGEST",
            description = "a digest of the case that was kept elsewhere, to show that no line before it was cut off")
    private String last;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        if (file.toString().endsWith(CaseInput.ENDING))
            return new CaseProof(file, out, spec.commandLine().getErr()).run(last());
        if (last != null) throw new InputProblem("--last goes with a case; " + file + " is checked as a circuit file");
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

    private Optional<Digest> last() {
        try {
            return Optional.ofNullable(last).map(Digest::new);
        } catch (IllegalArgumentException e) {
            throw new InputProblem("--last " + e.getMessage(), e);
        }
    }
}
