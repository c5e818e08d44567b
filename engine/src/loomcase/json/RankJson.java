package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import loomcase.casework.Answer;
import loomcase.j1939.Code;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;
import loomcase.rank.Ranking;

/** The answer as JSON; its form is {@code circuits/rank.schema.json}. */
public final class RankJson {
    private static final Map<PlaceId.Kind, String> ROLLUP = Map.of(
            PlaceId.Kind.BRANCH, "branch",
            PlaceId.Kind.CONNECTOR, "connector",
            PlaceId.Kind.CAVITY, "cavity",
            PlaceId.Kind.SPLICE, "splice",
            PlaceId.Kind.WIRE, "wire",
            PlaceId.Kind.DEVICE, "device",
            PlaceId.Kind.CONTROL_UNIT, "controlUnit",
            PlaceId.Kind.GROUND, "ground",
            PlaceId.Kind.FUSE, "fuse",
            PlaceId.Kind.ENGINE, "engine");

    private final Answer answer;

    private RankJson(Answer answer) {
        this.answer = answer;
    }

    /** An answer as one JSON object. */
    public static JsonText of(Answer answer) {
        return new RankJson(answer)::write;
    }

    private void write(JsonGenerator json) throws IOException {
        json.writeStartObject();
        json.writeStringField("circuit", answer.circuit().id());
        JsonParts.texts(json, "operatingPoints", answer.intake().evidence().operatingPoints());
        codes(json);
        json.writeArrayFieldStart("suspects");
        for (Ranking.Suspect s : answer.ranking().suspects()) suspect(json, s);
        json.writeEndArray();
        rollup(json);
        json.writeNumberField("unexplained", answer.ranking().unexplained());
        json.writeNumberField("hidden", answer.ranking().hidden());
        losers(json);
        next(json);
        JsonParts.texts(json, "notes", answer.intake().notes());
        json.writeNumberField("hypotheses", answer.ranking().hypotheses());
        json.writeEndObject();
    }

    private void codes(JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("codes");
        for (Ranking.CodeStatus c : answer.ranking().codes()) {
            json.writeStartObject();
            json.writeNumberField("spn", c.code().spn());
            json.writeNumberField("fmi", c.code().fmi());
            json.writeStringField("label", c.label());
            count(json, c.count());
            json.writeStringField("state", c.state().word());
            json.writeNumberField("explained", c.explained());
            json.writeBooleanField("known", c.known());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    static void count(JsonGenerator json, OptionalInt count) throws IOException {
        if (count.isPresent()) json.writeNumberField("count", count.getAsInt());
        else json.writeNullField("count");
    }

    private void suspect(JsonGenerator json, Ranking.Suspect s) throws IOException {
        json.writeStartObject();
        json.writeNumberField("rank", s.rank());
        json.writeNumberField("probability", s.probability());
        json.writeStringField("kind", s.place().kind().word());
        json.writeStringField("place", s.place().id());
        json.writeArrayFieldStart("places");
        for (Ranking.PlaceShare p : s.places()) {
            json.writeStartObject();
            json.writeStringField("kind", p.place().kind().word());
            json.writeStringField("id", p.place().id());
            json.writeNumberField("probability", p.probability());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeStringField("fault", s.words());
        json.writeArrayFieldStart("hypotheses");
        for (Ranking.Member m : s.members()) {
            json.writeStartObject();
            json.writeStringField("id", m.id());
            json.writeStringField("words", m.words());
            json.writeStringField("kind", m.place().kind().word());
            json.writeStringField("place", m.place().id());
            json.writeNumberField("probability", m.probability());
            json.writeEndObject();
        }
        json.writeEndArray();
        codeList(json, "explains", s.explains());
        codeList(json, "leaves", s.leaves());
        codeList(json, "predictsButAbsent", s.predictsButAbsent());
        json.writeArrayFieldStart("evidence");
        for (Ranking.Piece p : s.evidence()) {
            json.writeStartObject();
            json.writeStringField("code", p.code().toString());
            json.writeStringField("found", p.found());
            json.writeNumberField("likelihoodRatio", p.likelihoodRatio());
            json.writeNumberField("predicted", p.predicted());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("tests");
        for (Ranking.TestPiece p : s.tests()) {
            json.writeStartObject();
            json.writeStringField("test", p.words());
            json.writeStringField("outcome", p.outcome());
            json.writeNumberField("likelihoodRatio", p.likelihoodRatio());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeBooleanField("twoFaults", s.twoFaults());
        JsonParts.texts(json, "cautions", answer.cautions(s));
        json.writeEndObject();
    }

    private void rollup(JsonGenerator json) throws IOException {
        json.writeObjectFieldStart("rollup");
        for (PlaceId.Kind kind : PlaceId.Kind.values()) {
            json.writeArrayFieldStart(ROLLUP.get(kind));
            for (Ranking.PlaceShare p : answer.ranking().rollup()) {
                if (p.place().kind() != kind || p.probability() < 1e-6) continue;
                json.writeStartObject();
                json.writeStringField("id", p.place().id());
                json.writeNumberField("probability", p.probability());
                json.writeEndObject();
            }
            json.writeEndArray();
        }
        json.writeEndObject();
    }

    private void losers(JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("losers");
        for (Ranking.Loser l : answer.ranking().losers()) {
            json.writeStartObject();
            json.writeStringField("place", l.place().id());
            json.writeStringField("words", l.words());
            json.writeNumberField("timesLess", Math.min(l.timesLess(), Double.MAX_VALUE));
            codeList(json, "leaves", l.leaves());
            codeList(json, "predictsButAbsent", l.predictsButAbsent());
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    private void next(JsonGenerator json) throws IOException {
        if (answer.next().isEmpty()) {
            json.writeNullField("next");
            return;
        }
        NextTest t = answer.next().get(0);
        json.writeObjectFieldStart("next");
        json.writeStringField("test", t.test().id());
        JsonParts.texts(json, "points", Answer.points(t.test()));
        json.writeNumberField("minutes", t.minutes());
        json.writeNumberField("expectedMinutes", t.expectedMinutes());
        json.writeStringField("why", t.test().words());
        JsonParts.outcomes(json, t);
        json.writeEndObject();
    }

    private static void codeList(JsonGenerator json, String field, List<Code> codes) throws IOException {
        JsonParts.texts(json, field, codes.stream().map(Code::toString).toList());
    }
}
