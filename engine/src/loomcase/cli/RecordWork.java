package loomcase.cli;

import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import picocli.CommandLine;

/** Work done. */
@CommandLine.Command(
        name = "work",
        description = {"Work that was done.", "As in: work reseated C1; work cleared-codes"})
final class RecordWork extends RecordKind {
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

    @CommandLine.Option(names = "--note", paramLabel = "TEXT", description = "more words")
    private String note = "";

    @CommandLine.Option(
            names = "--minutes",
            paramLabel = "MINUTES",
            description = "time it took, access and tests apart")
    private Double minutes;

    @Override
    Fact fact(OpenCase input) {
        Fact.Deed deed = word("work", Fact.Deed.class, what);
        Optional<Spot> spot = place == null
                ? Optional.empty()
                : Optional.of(input.check().names().spot(place));
        return new Fact.Work(deed, spot, note, minutes == null ? OptionalDouble.empty() : OptionalDouble.of(minutes));
    }
}
