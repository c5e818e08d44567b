package loomcase.drill;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.j1939.Dtc;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import loomcase.model.read.Cursor;
import loomcase.model.read.Json;

/** Drill files as JSON, both ways. */
final class DrillJson {
    static final String FORM = "loomcase-drill/1";

    private static final String NOTE =
            "A drill. What is wrong is sealed; the codes and the complaint are what a student"
                    + " starts from. The seal keeps the answer from whoever opens this file, not from someone who takes the"
                    + " program apart.";
    private static final double MOST_MINUTES = 1e5;
    private static final double MOST_MONEY = 1e7;

    private DrillJson() {}

    private interface Writing {
        void to(JsonGenerator g) throws IOException;
    }

    private static String text(boolean pretty, Writing writing) {
        StringWriter out = new StringWriter();
        try (JsonGenerator g = new JsonFactory().createGenerator(out)) {
            if (pretty) g.useDefaultPrettyPrinter();
            g.writeStartObject();
            writing.to(g);
            g.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException("a text in memory cannot fail to be written", e);
        }
        return out.toString();
    }

    /** The public part in its one form; the seal is bound to these bytes. */
    static String open(Drill drill) {
        return text(false, g -> open(g, drill));
    }

    static String whole(Drill drill, Vault vault) {
        return text(true, g -> {
                    open(g, drill);
                    g.writeObjectFieldStart("sealed");
                    g.writeStringField("cipher", "AES-256-GCM");
                    g.writeStringField("passphrase", "PBKDF2-HMAC-SHA-256");
                    g.writeNumberField("iterations", vault.iterations());
                    g.writeStringField("salt", Vault.hex(vault.salt()));
                    g.writeStringField("instructor", Vault.hex(vault.instructor()));
                    g.writeStringField("program", Vault.hex(vault.program()));
                    g.writeStringField("content", Vault.hex(vault.content()));
                    g.writeEndObject();
                })
                + "\n";
    }

    private static void open(JsonGenerator g, Drill d) throws IOException {
        g.writeStringField("form", FORM);
        g.writeStringField("note", NOTE);
        g.writeObjectFieldStart("circuit");
        g.writeStringField("file", d.circuit().file());
        g.writeStringField("id", d.circuit().id());
        g.writeStringField("digest", d.circuit().digest().hex());
        g.writeEndObject();
        g.writeStringField("complaint", d.complaint());
        g.writeBooleanField(
                "lampOn", d.first().lamps().map(l -> !l.equals(Lamps.OFF)).orElse(false));
        g.writeArrayFieldStart("codes");
        for (Fact.ReadCode c : d.first().codes()) {
            g.writeStartObject();
            g.writeNumberField("spn", c.code().spn());
            g.writeNumberField("fmi", c.code().fmi());
            g.writeNumberField("count", c.count().orElse(1));
            g.writeBooleanField("active", c.state() == Fact.State.ACTIVE);
            g.writeEndObject();
        }
        g.writeEndArray();
        g.writeArrayFieldStart("operatingPoints");
        for (String p : d.first().operatingPoints()) g.writeString(p);
        g.writeEndArray();
        if (!d.difficulty().isEmpty()) g.writeStringField("difficulty", d.difficulty());
        if (d.limits().minutes().isPresent())
            g.writeNumberField("limitMinutes", d.limits().minutes().getAsDouble());
        if (d.limits().money().isPresent())
            g.writeNumberField("limitMoney", d.limits().money().get());
        g.writeNumberField("hintMinutes", d.limits().hintMinutes());
    }

