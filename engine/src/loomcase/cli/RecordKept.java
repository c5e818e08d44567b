package loomcase.cli;

import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** A failed part put by. */
@CommandLine.Command(
        name = "kept",
        description = {
            "A failed part, or the piece cut out, that was put by.",
            "As in: kept \"signal wire\" --tag 17 --where \"shelf 3\""
        })
final class RecordKept extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "PART", description = "which, named as in its line of parts")
    private String part;

    @CommandLine.Option(names = "--tag", required = true, paramLabel = "NUMBER", description = "number on the tag")
    private String tag;

    @CommandLine.Option(names = "--where", required = true, paramLabel = "TEXT", description = "shelf or box")
    private String where;

    @Override
    Fact fact(OpenCase input) {
        return new ClaimFact.Kept(part, tag, where);
    }
}
