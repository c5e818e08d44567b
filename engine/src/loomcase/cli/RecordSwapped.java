package loomcase.cli;

import loomcase.casework.OpenCase;
import loomcase.journal.CircuitNames;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** A part swapped with its neighbour. */
@CommandLine.Command(
        name = "swapped",
        description = {
            "A part changed place with one of its kind: did the codes go with it?",
            "As in: swapped OPS MAP followed"
        })
final class RecordSwapped extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "PART", description = "the suspected part")
    private String part;

    @CommandLine.Parameters(index = "1", paramLabel = "WITH", description = "its neighbour")
    private String with;

    @CommandLine.Parameters(index = "2", paramLabel = "CODES", description = "followed, stayed or gone")
    private String outcome;

    @CommandLine.Option(names = "--note", paramLabel = "TEXT", description = "more words")
    private String note = "";

    @Override
    Fact fact(OpenCase input) {
        CircuitNames names = input.check().names();
        return new Fact.Swapped(names.spot(part), names.spot(with), word("codes", Fact.Outcome.class, outcome), note);
    }
}
