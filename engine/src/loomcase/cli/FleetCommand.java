package loomcase.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.fleet.Fleet;
import loomcase.fleet.FleetSource;
import picocli.CommandLine;

/** Answers many cases. */
@CommandLine.Command(
        name = "fleet",
        description = "Rank many cases, one JSON object a line in and out, on all cores.",
        sortOptions = false,
        footer = {
            "",
            "A line of a list is one case:",
            "  {\"id\": \"unit 7\", \"circuit\": \"circuits/larch-13.json\", \"codes\": \"110/3,100/4x2\"}",
            "  {\"case\": \"unit-8.jsonl\"}",
            "with \"stored\", \"at\" (a list of operating points) and \"facts\" (a list of objects as the lines",
            "of a case file are, such as readings) where there are any. Files are named from the folder",
            "of the list. Each answer is one line, in the same order; a case that cannot be answered",
            "gives a line with \"error\" and stops nothing. A run that was stopped goes on with --resume.",
            "",
            "Example:",
            "  loomcase fleet night.jsonl --out answers.jsonl"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:every case has an answer",
            "1:some lines hold an error instead of an answer",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class FleetCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Parameters(
            paramLabel = "FILE",
            arity = "1..*",
            description = "lists of cases and case files, in order; - for a list on the standard input")
    private List<Path> files;

    @CommandLine.Option(names = "--out", paramLabel = "FILE", description = "write the answers there")
    private Path out;

    @CommandLine.Option(
            names = "--resume",
            description = "go on where the file given with --out ends; it must be of the same list")
    private boolean resume;

    @CommandLine.Option(
            names = "--brief",
            description = "only the first three suspects of each case, and no test planned")
    private boolean brief;

    @CommandLine.Option(
            names = "--workers",
            paramLabel = "N",
            description = "cases answered at once; as many as there are cores unless said otherwise")
    private int workers = Runtime.getRuntime().availableProcessors();

    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() throws IOException {
        PrintWriter err = spec.commandLine().getErr();
        if (workers < 1) throw new InputProblem("--workers " + workers + ": at least 1");
        if (resume && out == null) throw new InputProblem("--resume needs the file to go on with: --out FILE");
        boolean fromInput = files.contains(Path.of("-"));
        if (fromInput && files.size() > 1) throw new InputProblem("-: give the standard input alone");
        long before = out == null ? 0 : FleetOutput.linesBefore(out, resume);
        Fleet.Counts counts;
        try (FleetSource source = fromInput ? standardInput() : FleetSource.of(files, input.file())) {
            if (out == null) counts = run(source, 0, spec.commandLine().getOut(), err);
            else
                try (Writer to = FleetOutput.open(out)) {
                    counts = run(source, before, to, err);
                }
        }
        if (counts.failed() == 0) return Main.ANSWER;
        err.println(counts.failed() + " of " + (counts.answered() + counts.failed())
                + " cases could not be answered; their lines say why");
        return Main.NOT_SETTLED;
    }

    private FleetSource standardInput() {
        return FleetSource.of(
                new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8)), input.file());
    }

    private Fleet.Counts run(FleetSource source, long before, Appendable to, PrintWriter err) throws IOException {
        ProgressLine line = ProgressLine.of("cases", err);
        double bytes = bytes();
        long[] done = {before};
        Fleet.Counts counts = new Fleet(workers, brief, input::casework).run(source, before, to, n -> {
            done[0] = n;
            double share = bytes > 0 ? Math.min(1, source.characters() / bytes) : 0;
            line.count(n, before, share > 0 ? n / share : n);
        });
        line.clear();
        return counts;
    }

    private double bytes() throws IOException {
        double sum = 0;
        for (Path f : files) if (Files.isRegularFile(f)) sum += Files.size(f);
        return sum;
    }
}
