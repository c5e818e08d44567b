package loomcase.cli;

import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** A look at a place. */
@CommandLine.Command(
        name = "seen",
        description = {"Look at a place.", "As in: seen C1; seen B1"})
final class DoSeen extends DoKind {
    @CommandLine.Parameters(paramLabel = "PLACE", description = "where")
    private String place;

    @Override
    Request request(CircuitNames names) {
        return new Request.Look(names.spot(place));
    }
}
