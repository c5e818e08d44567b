package loomcase.cli;

import java.util.List;
import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** The claim that ends a run. */
@CommandLine.Command(
        name = "claim",
        description = {
            "Say where it was, once it is mended; the run ends. Name every place when there were two faults. Exit code 1 when it"
                    + " is not solved.",
            "As in: claim S1; claim engine (nothing is wrong with harness or parts)"
        })
final class DoClaim extends DoKind {
    @CommandLine.Parameters(arity = "1..*", paramLabel = "PLACE", description = "the place, or engine")
    private List<String> places = List.of();

    @Override
    Request request(CircuitNames names) {
        return new Request.Claim(places);
    }
}
