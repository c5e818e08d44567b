package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.Map;
import loomcase.claim.Audit;

/** An audit of claims as JSON; its form is {@code circuits/audit.schema.json}. Money is text, so that no reader rounds it. */
public final class AuditJson {
    private AuditJson() {}

    /** An audit as one JSON object. */
    public static JsonText of(Audit audit) {
        return json -> {
            json.writeStartObject();
            json.writeNumberField("canBeSent", audit.claimable());
            json.writeObjectFieldStart("ready");
            for (Map.Entry<String, BigDecimal> e : audit.ready().entrySet())
                json.writeStringField(e.getKey(), e.getValue().toPlainString());
            json.writeEndObject();
            json.writeArrayFieldStart("cases");
            for (Audit.Row row : audit.rows()) row(json, row);
            json.writeEndArray();
            json.writeEndObject();
        };
    }

    private static void row(JsonGenerator json, Audit.Row row) throws IOException {
        json.writeStartObject();
        json.writeStringField("case", row.file());
        json.writeStringField("unit", row.unit());
        json.writeStringField("answer", row.answer());
        if (row.total().isPresent()) {
            json.writeStringField("total", row.total().get().total().toPlainString());
            json.writeStringField("currency", row.total().get().currency());
        }
        if (row.problem().isPresent())
            json.writeStringField("problem", row.problem().get());
        JsonParts.texts(json, "contradictions", row.contradictions());
        JsonParts.texts(json, "blocks", row.blocks());
        JsonParts.texts(json, "questioned", row.questioned());
        JsonParts.texts(json, "nice", row.nice());
        json.writeEndObject();
    }
}
