package loomcase.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.Planter;
import picocli.CommandLine;

/** Lists the faults that may be planted. */
@CommandLine.Command(
        name = "faults",
        description = "List the faults that a circuit allows, id and words, for planting.",
        footer = {"", "Example:", "  loomcase drill faults --circuit circuits/teaching.json splice"},
        exitCodeListHeading = "%nExit codes:%n",
        exitCodeList = {"0:the list", "2:bad input; one line says what and where", "3:a fault in Loomcase itself"})
final class DrillFaults implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    @CommandLine.Mixin
    private Help help;

    @CommandLine.Option(names = "--circuit", required = true, paramLabel = "FILE", description = "circuit file")
    private Path circuit;

    @CommandLine.Parameters(arity = "0..1", paramLabel = "WORD", description = "only those with this in id or words")
    private String word = "";

    @Override
    public Integer call() {
        new Planter(new Casework(Shop.BUILT_IN).circuit(circuit)).faults().forEach((id, words) -> {
            if (id.contains(word) || words.contains(word))
                spec.commandLine().getOut().println(id + "\t" + words);
        });
        return Main.ANSWER;
    }
}
