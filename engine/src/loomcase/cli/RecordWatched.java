package loomcase.cli;

import java.util.List;
import loomcase.InputProblem;
import loomcase.casework.OpenCase;
import loomcase.j1939.Code;
import loomcase.j1939.CodeList;
import loomcase.journal.Fact;
import loomcase.journal.Jumper;
import loomcase.journal.Setup;
import picocli.CommandLine;

/** Codes watched while something is apart or bridged. */
@CommandLine.Command(
        name = "watched",
        description = {
            "Which codes were active while something was unplugged or bridged.",
            "As in: watched unplug C1 110/3 --at key-on; watched jumper C1/1:C1/2 110/4 --unplugged C1 --at key-on"
        })
final class RecordWatched extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "METHOD", description = "unplug or jumper")
    private String method;

    @CommandLine.Parameters(
            index = "1",
            paramLabel = "WHAT",
            description = "connectors with commas between them, or FROM:TO[:OHMS]")
    private String what;

    @CommandLine.Parameters(index = "2", paramLabel = "SPN/FMI,...", description = "every code active then, or none")
    private String codes;

    @CommandLine.Mixin
    private SetupInput setup;

    @Override
    Fact fact(OpenCase input) {
        Fact.Method how = word("method", Fact.Method.class, method);
        Setup state = how == Fact.Method.UNPLUG
                ? setup.with(List.of(what.split(",")), List.of())
                : setup.with(List.of(), List.of(Jumper.parse(what)));
        CodeList list = CodeList.parse(codes.equals(NONE) ? "" : codes);
        if (list.entries().stream().anyMatch(e -> e.count().isPresent()))
            throw new InputProblem("'" + codes + "': counts are for codes that were read; give SPN/FMI alone");
        List<Code> active = list.entries().stream().map(CodeList.Entry::code).toList();
        return new Fact.Watched(how, state, active);
    }
}
