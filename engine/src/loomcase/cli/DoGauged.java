package loomcase.cli;

import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** The engine itself seen to where a sensor reports on it. */
@CommandLine.Command(
        name = "gauged",
        description = {
            "Check by gauge, thermometer, dipstick or eye, without the sensor, what it reports of the engine.",
            "As in: gauged OPS"
        })
final class DoGauged extends DoKind {
    @CommandLine.Parameters(index = "0", paramLabel = "PART", description = "the sensor that reports it")
    private String part;

    @Override
    Request request(CircuitNames names) {
        return new Request.Gauge(names.spot(part));
    }
}
