package loomcase.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.casework.Shop;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** Another opening in place of line 1; what is not given stays as it was. */
@CommandLine.Command(
        name = "opened",
        description = {
            "What the opening should have said; what is not given stays. A circuit file that changed is taken as it is"
                    + " now.",
            "As in: correct 1 opened --circuit circuits/new.json"
        })
final class RecordOpened extends RecordKind {
    @CommandLine.Option(names = "--circuit", paramLabel = "FILE", description = "circuit file")
    private Path circuit;

    @CommandLine.Option(names = "--complaint", paramLabel = "TEXT", description = "what the driver or customer says")
    private String complaint;

    @CommandLine.Option(names = "--unit", paramLabel = "ID", description = "id of the machine")
    private String unit;

    @CommandLine.Option(names = "--hours", paramLabel = "HOURS", description = "engine hours")
    private Double hours;

    @CommandLine.Mixin
    private MachineInput machine;

    /** The circuit is read anew, whatever the old opening says of it. */
    @Override
    OpenCase input(Path file) {
        return new Casework(Shop.BUILT_IN).openWith(file, Optional.ofNullable(circuit));
    }

    @Override
    Fact fact(OpenCase input) {
        Fact.Opened old = input.journal().opened();
        Path file = circuit == null ? CaseFile.circuitOf(input.file(), input.journal()) : circuit;
        return new Fact.Opened(
                CaseFile.name(input.file(), file),
                complaint == null ? old.complaint() : complaint,
                unit == null ? old.unit() : Optional.of(unit),
                hours == null ? old.hours() : OptionalDouble.of(hours),
                machine.over(old.machine()));
    }
}
