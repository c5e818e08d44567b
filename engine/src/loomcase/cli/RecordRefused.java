package loomcase.cli;

import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** A proposed test that will not be done. */
@CommandLine.Command(
        name = "refused",
        description = {
            "A proposed test that will not be done, so that the next one is proposed.",
            "As in: refused \"volts C1/1\" \"terminal seized\""
        })
final class RecordRefused extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "TEST", description = "id of the test, in quotes")
    private String test;

    @CommandLine.Parameters(index = "1", paramLabel = "REASON", description = "why, in quotes")
    private String reason;

    @Override
    Fact fact(OpenCase input) {
        return new Fact.Refused(test, reason);
    }
}
