package loomcase.cli;

import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.drill.Request;
import loomcase.journal.CircuitNames;
import loomcase.journal.Fact;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import picocli.CommandLine;

/** A meter reading. */
@CommandLine.Command(
        name = "reading",
        description = {
            "Read a meter between two points: volts, ohms, drop or isolation.",
            "As in: reading volts C1/1 chassis --at key-on; reading ohms J1/6 C1/1 --unplugged J1,C1"
        })
final class DoReading extends DoKind {
    private static final String TEST_PIN = "test-pin";
    private static final String BARE = "bare";

    @CommandLine.Parameters(index = "0", paramLabel = "TEST", description = "volts, ohms, drop or isolation")
    private String test;

    @CommandLine.Parameters(index = "1", paramLabel = "A", description = "red lead")
    private String a;

    @CommandLine.Parameters(index = "2", paramLabel = "B", description = "black lead")
    private String b;

    @CommandLine.Mixin
    private SetupInput setup;

    @CommandLine.Option(
            names = "--probe",
            paramLabel = "HOW",
            description = "test-pin (or breakout lead; the usual), or bare, which is quicker")
    private String probe = TEST_PIN;

    @CommandLine.Option(
            names = "--meter-ohms",
            paramLabel = "OHMS",
            description = "resistance of the meter when it reads volts; 10Mohm when not said")
    private String inputOhms;

    @CommandLine.Option(names = "--zero-leads", description = "hold the leads together first and take that off")
    private boolean zero;

    @Override
    Request request(CircuitNames names) {
        if (!probe.equals(TEST_PIN) && !probe.equals(BARE))
            throw new InputProblem("--probe '" + probe + "' is not one of test-pin, bare");
        Fact.Test kind = RecordKind.word("test", Fact.Test.class, test);
        boolean ohms = kind.quantity() == Shown.Quantity.OHMS;
        Setup state = ohms ? setup.setupOrKeyOff() : setup.setup();
        Meter meter = new Meter(
                probe.equals(BARE) ? Request.BARE_PROBE : "",
                inputOhms == null
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(Shown.parseOhms("--meter-ohms", inputOhms)),
                zero ? OptionalDouble.of(Request.LEAD_OHMS) : OptionalDouble.empty());
        return new Request.Measure(kind, a, b, state, meter);
    }
}
