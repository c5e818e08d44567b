package loomcase.cli;

import java.util.List;
import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** The engine run and its codes read. */
@CommandLine.Command(
        name = "codes",
        description = {"Run the engine at operating points and read the codes.", "As in: codes --at key-on,idle-warm"})
final class DoCodes extends DoKind {
    @CommandLine.Option(
            names = "--at",
            paramLabel = "POINT",
            split = ",",
            description = "operating points to run; those of the complaint when not said")
    private List<String> at = List.of();

    @Override
    Request request(CircuitNames names) {
        return new Request.Read(at);
    }
}
