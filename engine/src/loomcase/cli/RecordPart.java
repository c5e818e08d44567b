package loomcase.cli;

import java.math.BigDecimal;
import java.util.Optional;
import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** A part that failed or was fitted. */
@CommandLine.Command(
        name = "part",
        description = {
            "A part that failed or was fitted.",
            "As in: part causal wire \"signal wire\" --number W-110 --quantity 0.4 --price 3.20 --place R1"
        })
final class RecordPart extends RecordKind {
    @CommandLine.Parameters(
            index = "0",
            paramLabel = "ROLE",
            description = "causal: it failed first; consequential: because of that; used: the repair used it up")
    private String role;

    @CommandLine.Parameters(
            index = "1",
            paramLabel = "SORT",
            description = "wire, terminal, section, harness, device, control-unit, fuse or other")
    private String sort;

    @CommandLine.Parameters(index = "2", paramLabel = "NAME", description = "the part in words")
    private String name;

    @CommandLine.Option(names = "--number", paramLabel = "TEXT", description = "part number")
    private String number;

    @CommandLine.Option(names = "--quantity", paramLabel = "NUMBER", description = "pieces or metres; 1 if not given")
    private BigDecimal quantity = BigDecimal.ONE;

    @CommandLine.Option(
            names = "--price",
            paramLabel = "MONEY",
            description = "price of one, in the circuit file's currency")
    private BigDecimal price;

    @CommandLine.Option(names = "--place", paramLabel = "PLACE", description = "where the failed one sat")
    private String place;

    @Override
    Fact fact(OpenCase input) {
        return new ClaimFact.Part(
                name,
                Optional.ofNullable(number),
                quantity,
                Optional.ofNullable(price),
                word("role", ClaimFact.Role.class, role),
                word("sort", ClaimFact.Sort.class, sort),
                Optional.ofNullable(place).map(input.check().names()::spot));
    }
}
