package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.time.format.DateTimeFormatter;
import java.util.List;
import loomcase.drill.ClassSummary;
import loomcase.drill.Debrief;
import loomcase.drill.Ending;
import loomcase.drill.Foresight;
import loomcase.drill.Mark;
import loomcase.drill.Planted;
import loomcase.drill.Played;
import loomcase.model.Costs;

/**
 * Debriefs, the planner's play and class summaries as JSON; their form is {@code circuits/drill.schema.json}. Minutes and
 * probabilities are numbers, money is text.
 */
public final class DrillReport {
    private DrillReport() {}

    /** The planner's play of one drill. */
    public static JsonText of(String name, Played played) {
        return g -> {
            g.writeStartObject();
            g.writeStringField("drill", name);
            played(g, played);
            g.writeEndObject();
        };
    }

    private static void played(JsonGenerator g, Played p) throws IOException {
        g.writeNumberField("minutes", p.bill().minutes());
        g.writeNumberField("findingMinutes", p.findingMinutes());
        g.writeStringField("parts", p.bill().parts().toPlainString());
        g.writeNumberField("tests", p.tests());
        g.writeBooleanField("rightFirst", p.rightFirst());
        g.writeBooleanField("found", p.found());
        g.writeArrayFieldStart("places");
        for (var place : p.named()) g.writeString(place.toString());
        g.writeEndArray();
        g.writeArrayFieldStart("moves");
        for (Played.Move m : p.moves()) {
            g.writeStartObject();
            g.writeStringField("what", m.words());
            g.writeStringField("result", m.result());
            g.writeNumberField("minutes", m.bill().minutes());
            g.writeNumberField("probability", m.probability());
            g.writeEndObject();
        }
        g.writeEndArray();
    }

    /** A debrief. */
    public static JsonText of(Debrief d, Costs costs) {
        return g -> {
            g.writeStartObject();
            g.writeStringField("student", d.student());
            g.writeStringField("ending", d.ending().word());
            g.writeArrayFieldStart("truth");
            for (Planted p : d.truth()) {
                g.writeStartObject();
                g.writeStringField("id", p.id());
                g.writeStringField("place", p.place().toString());
                g.writeStringField("words", p.words());
                g.writeStringField("showing", p.showing().word());
                g.writeEndObject();
            }
            g.writeEndArray();
            g.writeNumberField("minutes", d.bill().minutes());
            g.writeNumberField("lostMinutes", d.lostMinutes());
            g.writeStringField("money", d.bill().money(costs).toPlainString());
            g.writeStringField("currency", costs.currency());
            g.writeNumberField("probabilityAtFirst", d.first());
            g.writeArrayFieldStart("steps");
            for (Debrief.Step s : d.steps()) step(g, s);
            g.writeEndArray();
            g.writeObjectFieldStart("planner");
            played(g, d.planner());
            g.writeEndObject();
            marks(g, d.marks());
            g.writeArrayFieldStart("linesNotGiven");
            for (int n : d.notGiven()) g.writeNumber(n);
            g.writeEndArray();
            g.writeEndObject();
        };
    }

    private static void step(JsonGenerator g, Debrief.Step s) throws IOException {
        g.writeStartObject();
        g.writeNumberField("line", s.line());
        g.writeStringField("what", s.words());
        g.writeNumberField("minutes", s.bill().minutes());
        g.writeStringField("parts", s.bill().parts().toPlainString());
        g.writeNumberField("probability", s.probability());
        if (s.lost().isPresent()) g.writeStringField("lost", s.lost().get().words());
        if (s.could().isPresent()) {
            Foresight f = s.could().get();
            g.writeNumberField("expectedBits", f.bits());
            g.writeArrayFieldStart("outcomes");
            for (Foresight.Could c : f.outcomes()) {
                g.writeStartObject();
                g.writeStringField("outcome", c.words());
                g.writeNumberField("probability", c.probability());
                g.writeStringField("place", c.place().toString());
                g.writeNumberField("then", c.then());
                g.writeEndObject();
            }
            g.writeEndArray();
        }
        g.writeEndObject();
    }

    private static void marks(JsonGenerator g, List<Mark> marks) throws IOException {
        g.writeArrayFieldStart("safety");
        for (Mark m : marks) {
            g.writeStartObject();
            g.writeNumberField("line", m.line());
            g.writeBooleanField("harm", m.harmful());
            g.writeStringField("words", m.words());
            g.writeEndObject();
        }
        g.writeEndArray();
    }

    /** A class summary. */
    public static JsonText of(ClassSummary summary) {
        return g -> {
            g.writeStartObject();
            g.writeArrayFieldStart("runs");
            for (ClassSummary.Row r : summary.rows()) {
                g.writeStartObject();
                g.writeStringField("student", r.student());
                g.writeNumberField("nth", r.nth());
                g.writeStringField("drill", r.drill());
                g.writeStringField("difficulty", r.difficulty());
                g.writeStringField("started", DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(r.started()));
                g.writeStringField("ending", r.ending().map(Ending::word).orElse("going-on"));
                g.writeNumberField("minutes", r.bill().minutes());
                g.writeStringField("money", r.money().toPlainString());
                g.writeNumberField("tests", r.tests());
                g.writeNumberField("hints", r.hints());
                g.writeNumberField("harms", r.harms());
                g.writeNumberField("plannerMinutes", r.plannerMinutes());
                if (r.ratio().isPresent()) g.writeNumberField("ratio", r.ratio().getAsDouble());
                else g.writeNullField("ratio");
                g.writeBooleanField("again", r.again());
                g.writeEndObject();
            }
            g.writeEndArray();
            g.writeEndObject();
        };
    }
}
