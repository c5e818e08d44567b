package loomcase.bench;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;

/**
 * A circuit several times the size of one: copies of all that it has, under new ids, at one control unit.
 *
 * <p>Copies meet in the joint of the loom where the control unit sits and inside the control unit; their codes have SPNs of
 * their own. Branches keep their number of wires, so what grows is the harness, not a bundle.
 */
final class Larger {
    private static final List<String> COPIED =
            List.of("access", "branches", "connectors", "splices", "grounds", "fuses", "devices", "wires", "watches");

    /** SPNs have 19 bits (SAE J1939-73); this leaves room for eight copies. */
    private static final int SPN_STEP = 50_000;

    private static final Set<String> TEXTS = Set.of(
            "label",
            "title",
            "origin",
            "circuit",
            "colour",
            "kind",
            "function",
            "circuitKind",
            "insulation",
            "caution");

    private final String suffix;
    private final int copy;
    private final Set<String> ids;

    private Larger(int copy, Set<String> ids) {
        this.copy = copy;
        this.suffix = "-c" + copy;
        this.ids = ids;
    }

    static Circuit of(Path file, int times) throws IOException {
        ObjectMapper mapper = new ObjectMapper();
        ObjectNode one = (ObjectNode) mapper.readTree(file.toFile());
        ObjectNode all = one.deepCopy();
        for (int copy = 1; copy < times; copy++) new Larger(copy, ids(one)).add(one, all);
        Path made = Files.createTempFile("larger", ".json");
        try {
            mapper.writeValue(made.toFile(), all);
            return CircuitReader.read(made);
        } finally {
            Files.delete(made);
        }
    }

    private static Set<String> ids(ObjectNode one) {
        Set<String> out = new HashSet<>();
        for (String list : COPIED)
            for (JsonNode n : one.path(list))
                if (n.has("id")) out.add(n.get("id").asText());
        for (JsonNode n : one.path("controlUnit").path("rails"))
            out.add(n.get("id").asText());
        for (JsonNode n : one.path("controlUnit").path("pins"))
            if (n.has("bus")) out.add(n.get("bus").asText());
        for (JsonNode n : one.path("branches")) {
            out.add(n.get("from").asText());
            out.add(n.get("to").asText());
        }
        String unit = one.path("controlUnit").path("connectors").get(0).asText();
        for (JsonNode n : one.path("connectors"))
            if (n.get("id").asText().equals(unit)) out.remove(n.get("at").asText());
        return out;
    }

    private void add(ObjectNode one, ObjectNode all) {
        for (String list : COPIED) append(one.path(list), all.withArray(list));
        for (String list : List.of("connectors", "rails", "pins"))
            append(one.path("controlUnit").path(list), ((ObjectNode) all.path("controlUnit")).withArray(list));
        for (int p = 0; p < all.path("operatingPoints").size(); p++)
            for (int f = 0;
                    f < all.path("operatingPoints").get(p).path("phases").size();
                    f++)
                append(one.path("operatingPoints").get(p).path("phases").get(f).path("on"), (ArrayNode)
                        all.path("operatingPoints").get(p).path("phases").get(f).path("on"));
        ObjectNode parts = (ObjectNode) all.path("costs").path("deviceParts");
        one.path("costs").path("deviceParts").properties().forEach(e -> parts.set(renamed(e.getKey()), e.getValue()));
    }

    private void append(JsonNode from, ArrayNode to) {
        for (JsonNode n : from) to.add(renamed("", n));
    }

    private JsonNode renamed(String field, JsonNode node) {
        if (node.isTextual()) return TEXTS.contains(field) ? node : TextNode.valueOf(renamed(node.asText()));
        if (node.isArray()) {
            ArrayNode out = ((ArrayNode) node).arrayNode();
            node.forEach(n -> out.add(renamed(field, n)));
            return out;
        }
        if (!node.isObject()) return node;
        ObjectNode out = ((ObjectNode) node).objectNode();
        node.properties()
                .forEach(e -> out.set(
                        e.getKey(),
                        e.getKey().equals("spn")
                                ? out.numberNode(e.getValue().asInt() + copy * SPN_STEP)
                                : renamed(e.getKey(), e.getValue())));
        return out;
    }

    private String renamed(String text) {
        int slash = text.indexOf('/');
        String head = slash < 0 ? text : text.substring(0, slash);
        return ids.contains(head) ? head + suffix + (slash < 0 ? "" : text.substring(slash)) : text;
    }
}
