package loomcase.cli;

import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.journal.Entry;
import picocli.CommandLine;

/** Options that say who writes a line, and when. */
final class StampInput {
    @CommandLine.Option(
            names = "--by",
            paramLabel = "NAME",
            scope = CommandLine.ScopeType.INHERIT,
            description = "who says it; otherwise the name this computer knows the user by")
    private String by = System.getProperty("user.name");

    @CommandLine.Option(
            names = "--time",
            paramLabel = "TIME",
            scope = CommandLine.ScopeType.INHERIT,
            description = "when, with offset, such as 2024-05-01T10:20:30+02:00; otherwise now")
    private String time;

    Entry.Stamp stamp() {
        try {
            return new Entry.Stamp(
                    time == null ? OffsetDateTime.now() : OffsetDateTime.parse(time), by, Optional.empty());
        } catch (DateTimeException e) {
            throw new InputProblem(
                    "--time '" + time + "' is no time with offset, such as 2024-05-01T10:20:30+02:00", e);
        } catch (IllegalArgumentException e) {
            throw new InputProblem("--by or --time: " + e.getMessage(), e);
        }
    }
}
