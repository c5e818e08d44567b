package loomcase.cli;

import java.util.List;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.casework.OpenCase;
import loomcase.journal.Fact;
import loomcase.journal.Meter;
import loomcase.journal.Shown;
import picocli.CommandLine;

/** A meter reading. */
@CommandLine.Command(
        name = "reading",
        description = {
            "What a meter showed between two points: volts, ohms, drop (volts lost while current flows) or isolation.",
            "As in: reading volts C1/1 chassis 4.98V --at key-on; reading ohms J1/6 C1/1 open --unplugged J1,C1"
        })
final class RecordReading extends RecordKind {
    private static final int WORDS = 4;

    @CommandLine.Parameters(
            paramLabel = "TEST A B VALUE",
            hideParamSyntax = true,
            description =
                    "the test, the red lead, the black lead, and what the meter showed with its" + " unit, or open")
    private List<String> words = List.of();

    @CommandLine.Mixin
    private SetupInput setup;

    @CommandLine.Option(names = "--meter", paramLabel = "NAME", description = "what the meter is called")
    private String meter = "";

    @CommandLine.Option(
            names = "--meter-ohms",
            paramLabel = "OHMS",
            description = "its own resistance when it reads volts, such as 10Mohm")
    private String inputOhms;

    @CommandLine.Option(
            names = "--lead-zero",
            paramLabel = "OHMS",
            description = "what the leads read held together and was taken off the reading, such as 0.2ohm")
    private String leadZero;

    /** A value below 0 starts like an option, so what no option is called is taken as a word. */
    @CommandLine.Spec
    void acceptValuesBelowZero(CommandLine.Model.CommandSpec spec) {
        spec.parser().unmatchedOptionsArePositionalParams(true);
    }

    @Override
    Fact fact(OpenCase input) {
        for (String word : words)
            if (word.matches("--?[a-zA-Z].*"))
                throw new InputProblem(
                        "option " + word + " is not known; loomcase record CASE reading --help lists them");
        if (words.size() != WORDS)
            throw new InputProblem("a reading has four words, TEST A B VALUE, as in volts C1/1 chassis 4.98V; given"
                    + " are " + words.size() + (words.isEmpty() ? "" : ": " + String.join(" ", words)));
        Fact.Test test = word("test", Fact.Test.class, words.get(0));
        Shown shown = Shown.parse(words.get(3));
        boolean ohms = test.quantity() == Shown.Quantity.OHMS;
        return new Fact.Reading(
                test,
                words.get(1),
                words.get(2),
                shown,
                ohms ? setup.setupOrKeyOff() : setup.setup(),
                new Meter(meter, ohms("--meter-ohms", inputOhms), ohms("--lead-zero", leadZero)));
    }

    private static OptionalDouble ohms(String option, String text) {
        return text == null ? OptionalDouble.empty() : OptionalDouble.of(Shown.parseOhms(option, text));
    }
}
