package loomcase.journal;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;

/** The fields of a fact in their fixed order; {@link FactReader} is its mirror. */
public final class FactWriter {
    private final JsonGenerator g;

    private FactWriter(JsonGenerator g) {
        this.g = g;
    }

    /** Writes kind and fields into the object that is open. */
    public static void write(JsonGenerator g, Fact fact) throws IOException {
        g.writeStringField("kind", fact.kind());
        FactWriter w = new FactWriter(g);
        if (fact instanceof Fact.Opened f) w.opened(f);
        else if (fact instanceof Fact.Codes f) w.codes(f);
        else if (fact instanceof Fact.Reading f) w.reading(f);
        else if (fact instanceof Fact.Watched f) w.watched(f);
        else if (fact instanceof Fact.Moved f) w.moved(f);
        else if (fact instanceof Fact.Seen f) w.seen(f);
        else if (fact instanceof Fact.Swapped f) w.swapped(f);
        else if (fact instanceof Fact.Gauged f) w.gauged(f);
        else if (fact instanceof Fact.OpenedAccess f) g.writeStringField("step", f.step());
        else if (fact instanceof Fact.ClosedAccess f) g.writeStringField("step", f.step());
        else if (fact instanceof Fact.Refused f) w.refused(f);
        else if (fact instanceof Fact.Work f) w.work(f);
        else if (fact instanceof ClaimFact.Photo f) w.photo(f);
        else if (fact instanceof ClaimFact.Kept f) w.kept(f);
        else if (fact instanceof ClaimFact.Part f) w.part(f);
        else if (fact instanceof ClaimFact.Chose f) w.chose(f);
        else if (fact instanceof ClaimFact.Approved f) w.approved(f);
        else if (fact instanceof Fact.Correction f) w.correction(f);
        else if (fact instanceof Fact.Note f) g.writeStringField("text", f.text());
        else throw new IllegalStateException("no way to write a fact of kind " + fact.kind());
    }

    private void opened(Fact.Opened f) throws IOException {
        g.writeObjectFieldStart("circuit");
        g.writeStringField("file", f.circuit().file());
        g.writeStringField("id", f.circuit().id());
        g.writeStringField("digest", f.circuit().digest().hex());
        g.writeEndObject();
        g.writeStringField("complaint", f.complaint());
        text("unit", f.unit());
        number("hours", f.hours());
        text("serial", f.machine().serial());
        text("inService", f.machine().inService().map(Object::toString));
        text("distance", f.machine().distance());
    }

    private void codes(Fact.Codes f) throws IOException {
        g.writeArrayFieldStart("codes");
        for (Fact.ReadCode c : f.codes()) {
            g.writeStartObject();
            code(c.code());
            if (c.count().isPresent()) g.writeNumberField("count", c.count().getAsInt());
            g.writeStringField("state", Words.of(c.state()));
            g.writeEndObject();
        }
        g.writeEndArray();
        texts("operatingPoints", f.operatingPoints());
        if (f.log().isEmpty()) g.writeStringField("source", FactReader.TYPED);
        else {
            g.writeObjectFieldStart("source");
            g.writeStringField("log", f.log().get().file());
            g.writeStringField("digest", f.log().get().digest().hex());
            g.writeEndObject();
        }
        if (f.lamps().isPresent()) lamps(f.lamps().get());
    }

    private void code(Code code) throws IOException {
        g.writeNumberField("spn", code.spn());
        g.writeNumberField("fmi", code.fmi());
    }

    private void lamps(Lamps lamps) throws IOException {
        g.writeObjectFieldStart("lamps");
        lamp("malfunction", lamps.malfunction());
        lamp("redStop", lamps.redStop());
        lamp("amberWarning", lamps.amberWarning());
        lamp("protect", lamps.protect());
        g.writeEndObject();
    }

    private void lamp(String field, Lamp lamp) throws IOException {
        g.writeObjectFieldStart(field);
        g.writeStringField("state", Words.of(lamp.state()));
        g.writeStringField("flash", lamp.flash().name().toLowerCase(Locale.ROOT));
        g.writeEndObject();
    }

    private void reading(Fact.Reading f) throws IOException {
        g.writeStringField("test", f.test().word());
        g.writeStringField("a", f.a());
        g.writeStringField("b", f.b());
        if (f.shown() instanceof Shown.Number n) {
            g.writeNumberField("value", n.amount());
            g.writeStringField("unit", n.unit().sign());
        } else g.writeStringField("value", Shown.OPEN);
        setup(f.setup());
        if (f.meter().equals(Meter.NOT_SAID)) return;
        g.writeObjectFieldStart("meter");
        if (!f.meter().name().isEmpty()) g.writeStringField("name", f.meter().name());
        number("inputOhms", f.meter().inputOhms());
        number("leadZeroOhms", f.meter().leadZeroOhms());
        g.writeEndObject();
    }

