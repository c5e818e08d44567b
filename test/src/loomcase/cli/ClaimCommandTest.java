package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.StringReader;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import loomcase.Schemas;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command {@code claim}: one packet with its verdict, and a folder that holds good, incomplete and edited cases. */
class ClaimCommandTest {
    private static final Path CLAIMS = Path.of("demo-cases", "claims");

    @TempDir
    private Path folder;

    private Path copy(String name, String as) throws IOException {
        String text = Files.readString(CLAIMS.resolve(name));
        return Files.writeString(folder.resolve(as), text);
    }

    @Test
    void aPacketSaysWhyThisOptionAndWhatTheOthersWouldCost() throws IOException {
        Path html = folder.resolve("claim.html");
        Ran ran = Ran.of("claim", CLAIMS.resolve("terminal.jsonl").toString(), "--json", "--html", html.toString());
        assertEquals("", ran.err());
        assertEquals(0, ran.code());
        assertEquals(List.of(), Schemas.errors(Schemas.of("claim.schema.json"), ran.out()));
        String page = Files.readString(html);
        assertTrue(page.contains("full harness"), "the dearest option is not weighed in the packet");
        assertTrue(page.contains("Full replacement is not justified"), "no word on full replacement");
    }

    /** The demo of two sensors, chosen and repaired as its verdict says: nothing of the second half is left out. */
    @Test
    void twoRepairsOfOneVisitAreClaimedBoth() throws IOException {
        Path circuits = Files.createDirectory(folder.resolve("circuits"));
        Files.copy(Path.of("circuits/larch-13.json"), circuits.resolve("larch-13.json"));
        Path file = Files.createDirectory(folder.resolve("cases")).resolve("two.jsonl");
        Files.copy(Path.of("demo-cases/two-sensors.jsonl"), file);
        String verdict = Ran.of("verdict", file.toString(), "--json").out();
        assertEquals(List.of(), Schemas.errors(Schemas.of("verdict.schema.json"), verdict));
        record(file, "chose", "device", "ECT", "--also", "device", "EDP", "--reason", "both dead on the bench");
        record(file, "work", "replaced", "ECT", "--minutes", "25");
        record(file, "work", "replaced", "EDP", "--minutes", "30");
        String json = Ran.of("claim", file.toString(), "--json").out();
        assertEquals(List.of(), Schemas.errors(Schemas.of("claim.schema.json"), json));
        JsonNode claim = new ObjectMapper().readTree(json);
        assertEquals("EDP", claim.at("/choice/also/place/id").asText());
        assertEquals("two-repairs", claim.at("/reasoning/verdict").asText());
        assertTrue(
                !json.contains("The verdict before the repair was"), "chosen as the verdict says, and yet questioned");
        assertTrue(json.contains("The second place that failed: device EDP."), json);
        String said = Ran.of("claim", file.toString()).out();
        assertTrue(said.contains("25 min") && said.contains("30 min"), "labour of both");
        String proof = Ran.of("proof", file.toString()).out();
        assertTrue(proof.contains("Look at device ECT") && proof.contains("Look at device EDP"), proof);
    }

    /** A plug reseated in vain, then a reading, then the sensor: its verdict is the one that had the reading. */
    @Test
    void aSecondRepairStandsBesideTheVerdictBeforeIt() throws IOException {
        Path file = folder.resolve("again.jsonl");
        String circuit = "circuits/larch-13.json";
        Ran.of("open", file.toString(), "--circuit", circuit, "--complaint", "lamp");
        record(file, "codes", "412/3x4", "--at", "key-on,idle-warm");
        record(file, "chose", "reseat", "C-EGT", "--reason", "first");
        record(file, "work", "reseated", "C-EGT", "--minutes", "5");
        record(file, "codes", "412/3x1", "--at", "key-on,idle-warm");
        record(file, "reading", "ohms", "C-EGT/1~", "C-EGT/2~", "open", "--unplugged", "C-EGT", "--wires-at", "20");
        record(file, "chose", "device", "EGT", "--reason", "open by itself");
        record(file, "work", "replaced", "EGT", "--minutes", "25");
        String json = Ran.of("claim", file.toString(), "--json").out();
        assertEquals(
                "device",
                new ObjectMapper().readTree(json).at("/reasoning/verdict").asText());
    }

    private static void record(Path file, String... fact) {
        List<String> all = new java.util.ArrayList<>(List.of("record", file.toString()));
        all.addAll(List.of(fact));
        assertEquals("", Ran.of(all.toArray(new String[0])).err());
    }

    @Test
    void anEditedLineIsNamedAndNoPacketIsMade() throws IOException {
        Path edited = copy("terminal.jsonl", "edited.jsonl");
        String text = Files.readString(edited);
        String other = text.replaceFirst("\"value\": 0\\.", "\"value\": 9.");
        assertTrue(!other.equals(text), "no reading to edit");
        Files.writeString(edited, other);
        Ran ran = Ran.of("claim", edited.toString());
        assertEquals(2, ran.code());
        assertEquals("", ran.out());
        assertTrue(ran.err().matches("(?s)loomcase: .*: line \\d+: was edited after it was written: .*"), ran.err());
        assertEquals(1, ran.err().lines().count(), ran.err());
    }

