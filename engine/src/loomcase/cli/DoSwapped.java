package loomcase.cli;

import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** Two like parts exchanged. */
@CommandLine.Command(
        name = "swapped",
        description = {
            "Swap a part with one of its kind and see whether the codes go with it.",
            "As in: swapped OPS MAP"
        })
final class DoSwapped extends DoKind {
    @CommandLine.Parameters(index = "0", paramLabel = "PART", description = "the suspected part")
    private String part;

    @CommandLine.Parameters(index = "1", paramLabel = "WITH", description = "its like")
    private String with;

    @Override
    Request request(CircuitNames names) {
        return new Request.Swap(names.spot(part), names.spot(with));
    }
}
