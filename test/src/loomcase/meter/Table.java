package loomcase.meter;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/** Rows of the comma separated files in /data/wiring. */
final class Table {
    private Table() {}

    static List<CSVRecord> rows(String name) {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (InputStream in = Table.class.getResourceAsStream("/data/wiring/" + name)) {
            return format.parse(new InputStreamReader(in, StandardCharsets.UTF_8))
                    .getRecords();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static CSVRecord row(String name, String column, String value) {
        return rows(name).stream()
                .filter(r -> r.get(column).equals(value))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(name + " has no " + value));
    }
}
