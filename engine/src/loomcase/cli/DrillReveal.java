package loomcase.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.DrillFile;
import loomcase.drill.Engine;
import loomcase.drill.Planted;
import loomcase.drill.Truth;
import picocli.CommandLine;

/** Says what is planted, to whoever has the passphrase. */
@CommandLine.Command(
        name = "reveal",
        description = "Say what is planted. Needs the instructor's passphrase.",
        footer = {"", "Example:", "  loomcase drill reveal a.drill.json --passphrase-file words.txt"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:revealed", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class DrillReveal implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Parameters(paramLabel = "DRILL", description = "drill file")
    private Path file;

    @CommandLine.Mixin
    private PassphraseInput passphrase;

    @Override
    public Integer call() {
        DrillFile drill = DrillFile.read(file);
        Truth truth = drill.truth(passphrase.passphrase());
        Bench bench = new Casework(Shop.BUILT_IN).circuit(drill.circuit());
        Page page = Page.of(spec.commandLine().getOut());
        for (Planted p : new Engine(bench, truth).planted()) {
            page.line(p.place() + ": " + p.words() + "; there: " + p.showing().word());
            page.line("  id " + p.id());
        }
        truth.strays().forEach(s -> page.line("old stored code " + s.code() + "x" + s.count()));
        page.line("seed " + truth.seed());
        return Main.ANSWER;
    }
}
