package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import loomcase.journal.Fact;
import loomcase.journal.Journal;

/** The timeline of a case as JSON; its form is {@code circuits/show.schema.json}. */
public final class ShowJson {
    private ShowJson() {}

    /** A case as it stands; its circuit is named, not read. */
    public static JsonText of(Journal journal) {
        return json -> write(json, journal);
    }

    private static void write(JsonGenerator json, Journal journal) throws IOException {
        Fact.Opened opened = journal.opened();
        json.writeStartObject();
        json.writeStringField("complaint", opened.complaint());
        json.writeObjectFieldStart("circuit");
        json.writeStringField("file", opened.circuit().file());
        json.writeStringField("id", opened.circuit().id());
        json.writeStringField("digest", opened.circuit().digest().hex());
        json.writeEndObject();
        if (opened.unit().isPresent())
            json.writeStringField("unit", opened.unit().get());
        if (opened.hours().isPresent())
            json.writeNumberField("hours", opened.hours().getAsDouble());
        JsonParts.texts(json, "notices", journal.notices());
        CaseJson.entries(json, journal);
        JsonParts.texts(json, "openAccess", List.copyOf(journal.openAccess()));
        json.writeStringField("last", journal.last().hex());
        json.writeEndObject();
    }
}
