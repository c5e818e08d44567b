package loomcase.cli;

import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** Free words. */
@CommandLine.Command(name = "note", description = "Anything else worth keeping; it is kept, not weighed.")
final class RecordNote extends RecordKind {
    @CommandLine.Parameters(paramLabel = "TEXT", description = "the note, in quotes")
    private String text;

    @Override
    Fact fact(OpenCase input) {
        return new Fact.Note(text);
    }
}
