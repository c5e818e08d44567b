package loomcase.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import loomcase.model.read.CircuitReader;
import loomcase.model.read.Teaching;
import loomcase.policy.PolicyOutcome;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * One proof broken at a time by the smallest change to the teaching circuit (our own invented data); the shipped circuits
 * are proved. What the network measures is checked against independent solvers in the tests of {@code solve}.
 */
class CircuitCheckTest {
    private static final PolicyOutcome NO_RULES =
            new PolicyOutcome(List.of(), List.of(), List.of(), List.of(), false, List.of());

    @TempDir
    private Path folder;

    private List<String> problems(Teaching circuit) {
        return CircuitCheck.problems(CircuitReader.read(circuit.in(folder)), NO_RULES, share -> {});
    }

    private void fails(Teaching circuit, String... sentences) {
        assertEquals(List.of(sentences), problems(circuit));
    }

    @ParameterizedTest
    @ValueSource(strings = {"teaching.json", "larch-13.json"})
    void shippedCircuitsAreProved(String name) {
        List<Double> shares = new ArrayList<>();
        var circuit = CircuitReader.read(Path.of("circuits", name));
        assertEquals(List.of(), CircuitCheck.problems(circuit, NO_RULES, shares::add));
        assertTrue(shares.stream().allMatch(s -> s > 0 && s <= 1) && !shares.isEmpty());
        assertEquals(shares.stream().sorted().toList(), shares);
    }

    @Test
    void pinAndTerminalWithoutAWire() {
        fails(
                new Teaching().without("{\"id\": \"W11\""),
                "device ECT: terminal signal at C1/1 is reached by no wire; add the wire or drop the terminal",
                "control-unit pin J1/6: is reached by no wire; add the wire or drop the pin");
    }

    @Test
    void wireToACavityWithNothingBehindIt() {
        fails(
                new Teaching()
                        .with("\"rows\": [\"1 2 3 4\", \"5 6 7 8\"]", "\"rows\": [\"1 2 3 4\", \"5 6 7 8 9\"]")
                        .with(
                                "    {\"id\": \"W15\"",
                                "    {\"id\": \"W16\", \"circuit\": \"spare\", \"from\": \"S1\", \"to\": \"J1/9\", \"size\": \"AWG18\"},\n    {\"id\": \"W15\""),
                "wire W16: ends at J1/9, where nothing is on the other side; give ECM a function there");
    }

    @Test
    void wireToOneHalfOfAnInlineCavityOnly() {
        fails(
                new Teaching()
                        .with("    {\"id\": \"CB\",", half("XA", "XB") + half("XB", "XA") + "    {\"id\": \"CB\",")
                        .with(
                                "    {\"id\": \"W15\"",
                                "    {\"id\": \"W16\", \"circuit\": \"spare\", \"from\": \"S1\", \"to\": \"XA/1\", \"size\": \"AWG18\"},\n    {\"id\": \"W15\""),
                "wire W16: ends at XA/1, where nothing is on the other side; add a wire at XB/1");
    }

    private static String half(String id, String mates) {
        return "    {\"id\": \"" + id + "\", \"label\": \"half\", \"at\": \"JN1\", \"mates\": \"" + mates
                + "\", \"rows\": [\"1\"], \"zone\": \"front\"},\n";
    }

    @Test
    void spliceOfOneWire() {
        fails(
                new Teaching()
                        .with(
                                "    {\"id\": \"S2\"",
                                "    {\"id\": \"S3\", \"label\": \"spare\", \"branch\": \"B1\", \"metresAlong\": 0.6},\n    {\"id\": \"S2\"")
                        .with(
                                "    {\"id\": \"W15\"",
                                "    {\"id\": \"W16\", \"circuit\": \"spare\", \"from\": \"S1\", \"to\": \"S3\", \"size\": \"AWG18\"},\n    {\"id\": \"W15\""),
                "splice S3: joins 1 wire; a splice needs two or more, so add the others or drop it");
    }

    @Test
    void spliceOfNoWire() {
        fails(
                new Teaching()
                        .with(
                                "    {\"id\": \"S2\"",
                                "    {\"id\": \"S3\", \"label\": \"spare\", \"branch\": \"B1\", \"metresAlong\": 0.6},\n    {\"id\": \"S2\""),
                "splice S3: joins no wire; a splice needs two or more, so add the others or drop it");
    }

    @Test
    void codeWithoutACircuit() {
        fails(
                new Teaching()
                        .with(
                                "\"circuitKind\": \"power\", \"device\": \"\", \"rail\": \"\"",
                                "\"circuitKind\": \"power\", \"device\": \"OPS\", \"rail\": \"\""),
                "watch 168/4 (battery voltage at the control unit low): measures J1/1, which no wires join to device OPS;"
                        + " name the pin of its circuit or another device");
    }

    @Test
    void codeOfADeviceBehindAFuseHasACircuit() {
        assertEquals(
                List.of(),
                problems(new Teaching()
                        .with(
                                "\"circuitKind\": \"power\", \"device\": \"\", \"rail\": \"\"",
                                "\"circuitKind\": \"power\", \"device\": \"BAT\", \"rail\": \"\"")));
    }

    /**
     * The 12.45 V by hand: 12 ohm of the unit and about 16 mA of two sensors at 12.5 V draw 1.06 A through battery 8,
     * fuse 8, two contacts 5 each, 0.9 m of 2.5 mm² (6.2) and 0.9 m of 1.5 mm² (10.3) on the way there and contact 5, stud
     * 1 and 0.1 m of 1.5 mm² (1.1) on the way back: 49.6 mohm, 0.05 V.
     */
    @Test
    void healthyEngineThatSetsACode() {
        fails(
                new Teaching().with("\"belowVolts\": 9.5", "\"belowVolts\": 13.0"),
                "watch 168/4 (shown as 168/4): a healthy engine measures 12.45 at key-on, too near the limit below 13.00"
                        + " (spread 0.200); move the limit or the device's healthy value");
    }

    @Test
    void codeThatNoFaultReaches() {
        fails(
                new Teaching().with("\"aboveVolts\": 5.4", "\"aboveVolts\": 50"),
                "watch 3509/3 (5 V sensor supply high): no single fault or engine condition sets it; check its pin, phase"
                        + " and limit");
    }

    @Test
    void fuseThatAHealthyEngineBlows() {
        fails(
                new Teaching().with("\"amperes\": 10,", "\"amperes\": 1.6,"),
                "operating point key-on, phase drive: the healthy network opens [fuse:F1]; give the fuse a larger rating or"
                        + " the load more ohms",
                "operating point idle-warm, phase drive: the healthy network opens [fuse:F1]; give the fuse a larger rating"
                        + " or the load more ohms");
    }

    @Test
    void unitThatAHealthyEngineStarves() {
        List<String> problems =
                problems(new Teaching().with("\"minimumSupplyVolts\": 6,", "\"minimumSupplyVolts\": 13,"));
        assertEquals(
                "control unit ECM: a healthy engine gives it only 12.45 V at operating point key-on, phase rest, below its"
                        + " minimum of 13 V, so it would set no code; look at its feed, its ground and batteryVolts",
                problems.get(0));
        assertEquals(2, problems.size());
    }
}
