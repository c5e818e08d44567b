package loomcase.json;

import java.util.Optional;

/** One line of a fleet's answers; its form is {@code circuits/fleet.schema.json}. */
public final class FleetJson {
    private FleetJson() {}

    /** {@code {"n": …, "id": …, "answer": …}}. */
    public static JsonText answer(long n, Optional<String> id, JsonText answer) {
        return line(n, id, "answer", answer);
    }

    /** {@code {"n": …, "id": …, "error": …}}. */
    public static JsonText error(long n, Optional<String> id, String why) {
        return line(n, id, "error", json -> json.writeString(why));
    }

    private static JsonText line(long n, Optional<String> id, String field, JsonText value) {
        return json -> {
            json.writeStartObject();
            json.writeNumberField("n", n);
            if (id.isPresent()) json.writeStringField("id", id.get());
            json.writeFieldName(field);
            value.write(json);
            json.writeEndObject();
        };
    }
}
