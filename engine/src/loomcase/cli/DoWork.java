package loomcase.cli;

import java.util.Optional;
import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** Work done. */
@CommandLine.Command(
        name = "work",
        description = {
            "Work at a place, or clear the codes.",
            "As in: work repaired J1/3; work replaced OPS; work cleared-codes"
        })
final class DoWork extends DoKind {
    @CommandLine.Parameters(
            index = "0",
            paramLabel = "WHAT",
            description = "repaired, replaced, reseated, cleaned, rerouted or cleared-codes")
    private String what;

    @CommandLine.Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "PLACE",
            description = "where; not with cleared-codes")
    private String place;

    @Override
    Request request(CircuitNames names) {
        return new Request.Work(
                RecordKind.word("work", Fact.Deed.class, what),
                Optional.ofNullable(place).map(names::spot));
    }
}
