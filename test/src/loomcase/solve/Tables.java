package loomcase.solve;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads the reference tables in test/data/wiring: a head line, then rows; a field may be quoted. */
public final class Tables {
    private Tables() {}

    /** Rows of a table, each by column name. */
    public static List<Map<String, String>> rows(String name) {
        List<String> lines;
        try (InputStream in = Tables.class.getResourceAsStream("/data/wiring/" + name)) {
            lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
        } catch (IOException e) {
            throw new IllegalStateException(name, e);
        }
        List<String> head = fields(lines.get(0));
        List<Map<String, String>> out = new ArrayList<>();
        for (String line : lines.subList(1, lines.size())) {
            List<String> fields = fields(line);
            Map<String, String> row = new LinkedHashMap<>();
            for (int i = 0; i < head.size(); i++) row.put(head.get(i), i < fields.size() ? fields.get(i) : "");
            out.add(row);
        }
        return out;
    }

    private static List<String> fields(String line) {
        List<String> out = new ArrayList<>();
        for (String f : line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", -1)) out.add(f.replace("\"", ""));
        return out;
    }
}
