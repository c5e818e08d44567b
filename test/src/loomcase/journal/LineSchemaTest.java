package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import loomcase.InputProblem;
import loomcase.Schemas;
import loomcase.model.Finding;
import loomcase.model.read.Mutation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Lines against the published schema as networknt json-schema-validator 2.0.8 reads it: what is written fits, and what the
 * schema refuses the reader refuses.
 */
class LineSchemaTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final Path FILE = Path.of("case.jsonl");

    @TempDir
    private Path folder;

    @Test
    void everyLineWrittenFitsAndReadsBackEqual() {
        Path file = Samples.write(folder, Samples.facts());
        Schema schema = Schemas.of("case.schema.json");
        for (String line : Samples.lines(file)) assertEquals(List.of(), Schemas.errors(schema, line), line);
        List<Fact> read = new ArrayList<>();
        JournalFile.read(file).entries().forEach(e -> read.add(e.fact()));
        List<Fact> written = new ArrayList<>(List.of(Samples.opened()));
        written.addAll(Samples.facts());
        assertEquals(written, read);
    }

    @Test
    void samplesCoverEveryKindThatTheSchemaKnows() throws IOException {
        Set<String> kinds = new HashSet<>(Set.of("opened"));
        Samples.facts().forEach(f -> kinds.add(f.kind()));
        JsonNode schema =
                MAPPER.readTree(Schemas.FOLDER.resolve("case.schema.json").toFile());
        Set<String> known = new HashSet<>();
        schema.get("oneOf").forEach(n -> known.add(n.get("$ref").asText().substring("#/$defs/line-".length())));
        assertEquals(known, kinds);
        assertEquals(records(Fact.class).count(), known.size());
    }

    private static Stream<Class<?>> records(Class<?> sealed) {
        return sealed.isRecord()
                ? Stream.of(sealed)
                : Arrays.stream(sealed.getPermittedSubclasses()).flatMap(LineSchemaTest::records);
    }

    @Test
    void wordsAreThoseOfTheProgram() throws IOException {
        assertEquals(Words.all(Finding.class), words("/$defs/line-seen/properties/finding/enum"));
        assertEquals(Words.all(Fact.Deed.class), words("/$defs/line-work/properties/what/enum"));
        assertEquals(Words.all(Fact.Test.class), words("/$defs/line-reading/properties/test/enum"));
        assertEquals(Words.all(Fact.Outcome.class), words("/$defs/line-swapped/properties/codes/enum"));
        assertEquals(Words.all(Fact.Action.class), words("/$defs/line-moved/properties/action/enum"));
        assertEquals(Words.all(Fact.Method.class), words("/$defs/line-watched/properties/method/enum"));
    }

    private static List<String> words(String pointer) throws IOException {
        JsonNode list = MAPPER.readTree(
                        Schemas.FOLDER.resolve("case.schema.json").toFile())
                .at(pointer);
        return StreamSupport.stream(list.spliterator(), false)
                .map(JsonNode::asText)
                .toList();
    }

    @Test
    void whatTheSchemaRefusesTheReaderRefusesInOneLine() throws IOException {
        Path file = Samples.write(folder, Samples.facts());
        Schema schema = Schemas.of("case.schema.json");
        Random random = new Random(31);
        int refused = 0;
        for (String line : Samples.lines(file)) {
            Mutation mutation = new Mutation(MAPPER.readTree(line), random);
            for (int i = 0; i < 60; i++) {
                Mutation.Made made = mutation.next();
                Optional<String> message = refusal(MAPPER.readTree(made.text()).toString());
                boolean schemaRefuses = !Schemas.errors(schema, made.text()).isEmpty();
                if (schemaRefuses) {
                    refused++;
                    assertTrue(message.isPresent(), () -> "the reader takes " + made.what() + " in " + line);
                }
                message.ifPresent(m -> {
                    assertTrue(m.startsWith("case.jsonl: line 7: "), m);
                    assertFalse(m.contains("\n"), m);
                });
            }
        }
        assertTrue(refused > 500, "only " + refused + " were refused, too few to show anything");
    }

    private static Optional<String> refusal(String line) {
        try {
            FactReader.entry(FILE, 7, line);
            return Optional.empty();
        } catch (InputProblem e) {
            return Optional.of(e.getMessage());
        }
    }
}
