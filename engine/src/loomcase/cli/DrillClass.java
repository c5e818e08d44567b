package loomcase.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.draw.LearningCurve;
import loomcase.drill.ClassSummary;
import loomcase.drill.Ending;
import loomcase.drill.RunFile;
import loomcase.json.DrillReport;
import picocli.CommandLine;

/** Sums up the runs of a class. */
@CommandLine.Command(
        name = "class",
        description = {
            "Sum up runs: a table by student, each run beside the planner's minutes; the learning curve as a picture."
        },
        footer = {"", "Example:", "  loomcase drill class runs/*.jsonl --svg curve.svg --csv class.csv"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:the summary", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class DrillClass implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(arity = "1..*", paramLabel = "RUN", description = "run files")
    private List<Path> files;

    @CommandLine.Option(names = "--csv", paramLabel = "FILE", description = "write the table as CSV")
    private Path csv;

    @CommandLine.Option(names = "--svg", paramLabel = "FILE", description = "write the learning curve as a picture")
    private Path svg;

    @CommandLine.Option(names = "--json", description = "the answer for a program")
    private boolean json;

    @Override
    public Integer call() {
        Casework casework = new Casework(Shop.BUILT_IN);
        List<RunFile> runs = files.stream().map(f -> RunFile.open(casework, f)).toList();
        ProgressLine progress =
                ProgressLine.of("looking at runs", spec.commandLine().getErr());
        ClassSummary summary = ClassSummary.of(runs, n -> progress.share((double) n / runs.size()));
        progress.clear();
        if (csv != null) WholeFile.write(csv, summary.csv());
        if (svg != null) WholeFile.write(svg, LearningCurve.svg(lines(summary)));
        if (json) DrillReport.of(summary).print(spec.commandLine().getOut());
        else new DrillText(Page.of(spec.commandLine().getOut())).table(summary);
        return Main.ANSWER;
    }

    private static List<LearningCurve.Line> lines(ClassSummary summary) {
        return summary.byStudent().entrySet().stream()
                .map(e -> new LearningCurve.Line(
                        e.getKey(),
                        e.getValue().stream()
                                .filter(r -> r.over().isPresent())
                                .map(r -> new LearningCurve.Point(
                                        r.nth(),
                                        r.over().getAsDouble(),
                                        r.ending().equals(Optional.of(Ending.SOLVED))))
                                .toList()))
                .toList();
    }
}
