package loomcase.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import loomcase.InputProblem;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.casework.Shop;
import loomcase.journal.Fact;
import picocli.CommandLine;

/** One kind of line, typed behind {@code record CASE} or behind {@code record CASE correct N}. */
@CommandLine.Command(mixinStandardHelpOptions = true)
abstract class RecordKind implements Callable<Integer> {
    /** The word for no codes. */
    static final String NONE = "none";

    @CommandLine.Spec
    private CommandLine.Model.CommandSpec spec;

    /**
     * What the typed words say.
     *
     * @throws InputProblem when a word is not known
     * @throws IllegalArgumentException when the words do not go together
     */
    abstract Fact fact(OpenCase input);

    /** The case and circuit that the words are about. */
    OpenCase input(Path file) {
        return new Casework(Shop.BUILT_IN).open(file);
    }

    PrintWriter err() {
        return spec.commandLine().getErr();
    }

    @Override
    public Integer call() {
        Object above = spec.parent().userObject();
        if (above instanceof CorrectCommand correct) return correct.add(this);
        return ((RecordCommand) above).add(this, OptionalInt.empty());
    }

    /** A word out of a fixed list. */
    static <E extends Enum<E>> E word(String what, Class<E> kind, String text) {
        List<String> allowed = new ArrayList<>();
        for (E each : kind.getEnumConstants()) {
            String word = each.name().toLowerCase(Locale.ROOT).replace('_', '-');
            if (word.equals(text)) return each;
            allowed.add(word);
        }
        throw new InputProblem(what + " '" + text + "' is not one of " + String.join(", ", allowed));
    }
}
