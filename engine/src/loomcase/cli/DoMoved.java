package loomcase.cli;

import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** A place disturbed. */
@CommandLine.Command(
        name = "moved",
        description = {
            "Wiggle, heat or spray a place with codes and values in view.",
            "As in: moved wiggle C1 --at key-on; moved heat J1 --at key-on"
        })
final class DoMoved extends DoKind {
    @CommandLine.Parameters(index = "0", paramLabel = "ACTION", description = "wiggle, heat or spray")
    private String action;

    @CommandLine.Parameters(index = "1", paramLabel = "PLACE", description = "where")
    private String place;

    @CommandLine.Mixin
    private SetupInput setup;

    @Override
    Request request(CircuitNames names) {
        return new Request.Move(RecordKind.word("action", Fact.Action.class, action), names.spot(place), setup.setup());
    }
}
