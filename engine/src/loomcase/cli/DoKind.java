package loomcase.cli;

import java.util.concurrent.Callable;
import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import picocli.CommandLine;

/** One kind of thing to do, typed behind {@code drill do RUN}. */
@CommandLine.Command(mixinStandardHelpOptions = true)
abstract class DoKind implements Callable<Integer> {
    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    /**
     * What the typed words ask for.
     *
     * @throws loomcase.InputProblem when a word is not known
     * @throws IllegalArgumentException when the words do not go together
     */
    abstract Request request(CircuitNames names);

    @Override
    public Integer call() {
        return ((DrillDo) spec.parent().userObject()).act(this);
    }
}
