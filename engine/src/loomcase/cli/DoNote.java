package loomcase.cli;

import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** Free words. */
@CommandLine.Command(
        name = "note",
        description = {"Free words; they cost nothing."})
final class DoNote extends DoKind {
    @CommandLine.Parameters(paramLabel = "TEXT", description = "the note, in quotes")
    private String text;

    @Override
    Request request(CircuitNames names) {
        return new Request.Note(text);
    }
}
