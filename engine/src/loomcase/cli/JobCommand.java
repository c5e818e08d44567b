package loomcase.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.job.JobDocument;
import loomcase.job.JobPlanner;
import loomcase.job.JobSheet;
import loomcase.job.Work;
import loomcase.journal.CircuitNames;
import loomcase.json.JobJson;
import picocli.CommandLine;

/** Makes a job sheet. */
@CommandLine.Command(
        name = "job",
        description = {
            "Make the job sheet: what comes off in which order, how the loom is laid, what closing up calls for.",
            "In a case, what is open already is not counted again."
        },
        sortOptions = false,
        synopsisHeading = "",
        customSynopsis = {
            "Usage: loomcase job CASE WORK [OPTIONS]",
            "       loomcase job --circuit FILE WORK [OPTIONS]",
            "WORK is one of: --place PLACE,...  --section ID  --harness"
        },
        footer = {
            "",
            "Examples:",
            "  loomcase job demo-cases/shared-splice.jsonl --place S5A",
            "  loomcase job --circuit circuits/larch-13.json --section hot-side --pdf job.pdf"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:the sheet", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class JobCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(paramLabel = "CASE", arity = "0..1", description = "case file, instead of --circuit")
    private Path file;

    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Option(
            names = "--place",
            paramLabel = "PLACE,...",
            split = ",",
            hideParamSyntax = true,
            description = "repair at these places: a connector, cavity, splice, wire, branch, ground, fuse or device")
    private List<String> places = List.of();

    @CommandLine.Option(names = "--section", paramLabel = "ID", description = "replace this ready-made section")
    private String section;

    @CommandLine.Option(names = "--harness", description = "replace the whole harness")
    private boolean harness;

    @CommandLine.Mixin
    private SheetOutput output;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        int asked = (places.isEmpty() ? 0 : 1) + (section == null ? 0 : 1) + (harness ? 1 : 0);
        if (asked != 1)
            throw new InputProblem("say what the work is: one of --place PLACE,..., --section ID, --harness");
        if (file != null) input.refuseCircuit();
        Casework casework = input.casework();
        Optional<OpenCase> open = Optional.ofNullable(file).map(casework::open);
        Bench bench = open.map(OpenCase::bench).orElseGet(() -> input.circuit(casework));
        Set<String> opened = open.map(c -> c.journal().openAccess()).orElse(Set.of());
        JobSheet sheet = new JobPlanner(bench.circuit(), bench.layout(), bench.policy()).plan(work(bench), opened);
        String unit = open.flatMap(c -> c.journal().opened().unit()).orElse("");
        output.write(
                JobDocument.of(bench.circuit(), sheet, unit, output.date()),
                JobJson.of(bench.circuit(), sheet),
                spec.commandLine().getOut());
        return Main.ANSWER;
    }

    private Work work(Bench bench) {
        if (harness) return new Work.Harness();
        if (section != null) return new Work.Section(section);
        CircuitNames names = new CircuitNames(bench.circuit());
        return new Work.Repair(
                places.stream().map(p -> names.spot(p).place()).distinct().toList());
    }
}
