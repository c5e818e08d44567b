package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;
import loomcase.model.read.CircuitReader;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The points that a reading may name, held against the network that has to answer for them. */
class PointsTest {
    private static Circuit circuit(String id) {
        return CircuitReader.read(Path.of("circuits", id + ".json"));
    }

    @ParameterizedTest
    @ValueSource(strings = {"teaching", "larch-13"})
    void everyPointThatMayBeNamedIsOneOfTheNetwork(String id) {
        Circuit circuit = circuit(id);
        OperatingPoint op = circuit.operatingPoints().values().iterator().next();
        Solution healthy = new NetworkSolver(circuit, new Layout(circuit))
                .at(op.id(), op.phases().get(0).id())
                .healthy();
        List<String> missing = new EntryCheck(circuit)
                .names().points().stream()
                        .filter(p -> healthy.volts(p).isEmpty())
                        .toList();
        assertEquals(List.of(), missing);
    }

    /** Cavity 14 of J2 is a blank in the file; such a line used to be taken, and no answer was to be had of the case any more. */
    @Test
    void aReadingAtABlankIsRefused() {
        Meter meter = new Meter("", OptionalDouble.empty(), OptionalDouble.empty());
        Fact reading = new Fact.Reading(
                Fact.Test.VOLTS, "J2/14", "chassis", Shown.parse("0V"), Setup.at(Optional.of("key-on")), meter);
        assertEquals(
                new Admission.Refused("cavity J2/14 holds no wire and no pin, so there is nothing to read; look at the"
                        + " number again, or write a note"),
                new EntryCheck(circuit("larch-13")).admit(reading));
    }
}
