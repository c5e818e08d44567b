package loomcase.cli;

import java.util.Optional;
import loomcase.casework.OpenCase;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** An agreement that the claim needs. */
@CommandLine.Command(
        name = "approved",
        description = {
            "Something that somebody has to agree to, or did.",
            "As in: approved \"front section\" --approver \"service desk\" --number A-12 --date 2024-05-02"
        })
final class RecordApproved extends RecordKind {
    @CommandLine.Parameters(index = "0", paramLabel = "WHAT", description = "what needs it")
    private String what;

    @CommandLine.Option(names = "--approver", paramLabel = "NAME", description = "who agreed; leave out if nobody did")
    private String approver;

    @CommandLine.Option(names = "--number", paramLabel = "TEXT", description = "number of the agreement")
    private String number;

    @CommandLine.Option(names = "--date", paramLabel = "DATE", description = "date of it, such as 2024-05-02")
    private String date;

    @Override
    Fact fact(OpenCase input) {
        return new ClaimFact.Approved(
                what,
                Optional.ofNullable(approver),
                Optional.ofNullable(number),
                Optional.ofNullable(date).map(d -> MachineInput.date("--date", d)));
    }
}
