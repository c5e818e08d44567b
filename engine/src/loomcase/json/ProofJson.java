package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import loomcase.j1939.Code;
import loomcase.proof.AfterWork;
import loomcase.proof.Proof;
import loomcase.proof.ProofReport;

/** The proof of a repair as JSON; its form is {@code circuits/proof.schema.json}. */
public final class ProofJson {
    private ProofJson() {}

    /** A proof as one JSON object. */
    public static JsonText of(ProofReport report) {
        return g -> write(report, g);
    }

    private static void write(ProofReport report, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("circuit", report.circuit().id());
        g.writeStringField("status", report.proof().status().word());
        g.writeStringField("answer", report.answer());
        numbers("workLines", report.proof().workLines(), g);
        g.writeArrayFieldStart("checks");
        for (Proof.Check c : report.proof().checks()) check(c, g);
        g.writeEndArray();
        texts("notes", report.proof().notes(), g);
        if (report.after().isPresent()) after(report.after().get(), g);
        else g.writeNullField("afterWork");
        g.writeEndObject();
    }

    private static void check(Proof.Check c, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("kind", c.kind().word());
        g.writeStringField("state", c.state().word());
        g.writeStringField("words", c.words());
        if (c.limit().isPresent()) limit(c.limit().get(), g);
        else g.writeNullField("limit");
        g.writeStringField("source", c.source());
        g.writeStringField("caution", c.caution());
        numbers("lines", c.lines(), g);
        g.writeStringField("found", c.found());
        g.writeEndObject();
    }

    private static void limit(Proof.Limit l, JsonGenerator g) throws IOException {
        g.writeObjectFieldStart("limit");
        g.writeStringField("a", l.a());
        g.writeStringField("b", l.b());
        texts("unplugged", l.unplugged(), g);
        if (l.aboutOhms().isPresent())
            g.writeNumberField("aboutOhms", l.aboutOhms().get());
        else g.writeNullField("aboutOhms");
        g.writeNumberField("limitOhms", l.limitOhms());
        g.writeBooleanField("atMost", l.atMost());
        g.writeEndObject();
    }

    private static void after(AfterWork after, JsonGenerator g) throws IOException {
        g.writeObjectFieldStart("afterWork");
        g.writeArrayFieldStart("suspects");
        for (AfterWork.Suspect s : after.suspects()) {
            g.writeStartObject();
            g.writeStringField("fault", s.words());
            g.writeStringField("kind", s.place().kind().word());
            g.writeStringField("place", s.place().id());
            g.writeNumberField("probability", s.probability());
            g.writeBooleanField("slip", s.slip());
            g.writeArrayFieldStart("slips");
            for (AfterWork.Slip x : s.slips()) {
                g.writeStartObject();
                g.writeStringField("fault", x.words());
                g.writeNumberField("probability", x.probability());
                g.writeEndObject();
            }
            g.writeEndArray();
            texts("others", s.others(), g);
            texts("explains", s.explains().stream().map(Code::toString).toList(), g);
            texts("leaves", s.leaves().stream().map(Code::toString).toList(), g);
            g.writeEndObject();
        }
        g.writeEndArray();
        g.writeNumberField("unexplained", after.unexplained());
        g.writeEndObject();
    }

    private static void numbers(String field, List<Integer> values, JsonGenerator g) throws IOException {
        g.writeArrayFieldStart(field);
        for (int v : values) g.writeNumber(v);
        g.writeEndArray();
    }

    private static void texts(String field, List<String> values, JsonGenerator g) throws IOException {
        g.writeArrayFieldStart(field);
        for (String v : values) g.writeString(v);
        g.writeEndArray();
    }
}
