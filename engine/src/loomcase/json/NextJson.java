package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.casework.Answer;
import loomcase.meter.Setup;
import loomcase.meter.Test;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;

/**
 * Proposed tests as JSON, each with the fields of the line that records it, its outcome left out; the form of the whole is
 * {@code circuits/next.schema.json}.
 */
public final class NextJson {
    /** Words of meter tests as a case records them. */
    private static final Map<Class<? extends Test>, String> READINGS = Map.of(
            Test.Volts.class, "volts",
            Test.Ohms.class, "ohms",
            Test.Drop.class, "drop",
            Test.Isolation.class, "isolation");

    private NextJson() {}

    /** The head of an answer with the first of its proposed tests. */
    public static JsonText whole(Answer answer, int most) {
        return json -> {
            json.writeStartObject();
            BriefJson.fields(answer, json);
            json.writeFieldName("tests");
            of(answer, most).write(json);
            json.writeEndObject();
        };
    }

    /** The first of the proposed tests. */
    public static JsonText of(Answer answer, int most) {
        return json -> {
            json.writeStartArray();
            for (NextTest t :
                    answer.next().subList(0, Math.min(most, answer.next().size()))) test(json, answer, t);
            json.writeEndArray();
        };
    }

    static void test(JsonGenerator json, Answer answer, NextTest t) throws IOException {
        json.writeStartObject();
        json.writeStringField("test", t.test().id());
        json.writeStringField("words", t.test().words());
        JsonParts.texts(json, "points", Answer.points(t.test()));
        json.writeNumberField("minutes", t.minutes());
        json.writeNumberField("expectedMinutes", t.expectedMinutes());
        json.writeNumberField("settleNow", t.settleNow());
        JsonParts.texts(
                json,
                "access",
                t.steps().stream()
                        .map(s -> answer.circuit().access().get(s).label())
                        .toList());
        JsonParts.outcomes(json, t);
        JsonParts.texts(json, "cautions", answer.cautions(t));
        json.writeObjectFieldStart("form");
        form(json, t.test());
        json.writeEndObject();
        json.writeEndObject();
    }

    private static void form(JsonGenerator json, Test test) throws IOException {
        if (test instanceof Test.Numeric n) {
            json.writeStringField("kind", "reading");
            json.writeStringField("test", READINGS.get(n.getClass()));
            json.writeStringField("a", n.pointA());
            json.writeStringField("b", n.pointB());
            setup(json, n.setup());
        } else if (test instanceof Test.Watched w) {
            json.writeStringField("kind", "watched");
            json.writeStringField("method", w instanceof Test.UnplugAndWatch ? "unplug" : "jumper");
            Setup setup = Setup.on(w.operatingPoint(), "").unplug(List.of(w.connector()));
            setup(json, w instanceof Test.JumperAndWatch j ? setup.jump(j.from(), j.to(), j.ohms()) : setup);
        } else if (test instanceof Test.Wiggle w) {
            json.writeStringField("kind", "moved");
            json.writeStringField("action", "wiggle");
            place(json, "place", w.place());
            setup(json, Setup.on(w.operatingPoint(), ""));
        } else if (test instanceof Test.Look l) {
            json.writeStringField("kind", "seen");
            place(json, "place", l.place());
        } else if (test instanceof Test.SwapWithNeighbour s) {
            json.writeStringField("kind", "swapped");
            place(json, "part", new PlaceId(PlaceId.Kind.DEVICE, s.device()));
            place(json, "with", new PlaceId(PlaceId.Kind.DEVICE, s.other()));
        } else if (test instanceof Test.Gauge g) {
            json.writeStringField("kind", "gauged");
            place(json, "part", new PlaceId(PlaceId.Kind.DEVICE, g.device()));
        } else throw new IllegalStateException("unknown test " + test);
    }

    private static void place(JsonGenerator json, String field, PlaceId place) throws IOException {
        json.writeObjectFieldStart(field);
        JsonParts.place(json, place);
        json.writeEndObject();
    }

    private static void setup(JsonGenerator json, Setup setup) throws IOException {
        Optional<Setup.KeyOn> on = setup.power() instanceof Setup.KeyOn k ? Optional.of(k) : Optional.empty();
        json.writeObjectFieldStart("setup");
        json.writeStringField(
                "operatingPoint", on.map(Setup.KeyOn::operatingPoint).orElse(loomcase.journal.Setup.KEY_OFF));
        Optional<String> phase = on.map(Setup.KeyOn::phase).filter(p -> !p.isEmpty());
        if (phase.isPresent()) json.writeStringField("phase", phase.get());
        if (!setup.unplugged().isEmpty()) JsonParts.texts(json, "unplugged", setup.unplugged());
        if (!setup.jumpers().isEmpty()) {
            json.writeArrayFieldStart("jumpers");
            for (Setup.Jumper j : setup.jumpers()) {
                json.writeStartObject();
                json.writeStringField("from", j.pointA());
                json.writeStringField("to", j.pointB());
                json.writeNumberField("ohms", j.ohms());
                json.writeEndObject();
            }
            json.writeEndArray();
        }
        json.writeEndObject();
    }
}
