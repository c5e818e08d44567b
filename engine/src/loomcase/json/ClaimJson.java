package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import loomcase.claim.Packet;
import loomcase.journal.ClaimFact;
import loomcase.journal.Spot;
import loomcase.policy.ClaimGap;
import loomcase.print.Phrase;

/** A claim as JSON; its form is {@code circuits/claim.schema.json}. Money is text, so that no reader rounds it. */
public final class ClaimJson {
    private final Packet p;
    private final JsonGenerator g;

    private ClaimJson(Packet packet, JsonGenerator g) {
        this.p = packet;
        this.g = g;
    }

    /** A claim as one JSON object. */
    public static JsonText of(Packet packet) {
        return g -> new ClaimJson(packet, g).write();
    }

    private interface Fields<T> {
        void write(T item) throws IOException;
    }

    private <T> void each(String name, Collection<T> items, Fields<T> fields) throws IOException {
        g.writeArrayFieldStart(name);
        for (T item : items) {
            g.writeStartObject();
            fields.write(item);
            g.writeEndObject();
        }
        g.writeEndArray();
    }

    private void write() throws IOException {
        g.writeStartObject();
        g.writeStringField("case", p.about().caseFile());
        g.writeBooleanField("canBeSent", p.canBeSent());
        machine();
        each("gaps", p.outcome().gaps(), this::gap);
        g.writeBooleanField("shopPolicyDiffers", p.outcome().shopPolicyDiffers());
        phrases("contradictions", p.contradictions());
        if (p.proven().isPresent()) {
            g.writeObjectFieldStart("proof");
            g.writeNumberField("passed", p.proven().get().passed());
            g.writeNumberField("checks", p.proven().get().all());
            g.writeEndObject();
        }
        phrases("complaint", p.complaint());
        phrases("cause", p.cause());
        phrases("correction", p.correction());
        each("codes", p.codes(), this::codes);
        each("readings", p.readings(), this::reading);
        choice();
        each("photos", p.photos(), this::photo);
        reasoning();
        bill();
        each("kept", p.kept(), k -> {
            g.writeNumberField("line", k.line());
            g.writeStringField("part", k.kept().part());
            g.writeStringField("tag", k.kept().tag());
            g.writeStringField("where", k.kept().where());
        });
        each("approvals", p.approvals(), this::approval);
        who();
        evidence();
        g.writeEndObject();
    }

    private void machine() throws IOException {
        var o = p.about().opened();
        g.writeObjectFieldStart("machine");
        maybe("unit", o.unit());
        maybe("serial", o.machine().serial());
        maybe("inService", o.machine().inService().map(Object::toString));
        maybe("distance", o.machine().distance());
        if (o.hours().isPresent()) g.writeNumberField("hours", o.hours().getAsDouble());
        g.writeStringField("circuit", o.circuit().id());
        g.writeEndObject();
    }

    private void gap(ClaimGap gap) throws IOException {
        g.writeStringField("severity", gap.severity().name().toLowerCase(Locale.ROOT));
        g.writeStringField("field", gap.field());
        g.writeStringField("text", gap.text());
        g.writeStringField("rule", gap.rule());
        g.writeStringField("source", gap.source());
    }

    private void phrases(String name, List<Phrase> phrases) throws IOException {
        each(name, phrases, this::phrase);
    }

    private void phrase(Phrase phrase) throws IOException {
        g.writeStringField("text", phrase.text());
        lines(phrase);
    }

    private void lines(Phrase phrase) throws IOException {
        g.writeArrayFieldStart("lines");
        for (int line : phrase.lines()) g.writeNumber(line);
        g.writeEndArray();
    }

    private void codes(Packet.CodesLine c) throws IOException {
        g.writeStringField("stage", c.stage().word());
        g.writeNumberField("line", c.line());
        g.writeStringField("at", c.at().toString());
        each("codes", c.codes().codes(), x -> {
            g.writeNumberField("spn", x.code().spn());
            g.writeNumberField("fmi", x.code().fmi());
            if (x.count().isPresent()) g.writeNumberField("count", x.count().getAsInt());
            g.writeStringField("state", x.state().name().toLowerCase(Locale.ROOT));
        });
    }

    private void reading(Packet.ReadingLine r) throws IOException {
        g.writeStringField("stage", r.stage().word());
        g.writeNumberField("line", r.line());
        g.writeStringField("at", r.at().toString());
        g.writeStringField("test", r.reading().test().word());
        g.writeStringField("a", r.reading().a());
        g.writeStringField("b", r.reading().b());
        g.writeStringField("shown", r.reading().shown().toString());
        maybe("limit", r.limit().map(Packet.Limit::words));
        g.writeStringField("judged", r.limit().isEmpty() ? "not-judged" : r.out() ? "out" : "in");
        if (!r.reading().meter().name().isEmpty())
            g.writeStringField("meter", r.reading().meter().name());
        if (r.reading().meter().leadZeroOhms().isPresent())
            g.writeNumberField(
                    "leadZeroOhms", r.reading().meter().leadZeroOhms().getAsDouble());
        if (r.reading().setup().wireCelsius().isPresent())
            g.writeNumberField("wireCelsius", r.reading().setup().wireCelsius().getAsDouble());
    }

