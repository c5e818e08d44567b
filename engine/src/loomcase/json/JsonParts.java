package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.OptionalDouble;
import loomcase.model.AccessStep;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;

/** Pieces that several forms share. */
final class JsonParts {
    private JsonParts() {}

    static void texts(JsonGenerator json, String field, List<String> texts) throws IOException {
        json.writeArrayFieldStart(field);
        for (String text : texts) json.writeString(text);
        json.writeEndArray();
    }

    static void number(JsonGenerator json, String field, OptionalDouble value) throws IOException {
        if (value.isPresent()) json.writeNumberField(field, value.getAsDouble());
        else json.writeNullField(field);
    }

    static void place(JsonGenerator json, PlaceId place) throws IOException {
        json.writeStringField("kind", place.kind().word());
        json.writeStringField("id", place.id());
    }

    static void access(JsonGenerator json, AccessStep step) throws IOException {
        json.writeStringField("label", step.label());
        json.writeNumberField("minutes", step.minutes());
        json.writeStringField("caution", step.caution());
    }

    /** What a proposed test may show, most probable first. */
    static void outcomes(JsonGenerator json, NextTest test) throws IOException {
        json.writeArrayFieldStart("outcomes");
        for (NextTest.Outcome o : test.outcomes()) {
            json.writeStartObject();
            json.writeStringField("outcome", o.words());
            json.writeNumberField("probability", o.probability());
            json.writeStringField("meaning", o.meaning());
            json.writeNumberField("then", o.then());
            json.writeEndObject();
        }
        json.writeEndArray();
    }
}
