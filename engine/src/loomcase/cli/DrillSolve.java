package loomcase.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.DrillFile;
import loomcase.drill.Played;
import loomcase.drill.Solver;
import loomcase.drill.Truth;
import loomcase.json.DrillReport;
import picocli.CommandLine;

/** Lets the planner play drills. */
@CommandLine.Command(
        name = "solve",
        description = "Let the planner play drills, for the instructor: what it does, minutes, whether it is right.",
        footer = {"", "Example:", "  loomcase drill solve a.drill.json --passphrase-file words.txt"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {
            "0:every drill was mended",
            "1:a drill was not",
            "2:bad input; one line says what and where",
            "3:a fault in Loomcase itself"
        })
final class DrillSolve implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(arity = "1..*", paramLabel = "DRILL", description = "drill files")
    private List<Path> files;

    @CommandLine.Option(names = "--json", description = "the answer for a program, one object a drill")
    private boolean json;

    @CommandLine.Mixin
    private PassphraseInput passphrase;

    @Override
    public Integer call() {
        char[] words = passphrase.passphrase();
        Casework casework = new Casework(Shop.BUILT_IN);
        Page page = Page.of(spec.commandLine().getOut());
        boolean all = true;
        for (Path file : files) {
            DrillFile drill = DrillFile.read(file);
            Truth truth = drill.truth(words);
            Bench bench = casework.circuit(drill.circuit());
            Played played = new Solver(bench).play(truth, drill.drill().first());
            all &= played.found();
            if (json)
                DrillReport.of(file.toString(), played).print(spec.commandLine().getOut());
            else {
                page.line(String.format(
                        Locale.ROOT,
                        "%s: %.0f minutes, %s %s, %d tests; first place %s, %s",
                        file,
                        played.bill().minutes(),
                        played.bill().money(bench.circuit().costs()),
                        bench.circuit().costs().currency(),
                        played.tests(),
                        played.rightFirst() ? "right" : "wrong",
                        played.found() ? "mended" : "not mended"));
                new DrillText(page).path(played);
            }
        }
        return all ? Main.ANSWER : Main.NOT_SETTLED;
    }
}
