package loomcase.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.journal.Jumper;
import loomcase.journal.Setup;
import picocli.CommandLine;

/** Options that say in which state of engine and plugs something was found. */
final class SetupInput {
    @CommandLine.Option(
            names = "--at",
            paramLabel = "POINT",
            description = "operating point, such as key-on, or key-off")
    private String at;

    @CommandLine.Option(names = "--phase", paramLabel = "PHASE", description = "phase of the operating point")
    private String phase;

    @CommandLine.Option(
            names = "--unplugged",
            paramLabel = "CONNECTOR",
            split = ",",
            description = "connectors that were apart")
    private List<String> unplugged = List.of();

    @CommandLine.Option(
            names = "--jumper",
            paramLabel = "FROM:TO[:OHMS]",
            split = ",",
            description = "leads clipped on, as in C1/1:C1/2:1kohm")
    private List<String> jumpers = List.of();

    @CommandLine.Option(
            names = "--wires-at",
            paramLabel = "CELSIUS",
            description = "temperature of the wires, degrees Celsius")
    private Double wireCelsius;

    /** The setup as typed, which must say whether the key was on. */
    Setup setup() {
        if (at == null)
            throw new InputProblem("give --at with an operating point such as key-on, or --at " + Setup.KEY_OFF);
        return setup(at, List.of(), List.of());
    }

    /** The setup as typed, key off when nothing else was said. */
    Setup setupOrKeyOff() {
        return setup(at == null ? Setup.KEY_OFF : at, List.of(), List.of());
    }

    /** The setup as typed, with more connectors apart and more leads on. */
    Setup with(List<String> moreUnplugged, List<Jumper> moreJumpers) {
        setup();
        return setup(at, moreUnplugged, moreJumpers);
    }

    private Setup setup(String point, List<String> moreUnplugged, List<Jumper> moreJumpers) {
        List<String> apart = new ArrayList<>(moreUnplugged);
        unplugged.stream().filter(u -> !apart.contains(u)).forEach(apart::add);
        List<Jumper> leads = new ArrayList<>(moreJumpers);
        jumpers.stream().map(Jumper::parse).forEach(leads::add);
        return new Setup(
                point.equals(Setup.KEY_OFF) ? Optional.empty() : Optional.of(point),
                Optional.ofNullable(phase),
                apart,
                leads,
                wireCelsius == null ? OptionalDouble.empty() : OptionalDouble.of(wireCelsius));
    }
}
