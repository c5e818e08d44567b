package loomcase.cli;

import loomcase.InputProblem;
import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** A place wiggled, heated or sprayed. */
@CommandLine.Command(
        name = "moved",
        description = {
            "A place was wiggled, heated or sprayed while something was watched.",
            "As in: moved wiggle B1 yes --what \"110/4 came up\" --at key-on"
        })
final class RecordMoved extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "ACTION", description = "wiggle, heat or spray")
    private String action;

    @CommandLine.Parameters(index = "1", paramLabel = "PLACE", description = "where")
    private String place;

    @CommandLine.Parameters(index = "2", paramLabel = "yes|no", description = "whether what was watched changed")
    private String response;

    @CommandLine.Option(
            names = "--what",
            paramLabel = "TEXT",
            description = "what was watched and what it did; needed with yes")
    private String what = "";

    @CommandLine.Mixin
    private SetupInput setup;

    @Override
    Fact fact(OpenCase input) {
        Fact.Action how = word("action", Fact.Action.class, action);
        boolean yes = response.equals("yes");
        if (!yes && !response.equals("no"))
            throw new InputProblem("'" + response + "' is neither yes nor no: did what was watched change?");
        if (yes && what.isBlank()) throw new InputProblem("say with --what what changed");
        return new Fact.Moved(how, input.check().names().spot(place), yes, what, setup.setup());
    }
}
