package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Collection;
import java.util.Optional;
import loomcase.fit.Difference;
import loomcase.fit.FitReport;
import loomcase.fit.FitResult;
import loomcase.fit.Moves;
import loomcase.fit.Slip;
import loomcase.fit.Transfer;

/** The comparison of two harnesses as JSON; its form is {@code circuits/fit.schema.json}. */
public final class FitJson {
    private FitJson() {}

    /** A comparison as one JSON object. */
    public static JsonText of(FitReport report) {
        return g -> write(report, g);
    }

    private static void write(FitReport report, JsonGenerator g) throws IOException {
        FitResult fit = report.fit();
        g.writeStartObject();
        g.writeStringField("old", fit.old().id());
        g.writeStringField("new", fit.newName());
        g.writeBooleanField("newIsWhole", fit.neu().isPresent());
        g.writeStringField("result", fit.verdict().word());
        g.writeBooleanField("settled", fit.settled());
        g.writeStringField("answer", fit.answer());
        g.writeArrayFieldStart("differences");
        for (Difference d : fit.differences()) difference(d, g);
        g.writeEndArray();
        g.writeArrayFieldStart("notKnown");
        for (Difference.NotKnown n : fit.notKnown()) {
            g.writeStartObject();
            g.writeStringField("what", n.what());
            g.writeStringField("where", n.where());
            g.writeBooleanField("matters", n.matters());
            g.writeEndObject();
        }
        g.writeEndArray();
        g.writeArrayFieldStart("plugs");
        for (FitResult.PlugMatch p : fit.plugs()) plug(p, g);
        g.writeEndArray();
        texts("operatingPoints", report.operatingPoints(), g);
        g.writeArrayFieldStart("transfers");
        for (FitReport.PlugReport p : report.plugs()) transfer(p, g);
        g.writeEndArray();
        g.writeEndObject();
    }

    private static void difference(Difference d, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("subject", d.subject().word());
        g.writeStringField("severity", d.severity().word());
        g.writeStringField("where", d.where());
        g.writeStringField("what", d.what());
        g.writeStringField("consequence", d.consequence());
        g.writeStringField("action", d.action());
        g.writeStringField("source", d.source());
        g.writeEndObject();
    }

    private static void plug(FitResult.PlugMatch p, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("old", p.old().id());
        g.writeStringField("new", p.neu().id());
        g.writeStringField("sure", p.sure().word());
        g.writeObjectFieldStart("cavities");
        for (var e : p.cavities().entrySet()) g.writeStringField(e.getKey(), e.getValue());
        g.writeEndObject();
        g.writeEndObject();
    }

    private static void transfer(FitReport.PlugReport p, JsonGenerator g) throws IOException {
        Transfer t = p.transfer();
        g.writeStartObject();
        g.writeStringField("plug", t.plug());
        g.writeStringField("newPlug", t.newPlug());
        g.writeStringField("shell", t.shell() == Transfer.Shell.OLD ? "old" : "same");
        g.writeArrayFieldStart("moves");
        for (Moves.Move m : t.moves()) {
            g.writeStartObject();
            g.writeStringField("kind", m.kind().name().toLowerCase(java.util.Locale.ROOT));
            g.writeStringField("from", m.from());
            g.writeStringField("to", m.to());
            g.writeEndObject();
        }
        g.writeEndArray();
        g.writeArrayFieldStart("cycles");
        for (var c : t.cycles()) {
            g.writeStartArray();
            for (String each : c) g.writeString(each);
            g.writeEndArray();
        }
        g.writeEndArray();
        texts("setAside", t.setAside(), g);
        texts("toPlug", t.toPlug(), g);
        g.writeArrayFieldStart("steps");
        for (Transfer.Step s : t.steps()) step(s, g);
        g.writeEndArray();
        g.writeArrayFieldStart("checks");
        for (Slip.Check c : p.checks()) check(c, g);
        g.writeEndArray();
        texts("unchecked", p.unchecked(), g);
        g.writeArrayFieldStart("slips");
        for (Slip s : p.slips()) slip(s, g);
        g.writeEndArray();
        g.writeEndObject();
    }

    private static void step(Transfer.Step s, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("work", s.work());
        maybe("from", s.from(), g);
        maybe("to", s.to(), g);
        g.writeStringField("wire", s.wire());
        g.writeStringField("caution", s.caution());
        g.writeEndObject();
    }

    private static void check(Slip.Check c, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("cavity", c.cavity());
        g.writeStringField("far", c.far());
        texts("apart", c.apart(), g);
        g.writeNumberField("expectedOhms", c.expectedOhms());
        g.writeNumberField("limitOhms", c.limitOhms());
        g.writeBooleanField("ofNewWire", c.ofNewWire());
        g.writeEndObject();
    }

    private static void slip(Slip s, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("kind", s.kind().word());
        g.writeStringField("cavity", s.cavity());
        maybe("other", s.other(), g);
        g.writeStringField("effect", s.effect().word());
        g.writeArrayFieldStart("codes");
        for (Slip.Shown c : s.codes()) {
            g.writeStartObject();
            g.writeNumberField("spn", c.code().spn());
            g.writeNumberField("fmi", c.code().fmi());
            g.writeNumberField("probability", c.probability());
            g.writeEndObject();
        }
        g.writeEndArray();
        texts("damage", s.damage(), g);
        g.writeBooleanField("settled", s.settled());
        maybe("caughtAt", s.check().map(Slip.Check::cavity), g);
        maybe("caughtTo", s.check().map(Slip.Check::far), g);
        // over range has no number
        if (s.wrongOhms().isPresent() && Double.isFinite(s.wrongOhms().getAsDouble()))
            g.writeNumberField("wrongOhms", s.wrongOhms().getAsDouble());
        else g.writeNullField("wrongOhms");
        g.writeEndObject();
    }

    private static void maybe(String field, Optional<String> value, JsonGenerator g) throws IOException {
        if (value.isPresent()) g.writeStringField(field, value.get());
        else g.writeNullField(field);
    }

    private static void texts(String field, Collection<String> values, JsonGenerator g) throws IOException {
        g.writeArrayFieldStart(field);
        for (String v : values) g.writeString(v);
        g.writeEndArray();
    }
}
