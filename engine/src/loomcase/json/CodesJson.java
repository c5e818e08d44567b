package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Locale;
import java.util.OptionalDouble;
import loomcase.j1939.CodeReading;
import loomcase.j1939.Lamp;
import loomcase.j1939.log.CodeSeen;
import loomcase.j1939.log.CodesRead;
import loomcase.j1939.log.SourceCodes;
import loomcase.j1939.log.Warning;

/** The codes of a log as JSON; its form is {@code circuits/codes.schema.json}. */
public final class CodesJson {
    private CodesJson() {}

    /** What a log says as one JSON object. */
    public static JsonText of(CodesRead read) {
        return g -> write(read, g);
    }

    private static void write(CodesRead read, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeArrayFieldStart("sources");
        for (SourceCodes s : read.sources()) source(g, s);
        g.writeEndArray();
        g.writeArrayFieldStart("warnings");
        for (Warning w : read.warnings()) {
            g.writeStartObject();
            g.writeStringField("kind", lower(w.kind()));
            g.writeNumberField("count", w.count());
            if (w.firstLine().isPresent())
                g.writeNumberField("firstLine", w.firstLine().getAsLong());
            else g.writeNullField("firstLine");
            g.writeStringField("example", w.example());
            g.writeEndObject();
        }
        g.writeEndArray();
        g.writeNumberField("frames", read.frames().total());
        g.writeEndObject();
    }

    private static void source(JsonGenerator g, SourceCodes s) throws IOException {
        g.writeStartObject();
        g.writeStringField("network", s.network());
        g.writeNumberField("address", s.address());
        if (s.lamps().isEmpty()) g.writeNullField("lamps");
        else {
            g.writeObjectFieldStart("lamps");
            lamp(g, "malfunction", s.lamps().get().malfunction());
            lamp(g, "redStop", s.lamps().get().redStop());
            lamp(g, "amberWarning", s.lamps().get().amberWarning());
            lamp(g, "protect", s.lamps().get().protect());
            g.writeEndObject();
        }
        g.writeArrayFieldStart("codes");
        for (CodeSeen c : s.codes()) code(g, c);
        g.writeEndArray();
        g.writeEndObject();
    }

    private static void lamp(JsonGenerator g, String field, Lamp lamp) throws IOException {
        g.writeObjectFieldStart(field);
        g.writeStringField("state", lower(lamp.state()));
        g.writeStringField("flash", lower(lamp.flash()));
        g.writeEndObject();
    }

    private static void code(JsonGenerator g, CodeSeen c) throws IOException {
        g.writeStartObject();
        g.writeNumberField("spn", c.reading().codes().get(0).spn());
        g.writeNumberField("fmi", c.reading().codes().get(0).fmi());
        if (c.reading() instanceof CodeReading.Ambiguous a) {
            g.writeArrayFieldStart("candidates");
            for (var each : a.codes()) g.writeString(each.toString());
            g.writeEndArray();
        }
        RankJson.count(g, c.count());
        g.writeStringField("state", lower(c.state()));
        g.writeNumberField("appearances", c.appearances());
        seconds(g, "firstSeenSeconds", c.firstSeenSeconds());
        seconds(g, "lastSeenSeconds", c.lastSeenSeconds());
        g.writeEndObject();
    }

    private static void seconds(JsonGenerator g, String field, OptionalDouble value) throws IOException {
        if (value.isPresent()) g.writeNumberField(field, value.getAsDouble());
        else g.writeNullField(field);
    }

    /** The word for a kind of warning, a state or a lamp. */
    public static String lower(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
