package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import loomcase.Schemas;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Answers as text and as JSON: one held word for word, all in the published form, both forms saying the same.
 *
 * <p>When the text changes on purpose, write the held file anew and look at what changed:
 * {@code mvn -q test -Dtest=AnswersTest -Dloomcase.regenerate=true && git diff test/data/cli}
 */
class AnswersTest {
    private static final Path HELD = Path.of("test", "data", "cli");
    private static final ObjectMapper MAPPER = new ObjectMapper();

    @TempDir
    private Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"teaching-two-codes", "teaching-two-codes-why-1"})
    void textIsTheHeldOne(String name) throws IOException {
        List<String> arguments =
                new ArrayList<>(List.of("rank", "--circuit", Ran.TEACHING, "--codes", "110/3,100/4x2"));
        if (name.endsWith("why-1")) arguments.addAll(List.of("--why", "1"));
        Ran ran = Ran.of(arguments);
        Path file = HELD.resolve(name + ".txt");
        if (Boolean.getBoolean("loomcase.regenerate")) Files.writeString(file, ran.out());
        assertEquals(Files.readString(file), ran.out());
        assertEquals("", ran.err());
    }

    private static Stream<List<String>> inputs() {
        return Stream.of(
                List.of("--circuit", Ran.TEACHING, "--codes", "110/3"),
                List.of("--circuit", Ran.TEACHING, "--codes", "110/3,100/4x2", "--at", "key-on"),
                List.of("--circuit", Ran.TEACHING, "--stored", "647/5x3"),
                List.of("--circuit", Ran.TEACHING, "--codes", "110/3", "--stored", "100/4"),
                List.of("--circuit", Ran.TEACHING, "--codes", "999/3"),
                List.of("--circuit", Ran.TEACHING, "--codes", "110/3,110/4,100/3,100/4,102/3,102/4,647/4"),
                List.of("--circuit", Ran.LARCH, "--log", "demo-cases/five-volt-splice-open.log"),
                List.of("--circuit", Ran.LARCH, "--codes", "94/4,98/4", "--stored", "524287/31"));
    }

    @ParameterizedTest
    @MethodSource("inputs")
    void rankFitsItsSchemaAndTheTextSaysTheSame(List<String> input) throws IOException {
        Ran text = Ran.of(with(input));
        Ran json = Ran.of(with(input, "--json"));
        assertEquals("", text.err() + json.err());
        assertEquals(List.of(), Schemas.errors(Schemas.of("rank.schema.json"), json.out()));
        JsonNode answer = MAPPER.readTree(json.out());
        finite(answer);
        JsonNode suspects = answer.get("suspects");
        double first =
                suspects.isEmpty() ? 0 : suspects.get(0).get("probability").asDouble();
        assertEquals(first >= 0.5 ? 0 : 1, json.code());
        assertEquals(json.code(), text.code());
        String words = text.out().replaceAll("\\s+", " ");
        for (JsonNode s : suspects) {
            if (s.get("rank").asInt() > 5) continue;
            String start = " " + s.get("rank").asInt() + " "
                    + Percent.of(s.get("probability").asDouble()).strip() + " ";
            assertTrue(words.contains(start), start);
            assertTrue(words.contains(s.get("fault").asText()), s.get("fault").asText());
        }
        for (JsonNode c : answer.get("codes"))
            assertTrue(words.contains(" " + c.get("spn").asInt() + "/"
                    + c.get("fmi").asInt() + " " + c.get("state").asText()));
        for (JsonNode n : answer.get("notes")) assertTrue(words.contains(n.asText()), n.asText());
        if (!answer.get("next").isNull())
            assertTrue(words.contains(
                    "test id, to refuse it: " + answer.at("/next/test").asText()));
    }

    private static List<String> with(List<String> input, String... more) {
        List<String> out = new ArrayList<>(List.of("rank"));
        out.addAll(input);
        out.addAll(List.of(more));
        return out;
    }

    /** A number that JSON cannot hold would have been written as a text such as "Infinity" or "NaN". */
    private static void finite(JsonNode node) {
        if (node.isNumber()) assertTrue(Double.isFinite(node.asDouble()));
        if (node.isTextual()) assertTrue(!node.asText().matches("-?Infinity|NaN"), node.asText());
        node.forEach(AnswersTest::finite);
    }

    @Test
    void settledEndsWith0AndNotSettledWith1() {
        Ran settled = Ran.of("rank", "--circuit", Ran.TEACHING, "--codes", "110/3");
        assertEquals(0, settled.code());
        Ran open = Ran.of("rank", "--circuit", Ran.TEACHING, "--codes", "100/3,102/4");
        assertEquals(1, open.code());
        Ran foreign = Ran.of("rank", "--circuit", Ran.TEACHING, "--codes", "999/3");
        assertTrue(
                foreign.out().contains("     code 999/3 belongs to no circuit of this model and is left unexplained\n"),
                foreign.out());
    }

    /** DM1 of one code, 110/3 with a count of 1, from address 0, then one frame of each kind of harm. */
    private Path harmedLog() throws IOException {
        return Files.writeString(
                folder.resolve("harmed.log"),
                """
                (1.000) can0 18FECA00#04FF6E000301FFFF
                (1.010) can0 123#0011
                (1.020) can0 18EBFF03#01FFFFFFFFFFFFFF
                (1.030) can0 18ECFF03#200E0002FFCAFE00
                (1.040) can0 18EBFF03#02FFFFFFFFFFFFFF
                (1.050) can0 18ECFF05#20FF0002FFCAFE00
                (1.060) can0 18ECFF07#200E0002FFCAFE00
                (1.070) can0 18ECFF07#200E0002FFCAFE00
                  can0  18FECA00   [8]  04 FF 6E
                garbage
                (2.000) can0 18FECA00#04FF6E000301FFFF
                """);
    }

    @Test
    void harmedLogIsUsedAndItsHarmIsCounted() throws IOException {
        Ran ran = Ran.of("rank", "--circuit", Ran.TEACHING, "--log", harmedLog().toString());
        assertEquals(0, ran.code());
        assertEquals("", ran.err());
        assertTrue(ran.out().contains("  110/3     active x1    coolant temperature circuit high"), ran.out());
        assertEquals(
                """
                NOTES
                     log: 1 lines are no CAN frame in a form that is known (first in line 10: garbage)
                     log: 1 frames have fewer bytes than they claim (first in line 9: can0  18FECA00   [8]  04 FF
                       6E)
                     log: 1 frames are not J1939 (11 bit, or ISO 15765-3) and were left out (first in line 2:
                       (1.010) can0 123#0011)
                     log: 1 transfers of a trouble message start with sizes that do not agree (first in line 6:
                       (1.050) can0 18ECFF05#20FF0002FFCAFE00)
                     log: 1 transfer packets have no start in this log (first in line 3: (1.020) can0
                       18EBFF03#01FFFFFFFFFFFFFF)
                     log: 1 transfers of a trouble message have packets missing, out of order or too short (first in
                       line 5: (1.040) can0 18EBFF03#02FFFFFFFFFFFFFF)
                     log: 2 transfers of a trouble message were never finished (first in line 7: DM1 of source 7
                       started here)
                     taken as looked at: key-on, idle-warm (nothing says whether the engine ran); name operating
                       points to say otherwise
                """,
                ran.out().substring(ran.out().indexOf("NOTES")));
    }

    @Test
    void codesFitTheirSchemaAndTheTextSaysTheSame() throws IOException {
        for (Path log : List.of(
                harmedLog(),
                Path.of("demo-cases", "five-volt-splice-open.log"),
                Path.of("demo-cases", "network-stub-open.log"),
                Files.writeString(folder.resolve("quiet.log"), "(1.0) can0 0CF00400#F0FF7D0000FF00FF\n"))) {
            Ran json = Ran.of("codes", "--json", log.toString());
            Ran text = Ran.of("codes", log.toString());
            assertEquals(0, json.code());
            assertEquals(0, text.code());
            assertEquals(List.of(), Schemas.errors(Schemas.of("codes.schema.json"), json.out()), log.toString());
            JsonNode read = MAPPER.readTree(json.out());
            finite(read);
            String words = text.out().replaceAll("\\s+", " ");
            for (JsonNode s : read.get("sources")) {
                assertTrue(words.contains("address " + s.get("address").asInt() + " on "));
                for (JsonNode c : s.get("codes"))
                    assertTrue(words.contains(" " + c.get("spn").asInt() + "/"
                            + c.get("fmi").asInt() + " " + c.get("state").asText()));
            }
            for (JsonNode w : read.get("warnings"))
                assertTrue(words.contains("warning: " + w.get("count").asInt() + " "), text.out());
        }
    }
}
