package loomcase.j1939;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Rows of the comma separated files in /data/j1939; the heading row and comments are left out. */
public final class TestData {
    private TestData() {}

    /** Cells of each row; a quoted cell may hold commas. */
    public static List<String[]> rows(String name) {
        try (InputStream in = TestData.class.getResourceAsStream("/data/j1939/" + name)) {
            List<String[]> rows = new ArrayList<>();
            for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
                if (!line.isBlank() && !line.startsWith("#")) {
                    rows.add(line.strip().split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)", -1));
                }
            }
            return rows.subList(1, rows.size());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
