package loomcase.model.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import loomcase.InputProblem;
import loomcase.Schemas;
import loomcase.model.Watch;
import loomcase.policy.CircuitKinds;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The published schemas against an independent reader of them, networknt json-schema-validator 2.0.8 (JSON Schema draft
 * 2020-12), and our reader against the schema: what the schema refuses, the reader refuses.
 */
class SchemaTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final Pattern AT_LINE = Pattern.compile("line (\\d+): (\\S.*?): .+");

    @TempDir
    private Path folder;

    static List<Path> circuits() throws IOException {
        try (Stream<Path> files = Files.list(Schemas.FOLDER)) {
            return files.filter(f -> f.toString().endsWith(".json"))
                    .filter(f -> !f.toString().endsWith(".schema.json"))
                    .sorted()
                    .toList();
        }
    }

    static List<Path> schemas() throws IOException {
        try (Stream<Path> files = Files.list(Schemas.FOLDER)) {
            return files.filter(f -> f.toString().endsWith(".schema.json"))
                    .sorted()
                    .toList();
        }
    }

    @ParameterizedTest
    @MethodSource("circuits")
    void shippedCircuitsFitTheSchemaAndTheReader(Path file) throws IOException {
        assertEquals(List.of(), Schemas.errors(Schemas.of("circuit.schema.json"), Files.readString(file)));
        CircuitReader.read(file);
    }

    @ParameterizedTest
    @MethodSource("schemas")
    void schemasFitTheDraftTheyName(Path file) throws IOException {
        JsonNode text = MAPPER.readTree(file.toFile());
        assertEquals(
                "https://json-schema.org/draft/2020-12/schema",
                text.get("$schema").asText());
        assertEquals(List.of(), Schemas.errors(Schemas.draft(), Files.readString(file)));
    }

    @ParameterizedTest
    @MethodSource("schemas")
    void everyObjectIsClosedAndEveryFieldDescribed(Path file) throws IOException {
        walk(MAPPER.readTree(file.toFile()), file.toString());
    }

    private static void walk(JsonNode node, String where) {
        boolean object = node.path("type").asText().equals("object");
        if (object) assertTrue(node.has("additionalProperties"), where + " lets unknown keys pass");
        if (object && node.path("additionalProperties").isBoolean())
            node.path("properties").properties().forEach(e -> {
                assertTrue(e.getValue().has("title"), where + " " + e.getKey() + " has no title");
                boolean described =
                        e.getValue().has("description") || e.getValue().has("$ref");
                assertTrue(described, where + " " + e.getKey() + " has no description");
            });
        node.properties().forEach(e -> walk(e.getValue(), where + "/" + e.getKey()));
        if (node.isArray()) for (int i = 0; i < node.size(); i++) walk(node.get(i), where + "/" + i);
    }

    @Test
    void readerSchemaAndRulesKnowTheSameCircuitKinds() throws IOException {
        assertEquals(CircuitKinds.ALL, Watch.CIRCUIT_KINDS);
        JsonNode kinds = MAPPER.readTree(
                        Schemas.FOLDER.resolve("circuit.schema.json").toFile())
                .at("/$defs/voltsWatch/properties/circuitKind/enum");
        assertEquals(Watch.CIRCUIT_KINDS, MAPPER.convertValue(kinds, List.class));
    }

    @ParameterizedTest
    @CsvSource({"teaching.json, 20231, 700", "larch-13.json, 20232, 250"})
    void whatTheSchemaRefusesTheReaderRefusesInOneLine(String name, long seed, int mutations) throws IOException {
        Schema schema = Schemas.of("circuit.schema.json");
        Mutation mutation =
                new Mutation(MAPPER.readTree(Schemas.FOLDER.resolve(name).toFile()), new Random(seed));
        Map<Mutation.Kind, Integer> refused = new EnumMap<>(Mutation.Kind.class);
        for (int i = 0; i < mutations; i++) {
            Mutation.Made made = mutation.next();
            Path file = folder.resolve("m.json");
            Files.writeString(file, made.text());
            boolean schemaRefuses = !Schemas.errors(schema, made.text()).isEmpty();
            Optional<String> message = refusal(file);
            if (schemaRefuses) {
                refused.merge(made.kind(), 1, Integer::sum);
                assertTrue(message.isPresent(), () -> "the reader takes " + made.what());
            }
            message.ifPresent(m -> goodMessage(m, file, made, schemaRefuses));
        }
        for (Mutation.Kind kind : Mutation.Kind.values())
            assertTrue(
                    refused.getOrDefault(kind, 0) >= 5, kind + " was refused too seldom to show anything: " + refused);
    }

    private static Optional<String> refusal(Path file) {
        try {
            CircuitReader.read(file);
            return Optional.empty();
        } catch (InputProblem e) {
            return Optional.of(e.getMessage());
        }
    }

    private static void goodMessage(String message, Path file, Mutation.Made made, boolean schemaRefuses) {
        String about = made.what() + " was answered with: " + message;
        assertFalse(message.contains("\n"), about);
        assertTrue(message.startsWith(file + ": "), about);
        String rest = message.substring((file + ": ").length());
        var atLine = AT_LINE.matcher(rest);
        boolean named = rest.contains(made.field()) || rest.contains(Cursor.oneLine(made.value()));
        if (schemaRefuses) assertTrue(named, about);
        if (atLine.matches())
            assertTrue(Integer.parseInt(atLine.group(1)) <= made.text().lines().count(), about);
        else
            assertFalse(
                    rest.contains("known key") || rest.contains("is missing") || rest.contains("must be"),
                    about + " without a line");
    }
}
