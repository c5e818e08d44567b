package loomcase.cli;

import loomcase.InputProblem;
import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** An access step done or undone. */
@CommandLine.Command(
        name = "access",
        description = {
            "Take something off to get at a place, or put it back.",
            "As in: access open cover; access close cover"
        })
final class DoAccess extends DoKind {
    @CommandLine.Parameters(index = "0", paramLabel = "open|close", description = "do or undo")
    private String way;

    @CommandLine.Parameters(index = "1", paramLabel = "STEP", description = "access step of the circuit")
    private String step;

    @Override
    Request request(CircuitNames names) {
        if (!way.equals("open") && !way.equals("close"))
            throw new InputProblem("'" + way + "' is neither open nor close");
        return new Request.Way(step, way.equals("open"));
    }
}
