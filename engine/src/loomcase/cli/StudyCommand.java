package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import java.util.function.DoubleConsumer;
import java.util.stream.Stream;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.json.StudyJson;
import loomcase.study.KindResult;
import loomcase.study.Study;
import loomcase.study.World;
import picocli.CommandLine;

/** Plants many faults whose truth is known and says how often the answers are right and what they save. */
@CommandLine.Command(
        name = "study",
        description = {
            "Plant many faults and see how often, and how surely, the ranking is right,",
            "what the verdict would have done, and how long four ways of working take to the right repair.",
            "Parts are off by their tolerance, limits of the control unit are off nominal, codes are missed and strayed.",
            "Every third case gets its voltages from ngspice, which must be installed."
        },
        sortOptions = false,
        footer = {
            "",
            "Example:",
            "  loomcase study --circuit circuits/larch-13.json --cases 60 --worked 12 --svg study.svg"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:done", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class StudyCommand implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private CircuitInput input;

    @CommandLine.Option(
            names = "--kind",
            paramLabel = "KIND",
            split = ",",
            description = {
                "only cases of these kinds: single, every-place, two, common, engine, come-and-go, all",
                "(all: any of the others, as often as the priors say)"
            })
    private List<String> kinds = Study.kinds();

    @CommandLine.Option(
            names = "--cases",
            paramLabel = "N",
            description = "cases of each kind (default: ${DEFAULT-VALUE})")
    private int cases = 60;

    @CommandLine.Option(
            names = "--worked",
            paramLabel = "N",
            description = "how many of them are also worked through to the right repair (default: a third)")
    private Integer worked;

    @CommandLine.Option(
            names = "--seed",
            paramLabel = "N",
            description = "same seed, same cases on any machine (default: ${DEFAULT-VALUE})")
    private long seed = 1;

    @CommandLine.Option(
            names = "--at",
            paramLabel = "POINT,...",
            split = ",",
            hideParamSyntax = true,
            description = "operating points at which codes are read (default: key-on,idle-warm)")
    private List<String> at = List.of("key-on", "idle-warm");

    @CommandLine.Option(
            names = "--sensitivity",
            description = "then single faults again with priors wrong by 10x and tolerances doubled")
    private boolean sensitivity;

    @CommandLine.Option(
            names = "--svg",
            paramLabel = "FILE|FOLDER",
            description = {
                "also write two pictures: how far probabilities can be believed to FILE,",
                "minutes and money of each way of working beside it (FILE-ways.svg);",
                "in a FOLDER study-reliability.svg and study-ways.svg"
            })
    private Path svg;

    @CommandLine.Option(
            names = "--workers",
            paramLabel = "N",
            description = "cases worked on at once; as many as there are cores unless said otherwise")
    private int workers = Runtime.getRuntime().availableProcessors();

    @CommandLine.Option(names = "--json", description = "print JSON instead of tables")
    private boolean json;

    @CommandLine.Mixin
    private Help help;

    @Override
    public Integer call() {
        if (cases < 1 || cases > 100_000) throw new InputProblem("--cases " + cases + ": allowed is 1 to 100000");
        if (workers < 1) throw new InputProblem("--workers " + workers + ": at least 1");
        Study.Size size = size();
        for (String kind : kinds)
            if (!Study.kinds().contains(kind))
                throw new InputProblem("--kind " + kind + ": there are " + String.join(", ", Study.kinds()));
        if (svg != null) WholeFile.requireRoom(svg);
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        List<Bench> benches = Stream.generate(() -> input.circuit(input.casework()))
                .limit(workers)
                .toList();
        Bench bench = benches.get(0);
        for (String point : at)
            if (!bench.circuit().operatingPoints().containsKey(point))
                throw new InputProblem("--at " + point + ": there are "
                        + String.join(", ", bench.circuit().operatingPoints().keySet()));
        List<KindResult> rows =
                new ArrayList<>(study(benches, World.USUAL, err, (s, p) -> s.run(Set.copyOf(kinds), size, p)));
        if (sensitivity) rows.addAll(sensitivity(benches, size, err));
        if (json)
            StudyJson.of(bench.circuit().id(), bench.circuit().costs().currency(), seed, at, rows)
                    .print(out);
        else StudyText.print(out, bench.circuit(), seed, at, rows);
        if (svg != null) pictures(new StudyPictures(bench.circuit(), rows));
        out.flush();
        return Main.ANSWER;
    }

    /** A study of the benches' own engine. */
    private <T> T study(List<Bench> benches, World world, PrintWriter err, BiFunction<Study, DoubleConsumer, T> run) {
        ProgressLine line = ProgressLine.of("planting faults", err);
        T out = run.apply(new Study(benches, at, world, seed), line::shareAndTime);
        line.clear();
        return out;
    }

    private Study.Size size() {
        int most = worked == null ? cases / 3 : worked;
        if (most < 0 || most > cases)
            throw new InputProblem("--worked " + most + ": allowed is 0 to " + cases + ", the number of cases");
        return new Study.Size(cases, most);
    }

    private List<KindResult> sensitivity(List<Bench> benches, Study.Size size, PrintWriter err) {
        return List.of(
                study(benches, World.USUAL.withPriorSkew(1), err, (s, p) -> s.runSingle(size, p))
                        .named("single faults, priors wrong by 10x"),
                study(benches, World.USUAL.withTolerances(2), err, (s, p) -> s.runSingle(size, p))
                        .named("single faults, tolerances doubled"));
    }

    /** Into a folder both pictures under their own names; otherwise the second one beside the first. */
    private void pictures(StudyPictures pictures) {
        boolean folder = Files.isDirectory(svg);
        WholeFile.write(folder ? svg.resolve("study-reliability.svg") : svg, pictures.reliability());
        String name = svg.getFileName().toString();
        String stem = name.endsWith(".svg") ? name.substring(0, name.length() - 4) : name;
        Path beside = folder ? svg.resolve("study-ways.svg") : svg.resolveSibling(stem + "-ways.svg");
        pictures.ways().ifPresent(w -> WholeFile.write(beside, w));
    }
}