    static Drill open(Cursor c) {
        if (!c.text("form").equals(FORM)) throw c.problem("form", "is not " + FORM + "; this is no drill file");
        c.text("note");
        Cursor circuit = c.object("circuit");
        Fact.CircuitFile file = new Fact.CircuitFile(circuit.id("file"), circuit.id("id"), digest(circuit, "digest"));
        circuit.done();
        List<Fact.ReadCode> codes = new ArrayList<>();
        for (Cursor each : c.some("codes")) codes.add(code(each));
        Lamp lamp = c.flag("lampOn", false) ? Lamp.ON : Lamp.OFF;
        Lamps lamps = new Lamps(Lamp.OFF, lamp, Lamp.OFF, Lamp.OFF);
        Fact.Codes first = new Fact.Codes(codes, c.someTexts("operatingPoints"), Optional.empty(), Optional.of(lamps));
        Limits limits = new Limits(
                c.has("limitMinutes")
                        ? OptionalDouble.of(c.number("limitMinutes", 1, MOST_MINUTES))
                        : OptionalDouble.empty(),
                c.has("limitMoney") ? Optional.of(c.decimal("limitMoney", 1, MOST_MONEY)) : Optional.empty(),
                c.number("hintMinutes", 0, MOST_MINUTES));
        return new Drill(file, c.id("complaint"), first, c.text("difficulty", ""), limits);
    }

    private static Digest digest(Cursor c, String field) {
        try {
            return new Digest(c.text(field));
        } catch (IllegalArgumentException e) {
            throw c.problem(field, e.getMessage());
        }
    }

    private static Fact.ReadCode code(Cursor c) {
        Code code = new Code(c.whole("spn", 0, 524287), c.whole("fmi", 0, 31));
        int count = c.whole("count", 0, Dtc.MAX_COUNT);
        Fact.State state = c.flag("active", false) ? Fact.State.ACTIVE : Fact.State.STORED;
        c.done();
        return new Fact.ReadCode(code, OptionalInt.of(count), state);
    }

    static Vault vault(Cursor c) {
        c.text("cipher");
        c.text("passphrase");
        Vault out = new Vault(
                c.whole("iterations", Vault.LEAST_ITERATIONS, Vault.MOST_ITERATIONS),
                bytes(c, "salt"),
                bytes(c, "instructor"),
                bytes(c, "program"),
                bytes(c, "content"));
        c.done();
        return out;
    }

    private static byte[] bytes(Cursor c, String field) {
        try {
            return HexFormat.of().parseHex(c.text(field));
        } catch (IllegalArgumentException e) {
            throw c.problem(field, "must be hexadecimal digits");
        }
    }

    /** What is sealed. */
    static String sealed(Truth truth) {
        return text(false, g -> {
            g.writeStringField("seed", Long.toString(truth.seed()));
            g.writeArrayFieldStart("faults");
            for (Truth.Fault f : truth.faults()) {
                g.writeStartObject();
                g.writeStringField("fault", f.hypothesis());
                g.writeArrayFieldStart("hits");
                for (int hit : f.hits()) g.writeString(Integer.toString(hit));
                g.writeEndArray();
                g.writeStringField("showing", f.showing().word());
                g.writeEndObject();
            }
            g.writeEndArray();
            g.writeArrayFieldStart("strays");
            for (Truth.Stray s : truth.strays()) {
                g.writeStartObject();
                g.writeNumberField("spn", s.code().spn());
                g.writeNumberField("fmi", s.code().fmi());
                g.writeNumberField("count", s.count());
                g.writeEndObject();
            }
            g.writeEndArray();
        });
    }

    static Truth truth(Path file, String sealed) {
        try {
            Cursor c = Cursor.of(file, Json.ofLine(file, 1, sealed));
            List<Truth.Fault> faults = new ArrayList<>();
            for (Cursor f : c.some("faults"))
                faults.add(new Truth.Fault(
                        f.text("fault"),
                        f.texts("hits").stream().map(Integer::valueOf).toList(),
                        Showing.of(f.text("showing"))));
            List<Truth.Stray> strays = new ArrayList<>();
            for (Cursor s : c.objects("strays"))
                strays.add(new Truth.Stray(
                        new Code(s.whole("spn", 0, 524287), s.whole("fmi", 0, 31)),
                        s.whole("count", 0, Dtc.MAX_COUNT)));
            return new Truth(Long.parseLong(c.text("seed")), faults, strays);
        } catch (NumberFormatException e) {
            throw new InputProblem(file + ": the sealed part is not as this version writes it", e);
        }
    }
}
