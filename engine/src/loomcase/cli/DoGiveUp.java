package loomcase.cli;

import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** Giving up. */
@CommandLine.Command(
        name = "give-up",
        description = {"Give up; the run ends."})
final class DoGiveUp extends DoKind {
    @Override
    Request request(CircuitNames names) {
        return new Request.GiveUp();
    }
}
