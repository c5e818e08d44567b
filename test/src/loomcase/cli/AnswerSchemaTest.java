package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Schema;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.StreamSupport;
import loomcase.Schemas;
import loomcase.j1939.Lamp;
import loomcase.j1939.log.Warning;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The schemas of the answers: a full answer fits, and one with any field left out or added does not. */
class AnswerSchemaTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();

    private static final String RANK =
            """
            {"circuit": "teaching", "operatingPoints": ["key-on"],
             "codes": [{"spn": 110, "fmi": 3, "label": "high", "count": null, "state": "active", "explained": 0.9,
                        "known": true}],
             "suspects": [{"rank": 1, "probability": 0.8, "kind": "wire", "place": "W11",
               "places": [{"kind": "wire", "id": "W11", "probability": 0.8}], "fault": "W11 open",
               "hypotheses": [{"id": "wire.open W11", "words": "W11 open", "kind": "wire", "place": "W11",
                               "probability": 0.8}],
               "explains": ["110/3"], "leaves": [], "predictsButAbsent": [],
               "evidence": [{"code": "110/3", "found": "active", "likelihoodRatio": 400.5, "predicted": 0.99}],
               "tests": [{"test": "look at connector C1", "outcome": "nothing to see", "likelihoodRatio": 0.5}],
               "twoFaults": false, "cautions": ["fan can turn"]}],
             "rollup": {"branch": [{"id": "B1", "probability": 0.5}], "connector": [], "splice": [], "device": [],
                        "controlUnit": [], "ground": [], "fuse": [], "wire": [], "cavity": [], "engine": []},
             "hidden": 0.02, "unexplained": 0.01,
             "losers": [{"place": "ECT", "words": "element open", "timesLess": 3, "leaves": ["100/4"],
                         "predictsButAbsent": []}],
             "next": {"test": "volts C1/1 C1/2 @key-on/rest", "points": ["C1/1", "C1/2"], "minutes": 12,
                      "expectedMinutes": 30, "why": "volts from C1/1 to C1/2",
                      "outcomes": [{"outcome": "5.00 V", "probability": 0.8, "meaning": "element open", "then": 0.9}]},
             "notes": [], "hypotheses": 321}
            """;

    private static final String CODES =
            """
            {"sources": [{"network": "can0", "address": 0,
               "lamps": {"malfunction": {"state": "on", "flash": "slow"}, "redStop": {"state": "off", "flash": "none"},
                         "amberWarning": {"state": "not available", "flash": "none"},
                         "protect": {"state": "off", "flash": "none"}},
               "codes": [{"spn": 110, "fmi": 3, "candidates": ["110/3", "7/3"], "count": 4, "state": "active",
                          "appearances": 2, "firstSeenSeconds": 0.5, "lastSeenSeconds": null}]}],
             "warnings": [{"kind": "unreadable line", "count": 1, "firstLine": 7, "example": "junk"}],
             "frames": 12}
            """;

    private static String sample(String schema) {
        return schema.equals("rank.schema.json") ? RANK : CODES;
    }

    @ParameterizedTest
    @ValueSource(strings = {"rank.schema.json", "codes.schema.json"})
    void fullAnswerFits(String name) {
        assertEquals(List.of(), Schemas.errors(Schemas.of(name), sample(name)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"rank.schema.json", "codes.schema.json"})
    void noFieldMayBeLeftOutAddedOrOfAnotherType(String name) throws IOException {
        close(Schemas.of(name), sample(name), Set.of("candidates"));
    }

    /** The answer fits, and does not with any field left out that is not optional, added or of another type. */
    static void close(Schema schema, String answer, Set<String> optional) throws IOException {
        assertEquals(List.of(), Schemas.errors(schema, answer), answer);
        int objects = objects(MAPPER.readTree(answer)).size();
        for (int i = 0; i < objects; i++) {
            JsonNode more = MAPPER.readTree(answer);
            objects(more).get(i).put("note", "more");
            refused(schema, more);
            for (String key : keys(MAPPER.readTree(answer), i)) {
                JsonNode less = MAPPER.readTree(answer);
                objects(less).get(i).remove(key);
                if (!optional.contains(key)) refused(schema, less);
                JsonNode other = MAPPER.readTree(answer);
                boolean flag = objects(other).get(i).get(key).isBoolean();
                if (flag) objects(other).get(i).put(key, 7);
                else objects(other).get(i).put(key, true);
                refused(schema, other);
            }
        }
    }

    private static void refused(Schema schema, JsonNode json) {
        assertFalse(Schemas.errors(schema, json.toString()).isEmpty(), json.toString());
    }

    private static List<String> keys(JsonNode root, int object) {
        List<String> out = new ArrayList<>();
        objects(root).get(object).properties().forEach(e -> out.add(e.getKey()));
        return out;
    }

    private static List<ObjectNode> objects(JsonNode node) {
        List<ObjectNode> out = new ArrayList<>();
        if (node instanceof ObjectNode o) out.add(o);
        node.forEach(child -> out.addAll(objects(child)));
        return out;
    }

    @Test
    void absencesAreNull() {
        String rank = RANK.replaceAll("(?s)\"next\": \\{.*?\\}\\]\\}", "\"next\": null");
        assertEquals(List.of(), Schemas.errors(Schemas.of("rank.schema.json"), rank));
        String codes = CODES.replaceAll("(?s)\"lamps\": \\{.*?\\}\\},", "\"lamps\": null,")
                .replace("\"firstLine\": 7", "\"firstLine\": null")
                .replace("\"count\": 4", "\"count\": null");
        assertEquals(List.of(), Schemas.errors(Schemas.of("codes.schema.json"), codes));
    }

    @Test
    void wordsAreThoseOfTheProgram() throws IOException {
        assertEquals(words(PlaceId.Kind.values()), allowed("rank", "/$defs/place/properties/kind/enum"));
        assertEquals(words(Warning.Kind.values()), allowed("codes", "/$defs/warning/properties/kind/enum"));
        assertEquals(words(Lamp.State.values()), allowed("codes", "/$defs/lamp/properties/state/enum"));
        assertEquals(words(Lamp.Flash.values()), allowed("codes", "/$defs/lamp/properties/flash/enum"));
    }

    private static List<String> words(Enum<?>... values) {
        List<String> out = new ArrayList<>();
        for (Enum<?> each : values)
            out.add(
                    each instanceof PlaceId.Kind k
                            ? k.word()
                            : each.name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '));
        return out;
    }

    private static List<String> allowed(String schema, String pointer) throws IOException {
        JsonNode list = MAPPER.readTree(
                        Schemas.FOLDER.resolve(schema + ".schema.json").toFile())
                .at(pointer);
        return StreamSupport.stream(list.spliterator(), false)
                .map(JsonNode::asText)
                .toList();
    }
}
