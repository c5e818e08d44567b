package loomcase.model.read;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.BooleanNode;
import com.fasterxml.jackson.databind.node.DoubleNode;
import com.fasterxml.jackson.databind.node.NullNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Makes one random change at a time to a JSON document, as a slip in editing would. */
public final class Mutation {
    /** What is done to a field. */
    public enum Kind {
        DELETE,
        MISSPELL,
        WRONG_TYPE,
        OUT_OF_RANGE,
        WRONG_WORD,
        EXTRA_KEY
    }

    /** A changed document, and the field and value that were changed. */
    public record Made(Kind kind, String text, String field, String value) {
        public String what() {
            return kind + " of " + field + (value.isEmpty() ? "" : ", now " + value);
        }
    }

    private static final ObjectMapper MAPPER = new ObjectMapper();

    private final JsonNode original;
    private final Random random;

    public Mutation(JsonNode original, Random random) {
        this.original = original;
        this.random = random;
    }

    private record Field(ObjectNode owner, String key) {
        JsonNode value() {
            return owner.get(key);
        }
    }

    public Made next() {
        Kind kind = Kind.values()[random.nextInt(Kind.values().length)];
        JsonNode root = original.deepCopy();
        List<Field> fields = new ArrayList<>();
        collect(root, fields);
        fields.removeIf(f -> kind == Kind.OUT_OF_RANGE && !f.value().isNumber()
                || kind == Kind.WRONG_WORD && !f.value().isTextual());
        Field f = fields.get(random.nextInt(fields.size()));
        return switch (kind) {
            case DELETE -> {
                f.owner().remove(f.key());
                yield made(kind, root, f.key(), "");
            }
            case MISSPELL -> {
                String wrong = misspelt(f.key());
                f.owner().set(wrong, f.owner().remove(f.key()));
                yield made(kind, root, wrong, f.key());
            }
            case WRONG_TYPE -> set(kind, root, f, otherType(f.value()));
            case OUT_OF_RANGE -> set(kind, root, f, DoubleNode.valueOf(random.nextBoolean() ? 2e9 : -2e9));
            case WRONG_WORD ->
                set(kind, root, f, TextNode.valueOf(wrongWord(f.value().asText())));
            case EXTRA_KEY -> {
                f.owner().put("note", "more");
                yield made(kind, root, "note", "more");
            }
        };
    }

    private static Made set(Kind kind, JsonNode root, Field f, JsonNode value) {
        f.owner().set(f.key(), value);
        return made(kind, root, f.key(), value.isValueNode() ? value.asText() : value.toString());
    }

    private static Made made(Kind kind, JsonNode root, String field, String value) {
        try {
            return new Made(kind, MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(root), field, value);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException(e);
        }
    }

    private String misspelt(String key) {
        int at = random.nextInt(key.length());
        return key.substring(0, at) + "q" + key.substring(at + random.nextInt(2));
    }

    private JsonNode otherType(JsonNode value) {
        List<JsonNode> all = new ArrayList<>(List.of(
                NullNode.getInstance(),
                BooleanNode.TRUE,
                DoubleNode.valueOf(7.25),
                TextNode.valueOf("seven"),
                MAPPER.createArrayNode().add(7),
                MAPPER.createObjectNode().put("seven", 7)));
        all.removeIf(each -> each.getNodeType() == value.getNodeType());
        return all.get(random.nextInt(all.size()));
    }

    private String wrongWord(String word) {
        return switch (random.nextInt(4)) {
            case 0 -> "";
            case 1 -> " ";
            case 2 -> word + " /x/ y";
            default -> word.toUpperCase(java.util.Locale.ROOT) + "?\nz";
        };
    }

    private static void collect(JsonNode node, List<Field> out) {
        if (node instanceof ObjectNode o) o.properties().forEach(e -> out.add(new Field(o, e.getKey())));
        node.forEach(child -> collect(child, out));
    }
}