    /** The case, a photo of it and its circuit file are evidence: a slip of the hand must not write a page over them. */
    @Test
    void aPageIsNotWrittenOverACaseOrAPhoto() throws IOException {
        Path photo = folder.resolve("photo.png");
        Files.copy(CLAIMS.resolve("photos/tag.png"), photo);
        Path journal = copy("terminal.jsonl", "kept.jsonl");
        Path page = Files.writeString(folder.resolve("old.html"), "<!DOCTYPE html>old");
        String given = CLAIMS.resolve("terminal.jsonl").toString();
        for (Path evidence : List.of(photo, journal)) {
            byte[] before = Files.readAllBytes(evidence);
            for (String option : List.of("--pdf", "--html")) {
                Ran ran = Ran.of("claim", given, option, evidence.toString());
                assertEquals(2, ran.code());
                assertEquals(
                        "loomcase: " + evidence
                                + ": exists and holds something else than is to be written; name another"
                                + " file, or delete it first\n",
                        ran.err());
                assertEquals("", ran.out());
                assertArrayEquals(before, Files.readAllBytes(evidence));
            }
        }
        assertEquals("", Ran.of("claim", given, "--html", page.toString()).err());
        assertTrue(!Files.readString(page).endsWith("old"), "a page may be written anew");
    }

    /** Sent twice under two names, or once more after it grew, it is one case and is paid once. */
    @Test
    void anAuditFindsTheSameCaseTwice() throws IOException {
        Path circuits = Files.createDirectory(folder.resolve("circuits"));
        Files.copy(Path.of("circuits/larch-13.json"), circuits.resolve("larch-13.json"));
        Path claims = Files.createDirectories(folder.resolve("demo/claims"));
        String text = Files.readString(CLAIMS.resolve("incomplete.jsonl"));
        Files.writeString(claims.resolve("one.jsonl"), text);
        Files.writeString(claims.resolve("two.jsonl"), text.substring(0, text.lastIndexOf("{\"n\": 7")));
        Files.copy(CLAIMS.resolve("device.jsonl"), claims.resolve("other.jsonl"));
        String said = Ran.of("claim", "--audit", claims.toString()).out();
        assertTrue(said.contains("contradicts itself: The same case is also in two.jsonl; it is paid once. [1]"), said);
        assertTrue(said.contains("contradicts itself: The same case is also in one.jsonl; it is paid once. [1]"), said);
        assertTrue(!said.contains("also in other.jsonl"), said);
        assertTrue(
                Ran.of("claim", "--audit", claims.toString(), "--language", "de")
                        .out()
                        .contains("Derselbe Fall steht auch in one.jsonl; bezahlt wird er einmal. [1]"),
                said);
    }

    /** What is no case at all has thousands of lines that are none, and one line of complaint is to be read. */
    @Test
    void ofManyBrokenLinesTheFirstAreNamed() throws IOException {
        Path junk = Files.writeString(folder.resolve("junk.jsonl"), "x\n".repeat(3000));
        Ran ran = Ran.of("claim", junk.toString());
        assertEquals(2, ran.code());
        assertEquals(1, ran.err().lines().count());
        assertTrue(ran.err().contains("line 1: was edited") && ran.err().contains("line 5: was edited"), ran.err());
        assertTrue(!ran.err().contains("line 6:"), ran.err());
        assertTrue(ran.err().endsWith(junk + ": and 2995 more lines; 'loomcase check' names them all\n"), ran.err());
    }

    /** The demo claims' own totals, read from the claim of each, added up. */
    @Test
    void anAuditSumsWhatCanBeSentAndFitsItsSchema() throws IOException {
        ObjectMapper mapper = new ObjectMapper();
        Ran ran = Ran.of("claim", "--audit", CLAIMS.toString(), "--json");
        assertEquals(1, ran.code(), ran.err());
        assertEquals(List.of(), Schemas.errors(Schemas.of("audit.schema.json"), ran.out()));
        BigDecimal sum = BigDecimal.ZERO;
        int ready = 0;
        for (JsonNode row : mapper.readTree(ran.out()).at("/cases")) {
            JsonNode claim = mapper.readTree(
                    Ran.of("claim", CLAIMS.resolve(row.at("/case").asText()).toString(), "--json")
                            .out());
            assertEquals(
                    claim.at("/canBeSent").asBoolean(),
                    row.at("/answer").asText().equals("can be sent"));
            assertEquals(claim.at("/bill/total").asText(), row.at("/total").asText());
            if (!claim.at("/canBeSent").asBoolean()) continue;
            ready++;
            sum = sum.add(new BigDecimal(claim.at("/bill/total").asText()));
        }
        assertTrue(ready > 1);
        assertEquals(ready, mapper.readTree(ran.out()).at("/canBeSent").asInt());
        assertEquals(
                sum.toPlainString(), mapper.readTree(ran.out()).at("/ready/CU").asText());
        String text = Ran.of("claim", "--audit", CLAIMS.toString()).out();
        assertTrue(text.endsWith(ready + " of 5 can be sent, for " + sum.toPlainString() + " CU.\n"), text);
    }

    @Test
    void anAuditGoesOnPastACaseThatCannotBeRead() throws IOException {
        Files.writeString(folder.resolve("broken.jsonl"), "no case\n");
        Files.writeString(folder.resolve("empty.jsonl"), "");
        Path csv = folder.resolve("audit.csv");
        Ran ran = Ran.of("claim", "--audit", folder.toString(), "--csv", csv.toString());
        assertEquals(1, ran.code(), ran.err());
        List<CSVRecord> rows = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(Files.readString(csv)))
                .getRecords();
        assertEquals(2, rows.size());
        assertTrue(ran.out().contains("broken.jsonl"), ran.out());
        assertTrue(ran.out().contains("0 of 2 can be sent."), ran.out());
    }
}
