package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import loomcase.casework.Answer;
import loomcase.plan.NextTest;
import loomcase.policy.RemedyRuling;
import loomcase.verdict.BreakEven;
import loomcase.verdict.ExpectedCost;
import loomcase.verdict.Remedy;
import loomcase.verdict.Verdict;
import loomcase.verdict.WireLoad;

/** The verdict as JSON; its form is {@code circuits/verdict.schema.json}. Money in the circuit file's currency. */
public final class VerdictJson {
    private final Answer answer;
    private final Verdict verdict;

    private VerdictJson(Answer answer, Verdict verdict) {
        this.answer = answer;
        this.verdict = verdict;
    }

    /** A verdict as one JSON object. */
    public static JsonText of(Answer answer, Verdict verdict) {
        return new VerdictJson(answer, verdict)::write;
    }

    private void write(JsonGenerator json) throws IOException {
        json.writeStartObject();
        json.writeStringField("circuit", answer.circuit().id());
        json.writeStringField("option", verdict.option());
        place(json, "place", verdict.settled() ? verdict.leading().map(Verdict.Weighed::remedy) : Optional.empty());
        halves(json, verdict.settled() ? verdict.leading().map(Verdict.Weighed::remedy) : Optional.empty());
        json.writeStringField(
                "leading", verdict.leading().map(l -> l.remedy().id()).orElse(""));
        json.writeNumberField("confidence", verdict.confidence());
        json.writeObjectFieldStart("fullReplacement");
        json.writeBooleanField("justified", verdict.replacement().justified());
        json.writeNumberField("margin", verdict.replacement().margin());
        json.writeStringField("words", verdict.replacement().words());
        json.writeEndObject();
        texts(json, "reasons", verdict.reasons());
        standing(json, "allowed", false);
        standing(json, "forbidden", true);
        json.writeStringField("currency", verdict.currency());
        json.writeObjectFieldStart("rates");
        json.writeNumberField("labourPerHour", verdict.rates().labourPerHour());
        json.writeNumberField("downtimePerHour", verdict.rates().downtimePerHour());
        json.writeEndObject();
        json.writeArrayFieldStart("costs");
        for (Verdict.Weighed w : verdict.options()) cost(json, w);
        json.writeEndArray();
        json.writeArrayFieldStart("breakEven");
        for (BreakEven b : verdict.breakEvens()) breakEven(json, b);
        json.writeEndArray();
        texts(json, "cautions", cautions());
        texts(json, "conflicts", verdict.conflicts());
        json.writeBooleanField("shopPolicyDiffers", verdict.shopPolicyDiffers());
        details(json);
        next(json);
        texts(json, "notes", answer.intake().notes());
        json.writeEndObject();
    }

    private List<String> cautions() {
        return verdict.leading()
                .map(l -> Stream.concat(
                                l.said(RemedyRuling.Effect.CAUTION).stream(),
                                l.remedy().places().stream().flatMap(p -> answer.cautions(p).stream()))
                        .distinct()
                        .toList())
                .orElse(List.of());
    }

