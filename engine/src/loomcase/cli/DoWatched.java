package loomcase.cli;

import java.util.List;
import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import loomcase.journal.Fact;
import loomcase.journal.Jumper;
import picocli.CommandLine;

/** Codes watched while something is apart or bridged. */
@CommandLine.Command(
        name = "watched",
        description = {
            "Unplug or bridge something with the key on and watch the codes.",
            "As in: watched unplug C1 --at key-on; watched jumper C1/1:C1/2 --unplugged C1 --at key-on"
        })
final class DoWatched extends DoKind {
    @CommandLine.Parameters(index = "0", paramLabel = "METHOD", description = "unplug or jumper")
    private String method;

    @CommandLine.Parameters(index = "1", paramLabel = "WHAT", description = "a connector, or FROM:TO[:OHMS]")
    private String what;

    @CommandLine.Mixin
    private SetupInput setup;

    @Override
    Request request(CircuitNames names) {
        Fact.Method how = RecordKind.word("method", Fact.Method.class, method);
        return new Request.Watch(
                how,
                how == Fact.Method.UNPLUG
                        ? setup.with(List.of(what.split(",")), List.of())
                        : setup.with(List.of(), List.of(Jumper.parse(what))));
    }
}
