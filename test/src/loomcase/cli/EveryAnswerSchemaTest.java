package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import loomcase.Schemas;
import loomcase.drill.Ending;
import loomcase.drill.Showing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Answers of next, show, fleet and drill as the program gives them fit their schemas, and nothing else does. */
class EveryAnswerSchemaTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final String DEMO = "demo-cases/shop-floor.drill.json";

    @TempDir
    private Path folder;

    private static String out(Object... arguments) {
        Ran ran = Ran.of(Arrays.stream(arguments).map(Object::toString).toArray(String[]::new));
        assertTrue(ran.code() <= Main.NOT_SETTLED, ran.err());
        return ran.out();
    }

    private Path complaint(String codes) {
        Path file = folder.resolve(codes.replaceAll("\\D", "-") + ".jsonl");
        out("open", file, "--circuit", Ran.LARCH, "--complaint", "lamp on", "--by", "ada");
        out("record", file, "codes", codes, "--at", "key-on,idle-warm", "--by", "ada");
        return file;
    }

    @Test
    void next() throws IOException {
        Schema schema = Schemas.of("next.schema.json");
        Set<String> kinds = new TreeSet<>();
        for (String codes : List.of("94/4,98/4,100/4,101/4,157/4", "110/3", "651/5", "639/9", "100/1")) {
            Path file = complaint(codes);
            String answer = out("next", file, "--json");
            AnswerSchemaTest.close(schema, answer, Set.of("phase", "unplugged", "jumpers"));
            String text = out("next", file).replaceAll("\\s+", " ");
            JsonNode json = MAPPER.readTree(answer);
            assertTrue(text.contains(json.at("/suspects/0/fault").asText()), text);
            for (JsonNode test : json.get("tests")) {
                kinds.add(test.at("/form/kind").asText());
                String words = test.get("words").asText();
                assertTrue(text.contains(words), words + " is not in " + text);
            }
        }
        assertTrue(kinds.size() > 2, "too few kinds of test to show anything: " + kinds);
    }

    @Test
    void show() throws IOException {
        Path file = folder.resolve("case.jsonl");
        out("open", file, "--circuit", Ran.TEACHING, "--complaint", "lamp on", "--by", "ada", "--unit", "T-7");
        out("record", file, "codes", "110/3x4", "--at", "key-on", "--by", "ada");
        out("record", file, "reading", "volts", "C1/1", "chassis", "4.98V", "--at", "key-on", "--by", "ada");
        out(
                "record", file, "correct", "3", "reading", "volts", "C1/1", "chassis", "4.89V", "--at", "key-on",
                "--by", "ada");
        out("record", file, "access", "open", "cover", "--by", "ada");
        String answer = out("show", file, "--json");
        Set<String> optional = Set.of("unit", "hours", "confirmed", "correctedBy");
        AnswerSchemaTest.close(Schemas.of("show.schema.json"), answer, optional);
        JsonNode json = MAPPER.readTree(answer);
        assertEquals(4, json.at("/entries/2/correctedBy").asInt());
        assertEquals("cover", json.at("/openAccess/0").asText());
        try (Stream<Path> cases = Files.list(Path.of("demo-cases"))) {
            for (Path each : cases.filter(f -> f.toString().endsWith(".jsonl")).toList())
                assertEquals(List.of(), Schemas.errors(Schemas.of("show.schema.json"), out("show", each, "--json")));
        }
    }

    @Test
    void showKnowsEveryKindOfLine() throws IOException {
        List<String> lines = new java.util.ArrayList<>();
        schema("case")
                .get("oneOf")
                .forEach(l -> lines.add(l.get("$ref").asText().replace("#/$defs/line-", "")));
        assertEquals(lines, words("show", "/$defs/entry/properties/kind/enum"));
    }

    @Test
    void fleet() throws IOException {
        Path list = folder.resolve("list.jsonl");
        String circuit = Path.of(Ran.TEACHING).toAbsolutePath().toString();
        Files.writeString(
                list,
                "{\"id\": \"seven\", \"circuit\": \"" + circuit + "\", \"codes\": \"110/3\"}\n" + "{\"circuit\": \""
                        + circuit + "\", \"codes\": \"bad\"}\n");
        Schema schema = Schemas.of("fleet.schema.json");
        for (String option : List.of("--brief", "--workers=1"))
            for (String line : out("fleet", list, option).lines().toList())
                AnswerSchemaTest.close(schema, line, Set.of("id"));
    }

    @Test
    void drill() throws IOException {
        Schema schema = Schemas.of("drill.schema.json");
        Path words = Files.writeString(folder.resolve("words"), "demo\n");
        AnswerSchemaTest.close(schema, out("drill", "solve", DEMO, "--passphrase-file", words, "--json"), Set.of());
        Path run = folder.resolve("run.jsonl");
        out("drill", "start", DEMO, run, "--by", "ada");
        out("drill", "do", run, "access", "open", "cover", "--by", "ada");
        out("drill", "do", run, "reading", "volts", "J1/3", "chassis", "--at", "key-on", "--by", "ada");
        out("drill", "do", run, "reading", "ohms", "J1/3", "chassis", "--by", "ada", "--at", "key-on");
        out("drill", "do", run, "hint", "--by", "ada");
        assertEquals(List.of(), Schemas.errors(schema, out("drill", "class", run, "--json")));
        out("drill", "do", run, "give-up", "--by", "ada");
        Set<String> optional = Set.of("lost", "expectedBits", "outcomes");
        AnswerSchemaTest.close(schema, out("drill", "debrief", run, "--json"), optional);
        AnswerSchemaTest.close(schema, out("drill", "class", run, "--json"), Set.of());
    }

    @Test
    void wordsOfADrillAreThoseOfTheProgram() throws IOException {
        List<String> endings = Arrays.stream(Ending.values()).map(Ending::word).toList();
        assertEquals(endings, words("drill", "/$defs/debrief/properties/ending/enum"));
        assertEquals(
                Stream.concat(endings.stream(), Stream.of("going-on")).toList(),
                words("drill", "/$defs/run/properties/ending/enum"));
        assertEquals(
                Arrays.stream(Showing.values()).map(Showing::word).toList(),
                words("drill", "/$defs/planted/properties/showing/enum"));
    }

    private static JsonNode schema(String name) throws IOException {
        return MAPPER.readTree(Schemas.FOLDER.resolve(name + ".schema.json").toFile());
    }

    private static List<String> words(String schema, String pointer) throws IOException {
        return StreamSupport.stream(schema(schema).at(pointer).spliterator(), false)
                .map(JsonNode::asText)
                .toList();
    }
}
