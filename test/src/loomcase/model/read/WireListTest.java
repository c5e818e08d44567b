package loomcase.model.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import loomcase.InputProblem;
import loomcase.model.Conductor;
import loomcase.model.Wire;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Wire lists, good and bad; quoting follows RFC 4180, section 2. */
class WireListTest {
    private static final String HEAD = "wire,size,fromConnector,fromCavity,toConnector,toCavity,branch,metres\n";

    @TempDir
    private Path folder;

    private Path list(String text) throws IOException {
        return Files.writeString(folder.resolve("list.csv"), text);
    }

    /** The complaint, the file's name shown as FILE. */
    private String refused(String text) throws IOException {
        Path file = list(text);
        return assertThrows(InputProblem.class, () -> WireList.read(file))
                .getMessage()
                .replace(file.toString(), "FILE");
    }

    @Test
    void wiresWithEveryColumnInAnyOrder() throws IOException {
        WireList read = WireList.read(list(
                "branch,metres,colour,circuit,insulation,wire,size,toConnector,toCavity,fromConnector,fromCavity\r\n"
                        + "B1 B2,1.25,red/white,\"feed, \"\"main\"\"\",GXL,W1,AWG18,J1,1,F1,out\r\n"
                        + "\r\n"
                        + "B1,,,,,W2,2.5mm2,S1,,J1,2\r\n"));
        assertEquals(
                java.util.List.of(
                        new Wire(
                                "W1",
                                "feed, \"main\"",
                                "F1/out",
                                "J1/1",
                                Conductor.parse("AWG18"),
                                "red/white",
                                "GXL",
                                OptionalDouble.of(1.25)),
                        new Wire("W2", "", "J1/2", "S1", Conductor.parse("2.5mm2"), "", "", OptionalDouble.empty())),
                read.wires());
        assertEquals("{F1=[out], J1=[1, 2]}", read.connectors().toString());
        assertEquals("[B1, B2]", read.branches().toString());
    }

    @Test
    void byteOrderMarkAndSpacesAreForgiven() throws IOException {
        WireList read = WireList.read(list("\uFEFF" + HEAD + " W1 , AWG18 , J1 , 1 , C1 , 2 , B1 , 0.5"));
        assertEquals("J1/1", read.wires().get(0).from());
    }

    @Test
    void theTeachingCircuitsWiresComeBackFromAWireList() throws IOException {
        var circuit = CircuitReader.read(Teaching.FILE);
        String csv = "wire,size,fromConnector,fromCavity,toConnector,toCavity,branch,metres,colour,circuit,insulation\n"
                + circuit.wires().values().stream()
                        .map(w -> String.join(
                                ",",
                                w.id(),
                                w.size().name(),
                                end(w.from()),
                                end(w.to()),
                                "",
                                "",
                                w.colour(),
                                w.circuit(),
                                w.insulation()))
                        .collect(Collectors.joining("\n"));
        assertEquals(
                java.util.List.copyOf(circuit.wires().values()),
                WireList.read(list(csv)).wires());
    }

    private static String end(String point) {
        return point.contains("/") ? point.replace('/', ',') : point + ",";
    }

    @Test
    void everyBadLineIsNamed() throws IOException {
        assertEquals(
                "FILE: line 2: size '18' is not a size; write it as AWG18 (0 to 40) or 1.5mm2\n"
                        + "FILE: line 3: fromConnector is empty\n"
                        + "FILE: line 5: toCavity '1 2' is no name; leave out spaces and / @ ~ : . , ; ' \"\n"
                        + "FILE: line 6: wire 'W1' is also in line 2\n"
                        + "FILE: line 7: the wire ends where it starts, at J1/1\n"
                        + "FILE: line 8: metres '1,5' is not a length within 0.001 to 100, written with a point as in 1.25\n"
                        + "FILE: line 9: metres '0' is not a length within 0.001 to 100, written with a point as in 1.25\n"
                        + "FILE: line 10: branch 'B:1' is no name; divide branches by spaces\n"
                        + "FILE: line 11: has 7 fields, the first line names 8\n"
                        + "FILE: line 12: wire is empty",
                refused(HEAD
                        + "W1,18,J1,1,C1,1,B1,1\n"
                        + "W2,AWG18,,1,C1,1,B1,1\n"
                        + "W3,AWG18,J1,1,C1,1,B1,1\n"
                        + "W4,AWG18,J1,1,C1,1 2,B1,1\n"
                        + "W1,AWG18,J1,1,C1,1,B1,1\n"
                        + "W6,AWG18,J1,1,J1,1,B1,1\n"
                        + "W7,AWG18,J1,1,C1,1,B1,\"1,5\"\n"
                        + "W8,AWG18,J1,1,C1,1,B1,0\n"
                        + "W9,AWG18,J1,1,C1,1,B:1,1\n"
                        + "W10,AWG18,J1,1,C1,1,B1\n"
                        + ",AWG18,J1,1,C1,1,B1,1"));
    }

    @Test
    void manyBadLinesAreCounted() throws IOException {
        String message = refused(HEAD + "W1,18,J1,1,C1,1,B1\n".repeat(25));
        assertEquals(21, message.lines().count());
        assertTrue(message.endsWith("\nFILE: 5 more problems"), message);
    }

    @Test
    void columnsThatAreMissingUnknownOrDoubled() throws IOException {
        String columns = "wire, size, fromConnector, fromCavity, toConnector, toCavity, branch, metres, and if wanted"
                + " colour, circuit, insulation";
        assertEquals(
                "FILE: line 1: column 'gauge' is not known; allowed are " + columns + "\n"
                        + "FILE: line 1: column 'wire' is there twice\n"
                        + "FILE: line 1: column 'size' is missing; needed are " + columns,
                refused("wire,gauge,wire,fromConnector,fromCavity,toConnector,toCavity,branch,metres\n"));
    }

    @Test
    void emptyListsAndListsOfNothing() throws IOException {
        assertTrue(refused("").startsWith("FILE: is empty; its first line must name wire, size, "));
        assertEquals("FILE: has no wires below its first line", refused(HEAD));
    }

    @Test
    void quoteLeftOpen() throws IOException {
        assertTrue(refused(HEAD + "W1,\"AWG18,J1,1,C1,1,B1,1\n").startsWith("FILE: not valid comma-separated text: "));
    }

    @Test
    void filesThatAreNoText() throws IOException {
        Path file = folder.resolve("list.csv");
        Files.write(file, (HEAD + "W1,AWG18,J1,1,C1,1,Türe,1").getBytes(StandardCharsets.ISO_8859_1));
        assertEquals(
                file + ": is not UTF-8 text",
                assertThrows(InputProblem.class, () -> WireList.read(file)).getMessage());
        assertEquals(
                folder + ": is a folder, not a wire list",
                assertThrows(InputProblem.class, () -> WireList.read(folder)).getMessage());
        Path none = folder.resolve("none.csv");
        assertEquals(
                none + ": no such file",
                assertThrows(InputProblem.class, () -> WireList.read(none)).getMessage());
    }
}
