package loomcase.model.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import loomcase.InputProblem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How strictly a circuit file is read; messages are held word for word where they are ours. */
class CircuitReaderTest {
    @TempDir
    private Path folder;

    private static String message(Path file) {
        String message =
                assertThrows(InputProblem.class, () -> CircuitReader.read(file)).getMessage();
        assertEquals(1, message.lines().count(), message);
        return message;
    }

    private void refused(Teaching circuit, String words) {
        Path file = circuit.in(folder);
        assertEquals(file + ": line " + circuit.line() + ": " + words, message(file));
    }

    private String ofText(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("c.json"), text);
        return message(file).substring((file + ": ").length());
    }

    @Test
    void idsStayInFileOrder() throws IOException {
        var circuit = CircuitReader.read(Teaching.FILE);
        assertEquals(
                "[J1/1, J1/2, J1/3, J1/4, J1/5, J1/6, J1/7, J1/8]",
                circuit.controlUnit().pins().keySet().toString());
        assertEquals(
                "[supply, return, signal]",
                circuit.devices().get("OPS").terminals().keySet().toString());
    }

    @Test
    void byteOrderMarkIsForgiven() throws IOException {
        Path file = Files.writeString(folder.resolve("c.json"), "\uFEFF" + Files.readString(Teaching.FILE));
        assertEquals(CircuitReader.read(Teaching.FILE), CircuitReader.read(file));
    }

    @Test
    void keyGivenTwice() {
        refused(
                new Teaching().with("\"id\": \"teaching\",", "\"id\": \"teaching\", \"id\": \"other\","),
                "not valid JSON: Duplicate field 'id'");
    }

    @Test
    void misspeltKeyOfAFieldThatMustBeThere() {
        refused(
                new Teaching().with("\"to\": \"JN3\", \"metres\": 0.4", "\"to\": \"JN3\", \"meters\": 0.4"),
                "branches B3.meters: is not a known key; did you mean 'metres'?");
    }

    @Test
    void misspeltKeyOfAFieldThatMayBeLeftOut() {
        refused(
                new Teaching()
                        .with(
                                "\"metres\": 0.4, \"zone\": \"intake\", \"clips\": 1",
                                "\"metres\": 0.4, \"zone\": \"intake\", \"clip\": 1"),
                "branches B3.clip: is not a known key; did you mean 'clips'?");
    }

    @Test
    void keyLikeNoOther() {
        refused(
                new Teaching().with("{\"id\": \"frame\",", "{\"colour\": \"grey\", \"id\": \"frame\","),
                "zones frame.colour: is not a known key; allowed here: celsius, fluid, id, vibration");
    }

    @Test
    void fieldThatIsMissing() {
        refused(new Teaching().with("\"amperes\": 10, ", ""), "fuses F1.amperes: is missing");
    }

    @Test
    void numberOutOfRange() {
        refused(
                new Teaching().with("\"amperes\": 10,", "\"amperes\": 0,"),
                "fuses F1.amperes: 0 is not within 0.1 to 1000");
    }

    @Test
    void numberInQuotes() {
        refused(new Teaching().with("\"amperes\": 10,", "\"amperes\": \"10\","), "fuses F1.amperes: must be a number");
    }

    @Test
    void partOfANumber() {
        refused(new Teaching().with("\"spn\": 168,", "\"spn\": 168.5,"), "watches[8].spn: 168.5 is not a whole number");
    }

    @Test
    void wordThatIsNotInTheList() {
        refused(
                new Teaching()
                        .with("\"celsius\": 60, \"vibration\": \"low\"", "\"celsius\": 60, \"vibration\": \"none\""),
                "zones frame.vibration: 'none' is not one of low, medium, high");
    }

    @Test
    void circuitKindThatTheRulesDoNotKnow() {
        refused(
                new Teaching().with("\"circuitKind\": \"power\"", "\"circuitKind\": \"battery\""),
                "watches[8].circuitKind: 'battery' is not one of ntc, ratiometric-pull-down,"
                        + " ratiometric-pull-up, hall, variable-reluctance, low-side, high-side, injector, bridge, node,"
                        + " supply, network, probe, position, power");
    }

    @Test
    void quantityThatTheDeviceLacks() {
        refused(
                new Teaching().with("\"quantity\": \"fraction\"", "\"quantity\": \"celsius\""),
                "devices OPS.conditions low-oil.quantity: a device of kind ratiometric has no such quantity");
    }

    @Test
    void nameWithASignThatLongerNamesAreMadeOf() {
        refused(
                new Teaching().with("{\"id\": \"S2\",", "{\"id\": \"S/2\","),
                "splices S/2.id: 'S/2' is no name; leave out spaces and / @ ~ : . , ; ' \"");
    }

    @Test
    void idGivenTwiceInAList() {
        refused(
                new Teaching().with("{\"id\": \"W15\",", "{\"id\": \"W14\","),
                "wires W14.id: 'W14' is used twice in this list");
    }

    @Test
    void wireFromAPlaceToItself() {
        refused(
                new Teaching().with("\"from\": \"J1/6\", \"to\": \"C1/1\"", "\"from\": \"J1/6\", \"to\": \"J1/6\""),
                "wires W11.to: 'J1/6' is where the wire starts; a wire joins two points");
    }

    @Test
    void wireSizeInAnotherForm() {
        refused(
                new Teaching().with("\"size\": \"2.5mm2\"", "\"size\": \"2.5\""),
                "wires W1.size: '2.5' is not a size; write it as AWG18 (0 to 40) or 1.5mm2");
    }

    @Test
    void wireSizeThatWouldReadAsAnotherOne() {
        refused(
                new Teaching().with("\"size\": \"2.5mm2\"", "\"size\": \"AWG000\""),
                "wires W1.size: 'AWG000' is not a size; write it as AWG18 (0 to 40) or 1.5mm2");
    }

    @Test
    void limitInTheUnitOfAnotherMeasure() {
        refused(
                new Teaching().with("\"belowAmperes\": 0.3", "\"belowVolts\": 0.3"),
                "watches[11].aboveAmperes: give exactly one of aboveAmperes and belowAmperes");
    }

    @Test
    void amountBelowNothing() {
        refused(
                new Teaching().with("\"harnessPart\": \"380.00\"", "\"harnessPart\": \"-1\""),
                "costs.harnessPart: '-1' is not an amount such as \"120.00\", 0 or more");
    }

    @Test
    void listWithoutEntries() throws IOException {
        assertEquals(
                "line 1: operatingPoints: is missing",
                ofText(
                        "{\"form\": \"loomcase-circuit/1\", \"id\": \"x\", \"title\": \"\", \"origin\": \"\", \"zones\": [{\"id\":"
                                + " \"z\", \"celsius\": 1, \"vibration\": \"low\", \"fluid\": \"dry\"}]}"));
        assertEquals(
                "line 1: zones: needs at least one entry", ofText("{\"form\": \"loomcase-circuit/1\", \"zones\": []}"));
    }

    @Test
    void anotherForm() throws IOException {
        assertEquals(
                "line 2: form: 'loomcase-circuit/2' is not known; allowed is loomcase-circuit/1",
                ofText("{\n\"form\": \"loomcase-circuit/2\"}"));
    }

    @Test
    void somethingElseThanAnObject() throws IOException {
        assertEquals("line 1: a JSON object {…} was expected", ofText("[1, 2]"));
    }

    @Test
    void textAfterTheEnd() throws IOException {
        assertEquals("line 2: text after the end of the JSON value", ofText("{}\n{}"));
    }

    @Test
    void commentInTheFile() throws IOException {
        assertTrue(ofText("{\n// note\n}").startsWith("line 2: not valid JSON: "));
        assertTrue(ofText("{} # note").startsWith("line 1: not valid JSON: "));
    }

    @Test
    void bracketLeftOpen() throws IOException {
        assertEquals(
                "line 3: not valid JSON: Unexpected end-of-input: expected close marker for Object that opens in line 2",
                ofText("{\"form\": \"loomcase-circuit/1\", \"costs\":\n{\"currency\": \"CU\"\n"));
    }

    @Test
    void emptyFile() throws IOException {
        assertEquals("is empty, a JSON object was expected", ofText(""));
        assertEquals("is empty, a JSON object was expected", ofText(" \n\n"));
    }

    @Test
    void folderInPlaceOfAFile() {
        assertEquals(folder + ": is a folder, not a JSON file", message(folder));
    }

    @Test
    void fileThatIsNotThere() {
        Path file = folder.resolve("none.json");
        assertEquals(file + ": no such file", message(file));
    }

    @Test
    void fileThatMayNotBeRead() throws IOException {
        Path file = Files.writeString(folder.resolve("locked.json"), "{}");
        assertTrue(file.toFile().setReadable(false));
        assumeFalse(Files.isReadable(file), "this user may read everything");
        assertEquals(file + ": this user may not read it", message(file));
    }

    @Test
    void textThatIsNotUtf8() throws IOException {
        Path file =
                Files.write(folder.resolve("c.json"), "{\"title\": \"Kühlung\"}".getBytes(StandardCharsets.ISO_8859_1));
        assertEquals(file + ": is not UTF-8 text", message(file));
    }

    @Test
    void binaryJunk() throws IOException {
        Random random = new Random(7);
        for (int i = 0; i < 200; i++) {
            byte[] junk = new byte[1 + random.nextInt(300)];
            random.nextBytes(junk);
            Path file = Files.write(folder.resolve("c.json"), junk);
            assertTrue(message(file).startsWith(file + ": "));
        }
        assertTrue(ofText("\u0000\u0001\u0002").startsWith("line 1: not valid JSON: "));
    }

    @Test
    void nestedDeeperThanAnyCircuit() throws IOException {
        assertTrue(ofText("{\"a\":" + "[".repeat(100_000)).startsWith("line 1: not valid JSON: "));
    }

    @Test
    void everyPrefixOfACircuitIsRefusedInOneLine() throws IOException {
        String text = Files.readString(Teaching.FILE).trim();
        for (int end = 0; end < text.length(); end += 53) ofText(text.substring(0, end));
    }

    @Test
    void shellThatIsNoObject() {
        refused(
                new Teaching().with("\"mates\": \"ECT\",", "\"mates\": \"ECT\", \"shell\": \"A\","),
                "connectors C1.shell: must be an object {…}");
    }

    @Test
    void shellLayAndCoverAreRead() {
        var circuit = CircuitReader.read(Path.of("circuits/larch-13.json"));
        assertEquals(
                "S", circuit.connectors().get("C-CKP").shell().orElseThrow().keying());
        var crank = circuit.wires().values().stream()
                .filter(w -> w.circuit().equals("crank speed, positive"))
                .findFirst()
                .orElseThrow();
        var other = circuit.wires().get(crank.lay().twistedWith().orElseThrow());
        assertEquals("crank speed, negative", other.circuit());
        assertTrue(crank.lay().shielded());
        assertEquals(
                loomcase.model.Branch.Cover.MOULDED,
                circuit.branches().get("BE15").build().cover());
        assertEquals("65.00", circuit.costs().downtimePerHour().toString());
    }
}
