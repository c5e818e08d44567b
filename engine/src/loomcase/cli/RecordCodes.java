package loomcase.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import loomcase.InputProblem;
import loomcase.casework.CaseFile;
import loomcase.casework.OpenCase;
import loomcase.intake.CodesTaken;
import loomcase.j1939.CodeList;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.j1939.log.CodesRead;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import loomcase.model.read.Cursor;
import picocli.CommandLine;

/** Codes, typed or from a log. */
@CommandLine.Command(name = "codes", description = "All codes that were read, typed or from a log.")
final class RecordCodes extends RecordKind {
    private static final List<String> LAMPS = List.of("malfunction", "red-stop", "amber-warning", "protect");

    @CommandLine.Parameters(
            arity = "0..1",
            paramLabel = "SPN/FMI,...",
            description = "active codes, with counts where known: 110/3,100/4x2; or none")
    private String active;

    @CommandLine.Option(names = "--stored", paramLabel = "SPN/FMI,...", description = "codes stored but not active")
    private String stored = "";

    @CommandLine.Option(names = "--log", paramLabel = "FILE", description = "CAN log in a candump text form")
    private Path log;

    @CommandLine.Option(
            names = "--at",
            paramLabel = "POINT",
            split = ",",
            description = "operating points at which codes were looked for, such as key-on,idle-warm")
    private List<String> at = List.of();

    @CommandLine.Option(
            names = "--lamps",
            paramLabel = "LAMP",
            split = ",",
            description = "lamps that were lit: malfunction, red-stop, amber-warning, protect; or none")
    private List<String> lamps = List.of();

    @CommandLine.Mixin
    private LogInput logInput;

    @Override
    Fact fact(OpenCase input) {
        boolean typed = active != null && !active.isBlank() || !stored.isBlank();
        if ((log == null) != typed)
            throw new InputProblem("give either the codes, such as 110/3x4, 'none' if there were none, or --log FILE");
        if (log != null && !lamps.isEmpty())
            throw new InputProblem("--lamps goes with typed codes; a log says itself which lamps are lit");
        return log == null ? typed(input) : fromLog(input);
    }

    private Fact typed(OpenCase input) {
        CodeList now = CodeList.parse(active == null || active.equals(NONE) ? "" : active);
        Optional<Lamps> lit = lamps.isEmpty() ? Optional.empty() : Optional.of(lit());
        return noted(CodesTaken.typed(input.circuit(), now, CodeList.parse(stored), at, lit));
    }

    private Fact fromLog(OpenCase input) {
        CodesRead read = logInput.read(log, err());
        Fact.LogFile file = new Fact.LogFile(CaseFile.fromFolderOf(input.file(), log), Digest.ofFile(log));
        return noted(CodesTaken.fromLog(input.circuit(), read, at, file));
    }

    private Fact noted(CodesTaken codes) {
        codes.notes().forEach(n -> err().println("loomcase: " + Cursor.oneLine(n)));
        return codes.fact();
    }

    private Lamps lit() {
        if (lamps.equals(List.of(NONE))) return Lamps.OFF;
        for (String lamp : lamps)
            if (!LAMPS.contains(lamp))
                throw new InputProblem(
                        "lamp '" + lamp + "' is not one of " + String.join(", ", LAMPS) + ", nor alone none");
        Function<String, Lamp> state = name -> lamps.contains(name) ? Lamp.ON : Lamp.OFF;
        return new Lamps(
                state.apply("protect"),
                state.apply("amber-warning"),
                state.apply("red-stop"),
                state.apply("malfunction"));
    }
}