    private void choice() throws IOException {
        if (p.choice().isEmpty()) return;
        Packet.Choice c = p.choice().get();
        g.writeObjectFieldStart("choice");
        g.writeNumberField("line", c.line());
        g.writeStringField("option", c.chose().option().word());
        place(Optional.of(c.spot()));
        if (!c.chose().reason().isEmpty())
            g.writeStringField("reason", c.chose().reason());
        maybe("damage", c.chose().damage().map(d -> d.word()));
        if (c.chose().also().isPresent()) {
            g.writeObjectFieldStart("also");
            g.writeStringField("option", c.chose().also().get().option().word());
            place(c.chose().also().map(ClaimFact.Also::spot));
            g.writeEndObject();
        }
        g.writeEndObject();
    }

    private void place(Optional<Spot> spot) throws IOException {
        if (spot.isEmpty()) return;
        g.writeObjectFieldStart("place");
        g.writeStringField("kind", spot.get().place().kind().word());
        g.writeStringField("id", spot.get().place().id());
        maybe("rubPoint", spot.get().rubPoint());
        g.writeEndObject();
    }

    private void photo(Packet.PhotoLine l) throws IOException {
        g.writeNumberField("line", l.line());
        g.writeStringField("file", l.photo().file());
        g.writeStringField("digest", l.photo().digest().hex());
        g.writeStringField("view", word(l.photo().view()));
        place(l.photo().spot());
        g.writeStringField("shows", l.photo().shows());
        g.writeStringField("state", l.state().word());
    }

    private void reasoning() throws IOException {
        if (p.reasoning().isEmpty()) return;
        Packet.Reasoning r = p.reasoning().get();
        g.writeObjectFieldStart("reasoning");
        g.writeStringField("verdict", r.verdict());
        texts("words", r.words());
        each("costs", r.costs(), c -> {
            g.writeStringField("option", c.option());
            g.writeStringField("words", c.words());
            money("now", c.now());
            money("expected", c.expected());
            g.writeBooleanField("forbidden", c.forbidden());
            texts("rules", c.rules());
        });
        texts("breakEvens", r.breakEvens());
        g.writeEndObject();
    }

    private void bill() throws IOException {
        Packet.Bill b = p.bill();
        g.writeObjectFieldStart("bill");
        g.writeStringField("currency", b.currency());
        money("ratePerHour", b.ratePerHour());
        each("labour", b.labour(), l -> {
            g.writeStringField("kind", l.kind());
            if (!l.step().isEmpty()) g.writeStringField("step", l.step());
            phrase(l.words());
            g.writeNumberField("minutes", l.minutes());
            money("amount", l.amount());
            g.writeBooleanField("straightTime", l.straightTime());
        });
        each("parts", b.parts(), l -> {
            g.writeNumberField("line", l.line());
            g.writeStringField("name", l.part().name());
            maybe("number", l.part().number());
            g.writeNumberField("quantity", l.part().quantity());
            g.writeStringField("role", word(l.part().role()));
            g.writeStringField("sort", word(l.part().sort()));
            place(l.part().spot());
            if (l.each().isPresent()) money("each", l.each().get());
            if (l.amount().isPresent()) money("amount", l.amount().get());
            maybe("tag", l.tag());
        });
        money("labourTotal", b.labourTotal());
        money("partsTotal", b.partsTotal());
        money("total", b.total());
        g.writeNumberField("partsWithoutPrice", b.open());
        g.writeEndObject();
    }

    private void approval(Packet.ApprovalLine a) throws IOException {
        g.writeNumberField("line", a.line());
        g.writeStringField("what", a.approved().what());
        maybe("approver", a.approved().approver());
        maybe("number", a.approved().number());
        maybe("date", a.approved().date().map(Object::toString));
    }

    private void who() throws IOException {
        g.writeObjectFieldStart("who");
        maybe("technician", p.about().technician());
        texts("people", p.about().people());
        g.writeStringField("from", p.about().from().toString());
        g.writeStringField("to", p.about().to().toString());
        g.writeNumberField("clockedMinutes", p.about().clockedMinutes());
        g.writeEndObject();
    }

    private void evidence() throws IOException {
        g.writeObjectFieldStart("evidence");
        g.writeBooleanField("whole", true);
        g.writeStringField("digest", p.about().digest().hex());
        each("lines", p.evidence(), e -> {
            g.writeNumberField("line", e.line());
            g.writeStringField("at", e.at().toString());
            g.writeStringField("by", e.by());
            g.writeStringField("text", e.words());
            g.writeBooleanField("withdrawn", e.withdrawn());
        });
        g.writeEndObject();
    }

    private static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private void money(String field, BigDecimal amount) throws IOException {
        g.writeStringField(field, amount.toPlainString());
    }

    private void maybe(String field, Optional<String> text) throws IOException {
        if (text.isPresent()) g.writeStringField(field, text.get());
    }

    private void texts(String field, List<String> texts) throws IOException {
        g.writeArrayFieldStart(field);
        for (String t : texts) g.writeString(t);
        g.writeEndArray();
    }
}
