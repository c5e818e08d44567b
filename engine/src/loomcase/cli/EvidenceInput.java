package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import loomcase.InputProblem;
import loomcase.casework.Answer;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.intake.Intake;
import loomcase.j1939.CodeList;
import loomcase.model.Circuit;
import picocli.CommandLine;

/** What is known, for commands that answer from a case, from typed codes or from a log. */
final class EvidenceInput {
    @CommandLine.Parameters(
            paramLabel = "CASE",
            arity = "0..1",
            description = "case file, instead of --circuit with --codes or --log")
    private Path file;

    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Option(
            names = "--codes",
            paramLabel = "SPN/FMI,...",
            description = "active codes, with counts where known: 110/3,100/4x2")
    private String codes = "";

    @CommandLine.Option(
            names = "--stored",
            paramLabel = "SPN/FMI,...",
            description = "codes stored but not active, in the same form")
    private String stored = "";

    @CommandLine.Option(
            names = "--log",
            paramLabel = "FILE",
            description = "take the codes from a CAN log in a candump text form instead")
    private Path log;

    @CommandLine.Mixin
    private LogInput logInput;

    @CommandLine.Option(
            names = "--at",
            paramLabel = "POINT,...",
            split = ",",
            hideParamSyntax = true,
            description = "operating points at which codes were looked for, such as key-on,idle-warm")
    private List<String> at = List.of();

    /**
     * The evidence with its ranking made, progress shown meanwhile.
     *
     * @throws InputProblem when options do not go together or something cannot be read
     */
    Answer answer(PrintWriter err) {
        return ProgressLine.watch(asked(err), err);
    }

    /** The same with every pair of faults that can matter weighed. */
    Answer answerWithAllPairs(PrintWriter err) {
        return ProgressLine.watchAllPairs(asked(err), err);
    }

    private Answer asked(PrintWriter err) {
        consistent();
        Casework casework = input.casework();
        return file == null
                ? typed(input.circuit(casework), err)
                : casework.open(file).answer();
    }

    private Answer typed(Bench bench, PrintWriter err) {
        Circuit circuit = bench.circuit();
        return bench.answer(
                log == null
                        ? Intake.typed(circuit, CodeList.parse(codes), CodeList.parse(stored), at)
                        : Intake.fromLog(circuit, logInput.read(log, err), at));
    }

    /** Options that do not go together are refused: one of them would be passed over in silence. */
    private void consistent() {
        if (file != null) {
            if (log != null || !codes.isBlank() || !stored.isBlank() || !at.isEmpty() || input.given())
                throw new InputProblem(
                        "a case brings its own circuit and codes; leave out --circuit, --codes, --stored, --log"
                                + " and --at");
            return;
        }
        if ((log == null) == (codes.isBlank() && stored.isBlank()))
            throw new InputProblem("give either --log FILE or --codes SPN/FMI,... (with --stored if any)");
        if (log == null && logInput.given())
            throw new InputProblem("--layout says how to read a log; give it with --log or leave it out");
    }
}