    private void setup(Setup setup) throws IOException {
        g.writeObjectFieldStart("setup");
        g.writeStringField("operatingPoint", setup.operatingPoint().orElse(Setup.KEY_OFF));
        text("phase", setup.phase());
        if (!setup.unplugged().isEmpty()) texts("unplugged", setup.unplugged());
        if (!setup.jumpers().isEmpty()) {
            g.writeArrayFieldStart("jumpers");
            for (Jumper j : setup.jumpers()) {
                g.writeStartObject();
                g.writeStringField("from", j.from());
                g.writeStringField("to", j.to());
                number("ohms", OptionalDouble.of(j.ohms()));
                g.writeEndObject();
            }
            g.writeEndArray();
        }
        number("wireCelsius", setup.wireCelsius());
        g.writeEndObject();
    }

    private void watched(Fact.Watched f) throws IOException {
        g.writeStringField("method", Words.of(f.method()));
        setup(f.setup());
        g.writeArrayFieldStart("active");
        for (Code c : f.active()) {
            g.writeStartObject();
            code(c);
            g.writeEndObject();
        }
        g.writeEndArray();
    }

    private void moved(Fact.Moved f) throws IOException {
        g.writeStringField("action", Words.of(f.action()));
        spot("place", f.spot());
        g.writeBooleanField("response", f.response());
        note("what", f.what());
        setup(f.setup());
    }

    private void seen(Fact.Seen f) throws IOException {
        spot("place", f.spot());
        g.writeStringField("finding", f.finding().word());
        note("note", f.note());
    }

    private void swapped(Fact.Swapped f) throws IOException {
        spot("part", f.part());
        spot("with", f.with());
        g.writeStringField("codes", Words.of(f.outcome()));
        note("note", f.note());
    }

    private void gauged(Fact.Gauged f) throws IOException {
        spot("part", f.part());
        g.writeStringField("condition", f.condition());
        note("note", f.note());
    }

    private void refused(Fact.Refused f) throws IOException {
        g.writeStringField("test", f.test());
        g.writeStringField("reason", f.reason());
    }

    private void work(Fact.Work f) throws IOException {
        g.writeStringField("what", Words.of(f.deed()));
        if (f.spot().isPresent()) spot("place", f.spot().get());
        note("note", f.note());
        number("minutes", f.minutes());
    }

    private void photo(ClaimFact.Photo f) throws IOException {
        g.writeStringField("file", f.file());
        g.writeStringField("fileDigest", f.digest().hex());
        g.writeStringField("view", Words.of(f.view()));
        if (f.spot().isPresent()) spot("place", f.spot().get());
        g.writeStringField("shows", f.shows());
    }

    private void kept(ClaimFact.Kept f) throws IOException {
        g.writeStringField("part", f.part());
        g.writeStringField("tag", f.tag());
        g.writeStringField("where", f.where());
    }

    private void part(ClaimFact.Part f) throws IOException {
        g.writeStringField("name", f.name());
        text("number", f.number());
        g.writeNumberField("quantity", f.quantity());
        if (f.price().isPresent()) g.writeNumberField("price", f.price().get());
        g.writeStringField("role", Words.of(f.role()));
        g.writeStringField("sort", Words.of(f.sort()));
        if (f.spot().isPresent()) spot("place", f.spot().get());
    }

    private void chose(ClaimFact.Chose f) throws IOException {
        g.writeStringField("option", f.option().word());
        spot("place", f.spot());
        note("reason", f.reason());
        text("damage", f.damage().map(ClaimFact.Damage::word));
        if (f.also().isEmpty()) return;
        g.writeObjectFieldStart("also");
        g.writeStringField("option", f.also().get().option().word());
        spot("place", f.also().get().spot());
        g.writeEndObject();
    }

    private void approved(ClaimFact.Approved f) throws IOException {
        g.writeStringField("what", f.what());
        text("approver", f.approver());
        text("number", f.number());
        text("date", f.date().map(Object::toString));
    }

    private void correction(Fact.Correction f) throws IOException {
        g.writeNumberField("corrects", f.corrects());
        g.writeObjectFieldStart("replacement");
        write(g, f.replacement());
        g.writeEndObject();
    }

    private void spot(String field, Spot spot) throws IOException {
        g.writeObjectFieldStart(field);
        g.writeStringField("kind", spot.place().kind().word());
        g.writeStringField("id", spot.place().id());
        text("rubPoint", spot.rubPoint());
        g.writeEndObject();
    }

    private void texts(String field, List<String> texts) throws IOException {
        g.writeArrayFieldStart(field);
        for (String text : texts) g.writeString(text);
        g.writeEndArray();
    }

    private void note(String field, String text) throws IOException {
        if (!text.isEmpty()) g.writeStringField(field, text);
    }

    private void text(String field, Optional<String> text) throws IOException {
        if (text.isPresent()) g.writeStringField(field, text.get());
    }

    private void number(String field, OptionalDouble value) throws IOException {
        if (value.isPresent()) g.writeNumberField(field, new BigDecimal(Shown.plain(value.getAsDouble())));
    }
}
