package loomcase.cli;

import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** A hint. */
@CommandLine.Command(
        name = "hint",
        description = {"Take a hint; it costs minutes, and there are three, each nearer than the one before."})
final class DoHint extends DoKind {
    @Override
    Request request(CircuitNames names) {
        return new Request.Hint();
    }
}
