package loomcase.cli;

import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** The engine itself seen to where a sensor reports on it. */
@CommandLine.Command(
        name = "gauged",
        description = {
            "The engine itself was checked by gauge, thermometer, dipstick or eye, without the sensor.",
            "As in: gauged OPS oil-lost, or gauged OPS healthy"
        })
final class RecordGauged extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "PART", description = "the sensor that reports it")
    private String part;

    @CommandLine.Parameters(
            index = "1",
            paramLabel = "CONDITION",
            description = "what was found: a condition of that sensor in the circuit file, or healthy")
    private String condition;

    @CommandLine.Option(names = "--note", paramLabel = "TEXT", description = "more words, such as 1.2 bar at idle")
    private String note = "";

    @Override
    Fact fact(OpenCase input) {
        return new Fact.Gauged(input.check().names().spot(part), condition, note);
    }
}
