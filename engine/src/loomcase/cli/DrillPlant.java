package loomcase.cli;

import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.Difficulty;
import loomcase.drill.DrillFile;
import loomcase.drill.Limits;
import loomcase.drill.Planter;
import loomcase.drill.Showing;
import picocli.CommandLine;

/** Makes a drill, or a class set of them. */
@CommandLine.Command(
        name = "plant",
        description = {
            "Plant a fault and seal it in a new drill file: one you name, or one drawn by difficulty with a seed.",
            "The seal keeps the answer from whoever opens the file, not from someone who takes the program apart."
        },
        footer = {
            "",
            "Examples:",
            "  loomcase drill plant a.drill.json --circuit circuits/teaching.json --fault \"splice.open S2\"",
            "  loomcase drill plant b.drill.json --circuit circuits/larch-13.json \\",
            "                --difficulty hard --seed 7 --set 12"
        },
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:planted", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class DrillPlant implements Callable<Integer> {
    private static final int MOST_SET = 100;

    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(
            paramLabel = "DRILL",
            description = "new drill file, ending in " + DrillFile.ENDING + "; a set is numbered before the ending")
    private Path file;

    @CommandLine.Option(names = "--circuit", required = true, paramLabel = "FILE", description = "circuit file")
    private Path circuit;

    @CommandLine.Option(names = "--fault", paramLabel = "ID", description = "fault to plant; twice for two at once")
    private List<String> faults = List.of();

    @CommandLine.Option(
            names = "--showing",
            paramLabel = "WHEN",
            description = "when a named fault is there: always, hot, moved or at-random")
    private String showing;

    @CommandLine.Option(names = "--stray", description = "store an old code beside a named fault")
    private boolean stray;

    @CommandLine.Option(names = "--difficulty", paramLabel = "WORD", description = "draw one: easy, medium or hard")
    private String difficulty;

    @CommandLine.Option(
            names = "--seed",
            paramLabel = "N",
            description = "whole number; the same seed gives the same drill on any machine, so a student who guesses it"
                    + " can draw it too; otherwise one is drawn and said (for a named fault: 1)")
    private Long seed;

    @CommandLine.Option(names = "--set", paramLabel = "N", description = "draw N different drills of equal difficulty")
    private int set = 1;

    @CommandLine.Option(names = "--minutes", paramLabel = "N", description = "time limit on the drill's clock")
    private Double minutes;

    @CommandLine.Option(names = "--money", paramLabel = "N", description = "limit for labour and parts together")
    private BigDecimal money;

    @CommandLine.Option(names = "--hint-minutes", paramLabel = "N", description = "what a hint costs")
    private double hintMinutes = Limits.USUAL_HINT_MINUTES;

    @CommandLine.Mixin
    private PassphraseInput passphrase;

    @Override
    public Integer call() {
        if (faults.isEmpty() == (difficulty == null))
            throw new InputProblem("give either --fault with an id, or --difficulty with easy, medium or hard");
        if (set < 1 || set > MOST_SET) throw new InputProblem("--set " + set + " is not within 1 to " + MOST_SET);
        if (set > 1 && difficulty == null) throw new InputProblem("--set goes with --difficulty");
        Limits limits = limits();
        List<Path> files = files();
        char[] words = passphrase.passphrase();
        Bench bench = new Casework(Shop.BUILT_IN).circuit(circuit);
        List<Planter.Made> made = made(new Planter(bench));
        for (int i = 0; i < made.size(); i++) {
            Planter.Made m = made.get(i);
            String word = difficulty == null ? "" : difficulty;
            DrillFile.write(
                    files.get(i), m.drill(CaseFile.name(files.get(i), circuit), word, limits), m.truth(), words);
            spec.commandLine()
                    .getOut()
                    .printf(
                            java.util.Locale.ROOT,
                            "%s: planted; %d codes, difficulty score %.1f%s%n",
                            files.get(i),
                            m.first().codes().size(),
                            m.rating().score(),
                            seed == null && difficulty != null
                                    ? ", seed " + m.truth().seed()
                                    : "");
        }
        return Main.ANSWER;
    }

    private List<Planter.Made> made(Planter planter) {
        if (difficulty != null)
            return planter.set(Difficulty.of(difficulty), set, seed == null ? Planter.anySeed() : seed);
        return List.of(
                planter.plant(faults, Optional.ofNullable(showing).map(Showing::of), stray, seed == null ? 1 : seed));
    }

    private List<Path> files() {
        if (!file.toString().endsWith(DrillFile.ENDING))
            throw new InputProblem(file + ": a drill file ends in " + DrillFile.ENDING);
        List<Path> out = new ArrayList<>();
        String name = file.getFileName().toString();
        String stem = name.substring(0, name.length() - DrillFile.ENDING.length());
        for (int i = 1; i <= set; i++)
            out.add(set == 1 ? file : file.resolveSibling(stem + "-" + i + DrillFile.ENDING));
        for (Path p : out)
            if (Files.exists(p)) throw new InputProblem(p + ": exists already; a new drill needs a new file");
        return out;
    }

    private Limits limits() {
        try {
            return new Limits(
                    minutes == null ? OptionalDouble.empty() : OptionalDouble.of(minutes),
                    Optional.ofNullable(money),
                    hintMinutes);
        } catch (IllegalArgumentException e) {
            throw new InputProblem(e.getMessage(), e);
        }
    }
}
