package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import loomcase.claim.Closing;
import loomcase.claim.Packet;
import loomcase.journal.Fact;
import loomcase.journal.FactWriter;
import loomcase.journal.Spot;

/** A claim with what would close its gaps, and the fields of a line, as forms to fill in need them. */
public final class ClosingJson {
    private ClosingJson() {}

    /** The claim, and for each of its gaps the line to record or null. */
    public static JsonText of(Packet packet, List<Optional<Closing.Line>> closing) {
        return json -> {
            json.writeStartObject();
            json.writeFieldName("claim");
            ClaimJson.of(packet).write(json);
            json.writeArrayFieldStart("closing");
            for (Optional<Closing.Line> line : closing)
                if (line.isPresent()) line(json, line.get());
                else json.writeNull();
            json.writeEndArray();
            json.writeEndObject();
        };
    }

    private static void line(JsonGenerator json, Closing.Line line) throws IOException {
        json.writeStartObject();
        json.writeStringField("kind", line.kind());
        if (line.corrects().isPresent())
            json.writeNumberField("corrects", line.corrects().getAsInt());
        if (line.like().isPresent()) json.writeNumberField("like", line.like().getAsInt());
        if (line.place().isPresent()) place(json, line.place().get());
        json.writeObjectFieldStart("known");
        for (Map.Entry<String, String> e : new TreeMap<>(line.known()).entrySet())
            json.writeStringField(e.getKey(), e.getValue());
        json.writeEndObject();
        json.writeEndObject();
    }

    private static void place(JsonGenerator json, Spot spot) throws IOException {
        json.writeObjectFieldStart("place");
        JsonParts.place(json, spot.place());
        if (spot.rubPoint().isPresent())
            json.writeStringField("rubPoint", spot.rubPoint().get());
        json.writeEndObject();
    }

    /** One fact as a line of a case holds it. */
    public static JsonText fact(Fact fact) {
        return json -> {
            json.writeStartObject();
            FactWriter.write(json, fact);
            json.writeEndObject();
        };
    }
}
