package loomcase.cli;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.journal.Machine;
import picocli.CommandLine;

/** What a claim says of the machine, as options. */
final class MachineInput {
    @CommandLine.Option(names = "--serial", paramLabel = "TEXT", description = "serial number, read from the machine")
    private String serial;

    @CommandLine.Option(
            names = "--in-service",
            paramLabel = "DATE",
            description = "date of first use, such as 2021-03-15")
    private String inService;

    @CommandLine.Option(
            names = "--distance",
            paramLabel = "TEXT",
            description = "as the machine shows it, with its unit, such as \"412300 km\"")
    private String distance;

    /** What is given, laid over what was known. */
    Machine over(Machine old) {
        return new Machine(
                serial == null ? old.serial() : Optional.of(serial),
                inService == null ? old.inService() : Optional.of(date("--in-service", inService)),
                distance == null ? old.distance() : Optional.of(distance));
    }

    static LocalDate date(String option, String text) {
        try {
            if (text.matches("(19|20)[0-9]{2}-[0-9]{2}-[0-9]{2}")) return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new InputProblem(option + " '" + text + "' is no day of the calendar", e);
        }
        throw new InputProblem(option + " '" + text + "' is no date such as 2024-05-01");
    }
}
