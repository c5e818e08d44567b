package loomcase.journal;

import java.util.List;
import loomcase.InputProblem;
import loomcase.model.read.Cursor;

/** Facts written inside another file: each an object as the lines of a case are, without number, person, time and chain. */
public final class InlineFacts {
    private InlineFacts() {}

    /**
     * Reads a list of facts.
     *
     * @param field the field that holds the list; a missing one holds none
     * @throws InputProblem with file, line and field
     */
    public static List<Fact> of(Cursor object, String field) {
        return object.objects(field).stream()
                .map(c -> {
                    Fact fact = FactReader.fact(c);
                    c.done();
                    return fact;
                })
                .toList();
    }
}
