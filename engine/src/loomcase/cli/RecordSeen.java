package loomcase.cli;

import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import loomcase.model.Finding;
import picocli.CommandLine;

/** What a look at a place found. */
@CommandLine.Command(
        name = "seen",
        description = {
            "What a look at a place found. What is seen tells the kind of fault.",
            "A look into a single cavity is one with the right test pin, a light tug on the wire and a lens.",
            "As in: seen C1 green-copper; seen C1/2 spread-terminal; seen R1 chafe --note \"to bracket\""
        })
final class RecordSeen extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "PLACE", description = "where")
    private String place;

    @CommandLine.Parameters(
            index = "1",
            paramLabel = "FINDING",
            description = "such as clean, chafe, green-copper, water-in-plug; a wrong word lists them all")
    private String finding;

    @CommandLine.Option(names = "--note", paramLabel = "TEXT", description = "more words")
    private String note = "";

    @Override
    Fact fact(OpenCase input) {
        return new Fact.Seen(input.check().names().spot(place), word("finding", Finding.class, finding), note);
    }
}
