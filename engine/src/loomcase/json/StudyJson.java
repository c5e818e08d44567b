package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import loomcase.study.KindResult;
import loomcase.study.RepairResult;

/** What a study gave as JSON; its form is {@code circuits/study.schema.json}. */
public final class StudyJson {
    private StudyJson() {}

    /**
     * @param circuit id of the circuit
     * @param currency label of all money
     * @param points ids of the operating points at which codes were read
     */
    public static JsonText of(String circuit, String currency, long seed, List<String> points, List<KindResult> rows) {
        return json -> {
            json.writeStartObject();
            json.writeStringField("circuit", circuit);
            json.writeStringField("currency", currency);
            json.writeNumberField("seed", seed);
            JsonParts.texts(json, "operatingPoints", points);
            json.writeArrayFieldStart("kinds");
            for (KindResult r : rows) kind(json, r);
            json.writeEndArray();
            json.writeEndObject();
        };
    }

    private static void kind(JsonGenerator json, KindResult r) throws IOException {
        json.writeStartObject();
        json.writeStringField("kind", r.words());
        json.writeNumberField("cases", r.cases());
        json.writeNumberField("byNgspice", r.simulated());
        json.writeNumberField("silent", r.silent());
        json.writeNumberField("unsolved", r.unsolved());
        share(json, "groupFirst", r.groupFirst());
        share(json, "groupThree", r.groupThree());
        share(json, "groupFive", r.groupFive());
        json.writeNumberField("placeFirst", r.placeFirst());
        json.writeNumberField("placeThree", r.placeThree());
        json.writeNumberField("behindDevice", r.behindSensor());
        json.writeNumberField("logLoss", r.logLoss());
        json.writeNumberField("brier", r.brier());
        json.writeNumberField("calibrationError", r.calibrationError());
        json.writeObjectFieldStart("calibrationByChance");
        json.writeNumberField("mean", r.chance().mean());
        json.writeNumberField("most", r.chance().most());
        json.writeEndObject();
        json.writeArrayFieldStart("reliability");
        for (KindResult.Bin b : r.reliability()) {
            json.writeStartObject();
            json.writeNumberField("stated", b.stated());
            json.writeNumberField("right", b.right());
            json.writeNumberField("count", b.count());
            json.writeEndObject();
        }
        json.writeEndArray();
        if (r.repair().isPresent()) repair(json, r.repair().get());
        json.writeEndObject();
    }

    private static void repair(JsonGenerator json, RepairResult r) throws IOException {
        json.writeObjectFieldStart("repair");
        json.writeNumberField("cases", r.cases());
        json.writeNumberField("byNgspice", r.simulated());
        json.writeNumberField("harnessNeeded", r.harnessNeeded());
        json.writeNumberField("harnessNeededOnlyByRules", r.onlyByRules());
        verdicts(json, "codesAlone", r.codes());
        verdicts(json, "afterTests", r.tested());
        json.writeArrayFieldStart("ways");
        for (RepairResult.WayResult w : r.ways()) {
            json.writeStartObject();
            json.writeStringField("way", w.words());
            json.writeNumberField("tests", w.tests());
            spread(json, "minutes", w.minutes());
            spread(json, "money", w.money());
            json.writeNumberField("repairs", w.repairs());
            json.writeNumberField("wrongFirst", w.wrongFirst());
            json.writeNumberField("comebacks", w.back());
            if (w.slower().isPresent()) difference(json, w.slower().get());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static void share(JsonGenerator json, String field, KindResult.Share s) throws IOException {
        json.writeObjectFieldStart(field);
        json.writeNumberField("share", s.of());
        json.writeNumberField("low", s.low());
        json.writeNumberField("high", s.high());
        json.writeEndObject();
    }

    private static void difference(JsonGenerator json, RepairResult.Difference d) throws IOException {
        json.writeObjectFieldStart("slower");
        json.writeNumberField("mean", d.mean());
        json.writeNumberField("low", d.low());
        json.writeNumberField("high", d.high());
        json.writeEndObject();
    }

    private static void verdicts(JsonGenerator json, String field, RepairResult.Verdicts v) throws IOException {
        json.writeObjectFieldStart(field);
        json.writeNumberField("notEnoughEvidence", v.notEnough());
        json.writeNumberField("ask", v.ask());
        json.writeNumberField("mends", v.mends());
        json.writeNumberField("wrongHarness", v.wrongHarness());
        json.writeNumberField("missedHarness", v.missedHarness());
        json.writeEndObject();
    }

    private static void spread(JsonGenerator json, String field, RepairResult.Spread s) throws IOException {
        json.writeObjectFieldStart(field);
        json.writeNumberField("mean", s.mean());
        json.writeNumberField("low", s.low());
        json.writeNumberField("middle", s.middle());
        json.writeNumberField("high", s.high());
        json.writeEndObject();
    }
}
