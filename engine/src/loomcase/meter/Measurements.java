package loomcase.meter;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * The list of usual measurements: how long each takes and what to beware of. Its readings are not used for prediction; the
 * network gives those.
 *
 * @param rows by id, {@code M01} …
 */
public record Measurements(Map<String, Row> rows) {
    private static final String FILE = "measurements.csv";

    /**
     * One usual measurement.
     *
     * @param id the id in the list
     * @param words what it is
     * @param minutesLeast shortest time for the test itself, without access
     * @param minutesTypical usual time
     * @param minutesMost longest time
     * @param hazard what to beware of, empty for nothing
     * @param source where the row comes from
     */
    public record Row(
            String id,
            String words,
            double minutesLeast,
            double minutesTypical,
            double minutesMost,
            String hazard,
            String source) {}

    public Measurements {
        rows = Map.copyOf(rows);
    }

    /** The list that comes with the program. */
    public static Measurements builtIn() {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (InputStream in = Measurements.class.getResourceAsStream(FILE)) {
            if (in == null) throw new IllegalStateException("the program lacks " + FILE);
            Map<String, Row> out = new LinkedHashMap<>();
            for (CSVRecord r : format.parse(new InputStreamReader(in, StandardCharsets.UTF_8)))
                out.put(r.get("id"), row(r));
            return new Measurements(out);
        } catch (IOException e) {
            throw new IllegalStateException("cannot read " + FILE, e);
        }
    }

    private static Row row(CSVRecord r) {
        String hazard = r.get("hazard_or_harm");
        return new Row(
                r.get("id"),
                r.get("test"),
                Double.parseDouble(r.get("minutes_min")),
                Double.parseDouble(r.get("minutes_typ")),
                Double.parseDouble(r.get("minutes_max")),
                hazard.equals("none") ? "" : hazard,
                r.get("source"));
    }

    /** A row by id. */
    public Row row(String id) {
        Row row = rows.get(id);
        if (row == null) throw new IllegalArgumentException("no measurement " + id);
        return row;
    }
}