    private static void halves(JsonGenerator json, Optional<Remedy> remedy) throws IOException {
        json.writeArrayFieldStart("halves");
        for (Remedy half : remedy.map(Remedy::halves).orElse(List.of())) {
            json.writeStartObject();
            json.writeStringField("remedy", half.id());
            json.writeStringField("option", half.option());
            place(json, "place", Optional.of(half));
            json.writeStringField("words", half.words());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private static void place(JsonGenerator json, String field, Optional<Remedy> remedy) throws IOException {
        if (remedy.isEmpty()) {
            json.writeNullField(field);
            return;
        }
        json.writeObjectFieldStart(field);
        json.writeStringField("kind", remedy.get().place().kind().word());
        json.writeStringField("id", remedy.get().place().id());
        json.writeEndObject();
    }

    private void standing(JsonGenerator json, String field, boolean forbidden) throws IOException {
        json.writeArrayFieldStart(field);
        for (Verdict.Weighed w : verdict.options()) {
            if (w.forbidden() != forbidden) continue;
            json.writeStartObject();
            json.writeStringField("remedy", w.remedy().id());
            json.writeStringField("option", w.remedy().option());
            json.writeArrayFieldStart("rulings");
            for (RemedyRuling r : w.rulings()) {
                json.writeStartObject();
                json.writeStringField("effect", r.effect().name().toLowerCase(Locale.ROOT));
                json.writeStringField("rule", r.rule());
                json.writeStringField("reason", r.text());
                json.writeStringField("source", r.source());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void cost(JsonGenerator json, Verdict.Weighed w) throws IOException {
        ExpectedCost c = w.cost();
        json.writeStartObject();
        json.writeStringField("remedy", w.remedy().id());
        json.writeStringField("option", w.remedy().option());
        place(json, "place", Optional.of(w.remedy()));
        halves(json, Optional.of(w.remedy()));
        json.writeStringField("words", w.remedy().words());
        json.writeNumberField("expected", c.total());
        json.writeNumberField("low", w.low());
        json.writeNumberField("high", w.high());
        json.writeNumberField("wins", w.wins());
        json.writeNumberField("cures", w.cures());
        json.writeBooleanField("worthALine", verdict.isWorthALine(w));
        json.writeNumberField("circuits", w.remedy().circuits());
        json.writeNumberField("accessMinutes", w.accessMinutes());
        json.writeNumberField("workMinutes", w.workMinutes());
        json.writeObjectFieldStart("parts");
        json.writeNumberField("access", c.access());
        json.writeNumberField("labour", c.labour());
        json.writeNumberField("parts", c.parts());
        json.writeNumberField("downtime", c.downtime());
        json.writeNumberField("comeback", c.comeback());
        json.writeNumberField("laterFailure", c.failure());
        json.writeNumberField("hiddenDamage", c.hidden());
        json.writeEndObject();
        json.writeEndObject();
    }

    private static void breakEven(JsonGenerator json, BreakEven b) throws IOException {
        json.writeStartObject();
        json.writeStringField("quantity", b.quantity().word());
        json.writeNumberField("now", b.now());
        json.writeNumberField("from", b.low());
        json.writeNumberField("to", b.high());
        number(json, "at", b.at());
        if (b.at().isPresent()) json.writeStringField("becomes", b.becomes());
        else json.writeNullField("becomes");
        number(json, "fullHarnessAt", b.harnessAt());
        json.writeEndObject();
    }

    private static void number(JsonGenerator json, String field, OptionalDouble value) throws IOException {
        if (value.isPresent()) json.writeNumberField(field, value.getAsDouble());
        else json.writeNullField(field);
    }

    private void details(JsonGenerator json) throws IOException {
        if (verdict.leading().isEmpty()) {
            json.writeNullField("details");
            return;
        }
        Remedy r = verdict.leading().get().remedy();
        json.writeObjectFieldStart("details");
        json.writeStringField("remedy", r.id());
        texts(json, "access", r.access());
        json.writeArrayFieldStart("tasks");
        for (Remedy.Task t : r.tasks()) {
            json.writeStartObject();
            json.writeStringField("words", t.words());
            json.writeStringField("minutesFrom", t.key());
            json.writeNumberField("count", t.count());
            json.writeBooleanField("eachCircuit", t.eachCircuit());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("parts");
        for (Remedy.Part p : r.parts()) {
            json.writeStartObject();
            json.writeStringField("name", p.name());
            json.writeNumberField("count", p.count());
            json.writeStringField("price", p.price().toPlainString());
            json.writeBooleanField("eachCircuit", p.eachCircuit());
            json.writeEndObject();
        }
        json.writeEndArray();
        texts(json, "cut", r.detail().cut());
        texts(json, "fit", r.detail().fit());
        texts(json, "wires", r.detail().wires());
        texts(json, "neighbours", r.detail().neighbours());
        splices(json, r.detail());
        json.writeEndObject();
    }

    private static void splices(JsonGenerator json, Remedy.Detail d) throws IOException {
        json.writeArrayFieldStart("splices");
        for (Remedy.SpliceSite s : d.splices()) {
            json.writeStartObject();
            json.writeStringField("wire", s.wire());
            json.writeStringField("branch", s.branch());
            json.writeNumberField("metresAlong", s.metresAlong());
            json.writeNumberField("metresToEnd", s.metresToEnd());
            number(
                    json,
                    "metresToClip",
                    Double.isFinite(s.metresToClip()) ? OptionalDouble.of(s.metresToClip()) : OptionalDouble.empty());
            json.writeBooleanField("flexes", s.flexes());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("loads");
        for (WireLoad l : d.loads()) {
            json.writeStartObject();
            json.writeStringField("wire", l.wire());
            json.writeStringField("size", l.size().name());
            json.writeNumberField("amperes", l.amperes());
            json.writeStringField("basis", l.basis());
            json.writeNumberField("metres", l.metres());
            json.writeNumberField("celsius", l.celsius());
            json.writeNumberField("dropVolts", l.volts());
            json.writeNumberField("ampacity", l.ampacity());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void next(JsonGenerator json) throws IOException {
        if (verdict.next().isEmpty()) {
            json.writeNullField("next");
            return;
        }
        NextTest t = verdict.next().get();
        json.writeObjectFieldStart("next");
        json.writeStringField("test", t.test().id());
        json.writeStringField("why", t.test().words());
        json.writeNumberField("minutes", t.minutes());
        number(json, "cost", verdict.worth().stream().mapToDouble(w -> w.cost()).findFirst());
        number(
                json,
                "saving",
                verdict.worth().stream().mapToDouble(w -> w.saving()).findFirst());
        json.writeBooleanField("pays", verdict.worth().filter(w -> w.pays()).isPresent());
        json.writeEndObject();
    }

    private static void texts(JsonGenerator json, String field, List<String> texts) throws IOException {
        json.writeArrayFieldStart(field);
        for (String text : texts) json.writeString(text);
        json.writeEndArray();
    }
}
