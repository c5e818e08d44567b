package loomcase.fleet;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.casework.Answer;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.intake.CaseIntake;
import loomcase.intake.CodesTaken;
import loomcase.j1939.CodeList;
import loomcase.j1939.CodeProblem;
import loomcase.journal.Admission;
import loomcase.journal.EntryCheck;
import loomcase.journal.Fact;
import loomcase.journal.InlineFacts;
import loomcase.model.read.Cursor;
import loomcase.model.read.Json;

/**
 * One case of a list.
 *
 * <p>Either {@code {"case": FILE}} or {@code {"circuit": FILE, "codes": "110/3,100/4x2"}}, the latter with {@code "stored"},
 * {@code "at"} (a list of operating points) and {@code "facts"} (a list of objects as the lines of a case are: readings,
 * things seen, work done) where there are any. Both may have an {@code "id"}. Files are named from the folder of the list.
 *
 * @param list the file that holds the line, for messages and for finding other files
 * @param line line number in it, from 1
 * @param text the line
 * @param circuit the circuit file when the line names none
 */
record FleetLine(Path list, int line, String text, Optional<Path> circuit) {

    /** What a line asks for. */
    record Asked(Optional<String> id, Answer answer) {}

    /**
     * Reads the line and opens its case; nothing is ranked yet.
     *
     * @throws InputProblem with file, line, field and what is allowed
     */
    Asked ask(Casework casework) {
        Cursor c = Cursor.of(list, Json.ofLine(list, line, text));
        Optional<String> id = c.has("id") ? Optional.of(c.id("id")) : Optional.empty();
        Answer answer;
        if (c.has("case")) {
            answer = casework.open(list.resolveSibling(c.text("case"))).answer();
        } else {
            Bench bench = casework.circuit(
                    circuit.isPresent() && !c.has("circuit") ? circuit.get() : list.resolveSibling(c.text("circuit")));
            answer = bench.answer(intake(c, bench));
        }
        c.done();
        return new Asked(id, answer);
    }

    private static CaseIntake intake(Cursor c, Bench bench) {
        CodesTaken codes = CodesTaken.typed(
                bench.circuit(), codes(c, "codes"), codes(c, "stored"), c.texts("at"), Optional.empty());
        List<Fact> facts = new ArrayList<>(List.of(codes.fact()));
        EntryCheck check = new EntryCheck(bench.circuit());
        Set<String> open = new LinkedHashSet<>();
        for (Fact f : InlineFacts.of(c, "facts")) {
            if (f instanceof Fact.Codes || f instanceof Fact.Opened || f instanceof Fact.Correction)
                throw c.problem("facts", "a fact of kind '" + f.kind() + "' has no place in a list; use a case file");
            if (check.admit(f) instanceof Admission.Refused r) throw c.problem("facts", r.reason());
            if (f instanceof Fact.OpenedAccess o) open.add(o.step());
            if (f instanceof Fact.ClosedAccess o) open.remove(o.step());
            facts.add(f);
        }
        return CaseIntake.of(bench.circuit(), facts, open, codes.notes());
    }

    private static CodeList codes(Cursor c, String field) {
        try {
            return CodeList.parse(c.text(field, ""));
        } catch (CodeProblem e) {
            throw c.problem(field, e.getMessage());
        }
    }
}
