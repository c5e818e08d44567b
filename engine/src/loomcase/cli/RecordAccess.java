package loomcase.cli;

import java.util.List;
import loomcase.InputProblem;
import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import loomcase.model.AccessStep;
import picocli.CommandLine;

/** An access step done or undone. */
@CommandLine.Command(
        name = "access",
        description = {"An access step was done or undone.", "As in: access open cover; access close cover"})
final class RecordAccess extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "open|close", description = "done or undone")
    private String way;

    @CommandLine.Parameters(index = "1", paramLabel = "STEP", description = "access step of the circuit")
    private String step;

    @Override
    Fact fact(OpenCase input) {
        if (way.equals("close")) return new Fact.ClosedAccess(step);
        if (!way.equals("open")) throw new InputProblem("'" + way + "' is neither open nor close");
        List<AccessStep> missing =
                input.check().missingBefore(step, input.journal().openAccess());
        for (AccessStep each : missing)
            err().println("loomcase: access step '" + step + "' needs '" + each.id() + "' (" + each.label()
                    + "), which is not recorded as open; record it too");
        return new Fact.OpenedAccess(step);
    }
}
