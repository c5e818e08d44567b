package loomcase.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.casework.OpenCase;
import loomcase.json.ProofJson;
import loomcase.proof.Proof;
import loomcase.proof.ProofDocument;
import loomcase.proof.ProofReport;
import picocli.CommandLine;

/** Says whether a repair is proven. */
@CommandLine.Command(
        name = "proof",
        description = {
            "Say what must be measured and seen so that a case may be closed, and whether it was: proven, not proven, or"
                    + " disproven.",
            "Codes seen after the work are ranked with the work as evidence: a slip of the work is found from its codes."
        },
        footer = {
            "",
            "Examples:",
            "  loomcase proof demo-cases/five-volt-repaired.jsonl",
            "  loomcase proof case.jsonl --pdf proof.pdf"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:proven",
            "1:not proven, or disproven",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class ProofCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "CASE", description = "case file")
    private Path file;

    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Mixin
    private SheetOutput output;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        input.refuseCircuit();
        OpenCase open = input.casework().open(file);
        ProofReport report =
                ProofReport.of(open.circuit(), open.bench().layout(), open.journal(), () -> ProgressLine.watch(
                                open.answer(), spec.commandLine().getErr())
                        .ranking());
        output.write(
                ProofDocument.of(report, output.date()),
                ProofJson.of(report),
                spec.commandLine().getOut());
        return report.proof().status() == Proof.Status.PROVEN ? Main.ANSWER : Main.NOT_SETTLED;
    }
}
