package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.casework.CaseCheck;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.check.CircuitCheck;
import loomcase.journal.Digest;
import loomcase.journal.Journal;
import loomcase.model.Circuit;
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
        if (file.toString().endsWith(CaseFile.ENDING))
            return caseFile(out, spec.commandLine().getErr());
        if (last != null) throw new InputProblem("--last goes with a case; " + file + " is checked as a circuit file");
        Bench bench = new Casework(Shop.BUILT_IN).circuit(file);
        Circuit circuit = bench.circuit();
        ProgressLine progress = ProgressLine.of("checking", spec.commandLine().getErr());
        List<String> problems = CircuitCheck.problems(circuit, bench.policy(), progress::share);
        progress.clear();
        return end(
                out,
                problems,
                "proved. " + circuit.wires().size() + " wires, "
                        + circuit.devices().size() + " devices, "
                        + circuit.branches().size() + " branches, "
                        + circuit.watches().size() + " watches.");
    }

    private int caseFile(PrintWriter out, PrintWriter err) {
        CaseCheck check = CaseCheck.of(file, last());
        check.journal().stream().flatMap(j -> j.notices().stream()).forEach(n -> err.println("loomcase: " + n));
        return end(
                out, check.problems(), check.journal().map(CheckCommand::sound).orElse(""));
    }

    private static String sound(Journal journal) {
        long corrected = journal.standing().stream()
                .filter(s -> s.correctedBy().isPresent())
                .count();
        return "sound. " + journal.entries().size() + " lines, " + corrected + " corrected. Last digest "
                + journal.last() + ".";
    }

    private int end(PrintWriter out, List<String> problems, String good) {
        for (String problem : problems) out.println(file + ": " + problem);
        out.println(file + ": "
                + (problems.isEmpty() ? good : problems.size() == 1 ? "1 problem" : problems.size() + " problems"));
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
