package loomcase.json;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.casework.OpenCase;
import loomcase.drill.RunFile;
import loomcase.journal.ClaimFact;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.Spot;
import loomcase.journal.Standing;
import loomcase.model.AccessStep;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Costs;
import loomcase.model.Device;
import loomcase.model.OperatingPoint;

/** A case and what may be recorded in it as JSON. */
public final class CaseJson {
    private final String name;
    private final OpenCase open;

    private CaseJson(String name, OpenCase open) {
        this.name = name;
        this.open = open;
    }

    /** A case with its lines and the names of its circuit. */
    public static JsonText of(String name, OpenCase open) {
        return new CaseJson(name, open)::write;
    }

    /** One line of a list of cases. */
    public static JsonText summary(String name, OpenCase open) {
        return json -> {
            json.writeStartObject();
            new CaseJson(name, open).head(json);
            json.writeEndObject();
        };
    }

    private void head(JsonGenerator json) throws IOException {
        Fact.Opened opened = open.journal().opened();
        json.writeStringField("name", name);
        json.writeStringField("complaint", opened.complaint());
        if (opened.unit().isPresent())
            json.writeStringField("unit", opened.unit().get());
        if (opened.hours().isPresent())
            json.writeNumberField("hours", opened.hours().getAsDouble());
        json.writeStringField("circuit", open.circuit().title());
        json.writeStringField("opened", time(open.journal().entries().get(0)));
        json.writeNumberField("lines", open.journal().entries().size());
        json.writeBooleanField("hasCodes", open.hasCodes());
        json.writeBooleanField("run", RunFile.isRun(open.journal()));
        json.writeStringField("last", open.journal().last().hex());
    }

    private void write(JsonGenerator json) throws IOException {
        json.writeStartObject();
        head(json);
        json.writeStringField("origin", open.circuit().origin());
        JsonParts.texts(json, "notices", open.journal().notices());
        JsonParts.texts(json, "openAccess", List.copyOf(open.journal().openAccess()));
        JsonParts.texts(json, "chosen", chosen());
        entries(json, open.journal());
        names(json, open.circuit());
        json.writeEndObject();
    }

    /** Places of the last choice that stands, one or two, as a person writes them. */
    private List<String> chosen() {
        return open.journal().standing().stream()
                .filter(s -> s.correctedBy().isEmpty() && s.fact() instanceof ClaimFact.Chose)
                .map(s -> (ClaimFact.Chose) s.fact())
                .reduce((earlier, later) -> later)
                .map(c -> c.spots().stream().map(Spot::written).toList())
                .orElse(List.of());
    }

    /** Every line in order, corrected ones with the line that corrects them. */
    static void entries(JsonGenerator json, Journal journal) throws IOException {
        Map<Integer, Integer> correctedBy = new LinkedHashMap<>();
        for (Standing s : journal.standing())
            if (s.correctedBy().isPresent())
                correctedBy.put(s.n(), s.correctedBy().getAsInt());
        json.writeArrayFieldStart("entries");
        for (Entry e : journal.entries()) {
            json.writeStartObject();
            entry(json, e);
            if (correctedBy.containsKey(e.n())) json.writeNumberField("correctedBy", correctedBy.get(e.n()));
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    /** The fields of one line, for a place where only some lines are shown. */
    static void entry(JsonGenerator json, Entry e) throws IOException {
        json.writeNumberField("n", e.n());
        json.writeStringField("at", time(e));
        json.writeStringField("by", e.stamp().by());
        json.writeStringField("kind", e.fact().kind());
        json.writeStringField("words", e.fact().toString());
        if (e.stamp().confirmed().isPresent())
            json.writeStringField("confirmed", e.stamp().confirmed().get());
    }

    private static String time(Entry e) {
        return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(e.stamp().at());
    }

    private void names(JsonGenerator json, Circuit circuit) throws IOException {
        json.writeObjectFieldStart("names");
        json.writeArrayFieldStart("operatingPoints");
        for (OperatingPoint o : circuit.operatingPoints().values()) {
            json.writeStartObject();
            json.writeStringField("id", o.id());
            json.writeStringField("label", o.label());
            JsonParts.texts(
                    json,
                    "phases",
                    o.phases().stream().map(OperatingPoint.Phase::id).toList());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("access");
        for (AccessStep a : circuit.access().values()) {
            json.writeStartObject();
            json.writeStringField("id", a.id());
            JsonParts.access(json, a);
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("sections");
        for (Costs.Section s : circuit.costs().sections()) json.writeString(s.id());
        json.writeEndArray();
        JsonParts.texts(json, "points", open.check().names().points());
        JsonParts.texts(json, "places", open.check().names().places());
        json.writeArrayFieldStart("rubPoints");
        for (Branch b : circuit.branches().values())
            for (Branch.RubPoint r : b.rubPoints()) {
                json.writeStartObject();
                json.writeStringField("id", b.id() + "@" + r.id());
                json.writeStringField("label", r.label());
                json.writeEndObject();
            }
        json.writeEndArray();
        JsonParts.texts(json, "connectors", List.copyOf(circuit.connectors().keySet()));
        JsonParts.texts(
                json,
                "devices",
                circuit.devices().values().stream().map(Device::id).toList());
        json.writeArrayFieldStart("conditions");
        for (Device d : circuit.devices().values()) {
            if (!d.isGauged()) continue;
            for (Device.Condition c : d.conditions()) {
                json.writeStartObject();
                json.writeStringField("device", d.id());
                json.writeStringField("id", c.id());
                json.writeStringField("label", c.label());
                json.writeEndObject();
            }
        }
        json.writeEndArray();
        json.writeEndObject();
    }
}
