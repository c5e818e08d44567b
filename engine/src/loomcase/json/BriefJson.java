package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import loomcase.casework.Answer;
import loomcase.rank.Ranking;

/** The head of an answer as JSON: the first suspects with the same fields as {@link RankJson}; no test is planned for it. */
public final class BriefJson {
    private static final int MOST = 3;

    private BriefJson() {}

    /** An answer as one short JSON object. */
    public static JsonText of(Answer answer) {
        return json -> write(answer, json);
    }

    private static void write(Answer answer, JsonGenerator json) throws IOException {
        json.writeStartObject();
        fields(answer, json);
        json.writeEndObject();
    }

    /** Its fields, for a longer answer that starts with them. */
    static void fields(Answer answer, JsonGenerator json) throws IOException {
        json.writeStringField("circuit", answer.circuit().id());
        json.writeArrayFieldStart("suspects");
        for (Ranking.Suspect s :
                answer.ranking().suspects().stream().limit(MOST).toList()) {
            json.writeStartObject();
            json.writeNumberField("rank", s.rank());
            json.writeNumberField("probability", s.probability());
            json.writeStringField("kind", s.place().kind().word());
            json.writeStringField("place", s.place().id());
            json.writeStringField("fault", s.words());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeNumberField("unexplained", answer.ranking().unexplained());
        json.writeNumberField("hidden", answer.ranking().hidden());
    }
}
