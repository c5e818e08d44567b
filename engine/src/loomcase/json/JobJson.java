package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import loomcase.job.JobSheet;
import loomcase.job.Task;
import loomcase.job.Work;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;

/** A job sheet as JSON; its form is {@code circuits/job.schema.json}. */
public final class JobJson {
    private JobJson() {}

    /** A sheet as one JSON object. */
    public static JsonText of(Circuit circuit, JobSheet sheet) {
        return g -> write(circuit, sheet, g);
    }

    private static void write(Circuit circuit, JobSheet sheet, JsonGenerator g) throws IOException {
        g.writeStartObject();
        g.writeStringField("circuit", circuit.id());
        work(sheet.work(), g);
        g.writeNumberField("accessMinutes", sheet.accessMinutes());
        g.writeArrayFieldStart("alreadyOpen");
        for (String label : sheet.alreadyOpen()) g.writeString(label);
        g.writeEndArray();
        tasks("opening", sheet.opening(), g);
        tasks("unplugging", sheet.unplugging(), g);
        tasks("working", sheet.working(), g);
        tasks("closing", sheet.closing(), g);
        g.writeEndObject();
    }

    private static void work(Work work, JsonGenerator g) throws IOException {
        g.writeObjectFieldStart("work");
        g.writeStringField(
                "kind", work instanceof Work.Repair ? "repair" : work instanceof Work.Section ? "section" : "harness");
        g.writeStringField("words", work.words());
        g.writeArrayFieldStart("places");
        if (work instanceof Work.Repair r)
            for (PlaceId p : r.places()) {
                g.writeStartObject();
                g.writeStringField("kind", p.kind().word());
                g.writeStringField("id", p.id());
                g.writeEndObject();
            }
        g.writeEndArray();
        if (work instanceof Work.Section s) g.writeStringField("section", s.id());
        else g.writeNullField("section");
        g.writeEndObject();
    }

    private static void tasks(String field, List<Task> tasks, JsonGenerator g) throws IOException {
        g.writeArrayFieldStart(field);
        for (Task t : tasks) {
            g.writeStartObject();
            g.writeStringField("words", t.words());
            if (t.minutes().isPresent())
                g.writeNumberField("minutes", t.minutes().getAsDouble());
            else g.writeNullField("minutes");
            texts("tools", t.tools(), g);
            texts("cautions", t.cautions(), g);
            if (t.step().isPresent()) g.writeStringField("step", t.step().get());
            else g.writeNullField("step");
            g.writeEndObject();
        }
        g.writeEndArray();
    }

    private static void texts(String field, List<String> values, JsonGenerator g) throws IOException {
        g.writeArrayFieldStart(field);
        for (String v : values) g.writeString(v);
        g.writeEndArray();
    }
}
