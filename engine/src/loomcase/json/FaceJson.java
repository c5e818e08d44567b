package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import loomcase.casework.Answer;
import loomcase.inspect.CodeCircuit;
import loomcase.inspect.Face;
import loomcase.inspect.Volts;
import loomcase.journal.Entry;
import loomcase.model.AccessStep;
import loomcase.model.Wire;
import loomcase.plan.NextTest;

/** The face of a place and the circuit of a code as JSON. */
public final class FaceJson {
    private FaceJson() {}

    /** The face of a place. */
    public static JsonText of(Face face, Answer answer) {
        return json -> {
            json.writeStartObject();
            JsonParts.place(json, face.place());
            json.writeStringField("label", face.label());
            JsonParts.texts(json, "facts", face.facts());
            json.writeArrayFieldStart("rows");
            for (Face.Row r : face.rows()) row(json, r);
            json.writeEndArray();
            json.writeArrayFieldStart("suspects");
            for (Face.Fault f : face.suspects()) {
                json.writeStartObject();
                json.writeNumberField("rank", f.rank());
                json.writeStringField("words", f.words());
                json.writeStringField("place", f.place().toString());
                json.writeNumberField("probability", f.probability());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeArrayFieldStart("codes");
            for (Face.CodeHere c : face.codes()) {
                json.writeStartObject();
                json.writeNumberField("spn", c.code().spn());
                json.writeNumberField("fmi", c.code().fmi());
                json.writeStringField("label", c.label());
                json.writeStringField("state", c.state());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeArrayFieldStart("tests");
            for (NextTest t : face.tests()) NextJson.test(json, answer, t);
            json.writeEndArray();
            json.writeArrayFieldStart("lines");
            for (Entry e : face.lines()) {
                json.writeStartObject();
                CaseJson.entry(json, e);
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeArrayFieldStart("access");
            for (AccessStep a : face.access()) {
                json.writeStartObject();
                json.writeStringField("id", a.id());
                JsonParts.access(json, a);
                json.writeBooleanField("open", answer.openAccess().contains(a.id()));
                json.writeEndObject();
            }
            json.writeEndArray();
            JsonParts.texts(json, "cautions", face.cautions());
            json.writeEndObject();
        };
    }

    private static void row(JsonGenerator json, Face.Row r) throws IOException {
        json.writeStartObject();
        json.writeStringField("point", r.point());
        json.writeStringField("label", r.label());
        json.writeArrayFieldStart("wires");
        for (Wire w : r.wires()) {
            json.writeStartObject();
            json.writeStringField("id", w.id());
            json.writeStringField("circuit", w.circuit());
            json.writeStringField("size", w.size().name());
            json.writeStringField("colour", w.colour());
            json.writeStringField("to", w.from().equals(r.point()) ? w.to() : w.from());
            json.writeEndObject();
        }
        json.writeEndArray();
        volts(json, r.volts());
        json.writeEndObject();
    }

    private static void volts(JsonGenerator json, Volts.At at) throws IOException {
        JsonParts.number(json, "healthy", at.healthy());
        JsonParts.number(json, "suspected", at.suspected());
        if (at.measured().isPresent())
            json.writeStringField("measured", at.measured().get());
    }

    /** The circuit of a code. */
    public static JsonText of(CodeCircuit c) {
        return json -> {
            json.writeStartObject();
            json.writeStringField("code", c.code().toString());
            json.writeStringField("label", c.label());
            json.writeStringField("operatingPoint", c.moment().operatingPoint());
            json.writeStringField("phase", c.moment().phase());
            json.writeStringField("limit", c.limit());
            json.writeArrayFieldStart("legs");
            for (CodeCircuit.Leg leg : c.legs()) {
                json.writeStartObject();
                json.writeStringField("title", leg.title());
                json.writeArrayFieldStart("stops");
                for (CodeCircuit.Stop s : leg.stops()) {
                    json.writeStartObject();
                    JsonParts.place(json, s.place());
                    json.writeStringField("point", s.point());
                    json.writeStringField("words", s.words());
                    json.writeBooleanField("differs", s.differs());
                    json.writeNumberField("share", s.share());
                    if (s.volts().isPresent()) volts(json, s.volts().get());
                    json.writeEndObject();
                }
                json.writeEndArray();
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        };
    }
}
