package loomcase.intake;

import java.util.List;
import java.util.Optional;
import loomcase.j1939.CodeList;
import loomcase.j1939.Lamps;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.SourceCodes;
import loomcase.journal.Fact;
import loomcase.model.Circuit;

/**
 * Codes as a case records them, typed or out of a log.
 *
 * @param fact the line to record
 * @param notes assumptions and what was left out, one sentence each
 */
public record CodesTaken(Fact.Codes fact, List<String> notes) {
    public CodesTaken {
        notes = List.copyOf(notes);
    }

    /**
     * Codes as typed.
     *
     * @param at operating points visited, empty to assume
     * @param lit lamps, empty when nobody looked
     * @throws loomcase.InputProblem as {@link Intake#typed} does
     */
    public static CodesTaken typed(
            Circuit circuit, CodeList active, CodeList stored, List<String> at, Optional<Lamps> lit) {
        return of(Intake.typed(circuit, active, stored, at), Optional.empty(), lit);
    }

    /**
     * The codes and lamps of the circuit's control unit in a log.
     *
     * @param at operating points visited, empty to guess from engine speed
     * @param file the log as the case names it
     * @throws loomcase.InputProblem as {@link Intake#fromLog} does
     */
    public static CodesTaken fromLog(Circuit circuit, CodesRead read, List<String> at, Fact.LogFile file) {
        Intake intake = Intake.fromLog(circuit, read, at);
        Optional<Lamps> sent = read.sources().stream()
                .filter(s -> s.address() == circuit.controlUnit().address())
                .map(SourceCodes::lamps)
                .flatMap(Optional::stream)
                .findFirst();
        return of(intake, Optional.of(file), sent);
    }

    private static CodesTaken of(Intake intake, Optional<Fact.LogFile> file, Optional<Lamps> lit) {
        List<Fact.ReadCode> codes = intake.evidence().codes().stream()
                .map(s -> new Fact.ReadCode(
                        s.code(), s.count(), Fact.State.valueOf(s.state().name())))
                .toList();
        return new CodesTaken(new Fact.Codes(codes, intake.evidence().operatingPoints(), file, lit), intake.notes());
    }
}
