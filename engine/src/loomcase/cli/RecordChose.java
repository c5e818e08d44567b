package loomcase.cli;

import java.util.List;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** What is wrong and what to do, as somebody decided. */
@CommandLine.Command(
        name = "chose",
        description = {
            "What was decided: what to do at the place that failed, and why.",
            "As in: chose splice-repair R1 --damage rub --reason \"one wire hurt, the rest is sound\"",
            "Two places in one visit: chose terminal C-ECT/1 --also device EDP"
        })
final class RecordChose extends RecordKind {
    @CommandLine.Parameters(
            index = "0",
            paramLabel = "OPTION",
            description = "monitor, reseat, terminal, pigtail, splice-repair, overlay-wire, branch-section,"
                    + " full-harness, fuse, device or control-unit")
    private String option;

    @CommandLine.Parameters(index = "1", paramLabel = "PLACE", description = "the place that failed")
    private String place;

    @CommandLine.Option(names = "--reason", paramLabel = "TEXT", description = "why this and nothing smaller or larger")
    private String reason = "";

    @CommandLine.Option(
            names = "--damage",
            paramLabel = "WORD",
            description = "why it failed: rub, heat, fluid, installation, animal, modification, wear or collision")
    private String damage;

    @CommandLine.Option(
            names = "--also",
            arity = "2",
            paramLabel = "OPTION PLACE",
            hideParamSyntax = true,
            description = "the second repair of the same visit and the second place that failed")
    private List<String> also = List.of();

    @Override
    Fact fact(OpenCase input) {
        return new ClaimFact.Chose(
                word("option", ClaimFact.Option.class, option),
                input.check().names().spot(place),
                reason,
                Optional.ofNullable(damage).map(d -> word("damage", ClaimFact.Damage.class, d)),
                also(input));
    }

    private Optional<ClaimFact.Also> also(OpenCase input) {
        if (also.isEmpty()) return Optional.empty();
        if (also.size() > 2) throw new InputProblem("--also: give it once; two repairs are the most in one visit");
        return Optional.of(new ClaimFact.Also(
                word("also", ClaimFact.Option.class, also.get(0)),
                input.check().names().spot(also.get(1))));
    }
}
