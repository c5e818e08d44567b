package loomcase.meter;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import loomcase.InputProblem;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * How sure a meter, an eye and the model are: error of meter and model, outlier shares, and how often a look, a wiggle or
 * a swap tells the truth. The figures and their sources stand in {@code rules/observations.csv}.
 *
 * @param values by key
 */
public record Observations(Map<String, Double> values) {
    private static final String BUILT_IN = "/rules/observations.csv";

    public Observations {
        values = Map.copyOf(values);
    }

    /** The file that comes with the program. */
    public static Observations builtIn() {
        try (InputStream in = Observations.class.getResourceAsStream(BUILT_IN)) {
            if (in == null) throw new IllegalStateException("the program lacks " + BUILT_IN);
            return parse(BUILT_IN, new InputStreamReader(in, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new IllegalStateException("cannot read " + BUILT_IN, e);
        }
    }

    static Observations parse(String name, Reader in) throws IOException {
        Map<String, Double> out = new LinkedHashMap<>();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var records = format.parse(in)) {
            for (CSVRecord record : records) {
                String where = name + ": line " + records.getCurrentLineNumber() + ": ";
                if (!record.isMapped("key") || !record.isMapped("value") || !record.isConsistent())
                    throw new InputProblem(where + "needs the columns of rules/observations.csv");
                out.put(record.get("key"), number(where, record.get("key"), record.get("value")));
            }
        }
        return new Observations(out);
    }

    private static double number(String where, String key, String text) {
        try {
            double value = Double.parseDouble(text);
            if (value >= 0 && value < 100) return value;
        } catch (NumberFormatException e) {
            throw new InputProblem(where + key + ": '" + text + "' is not a number", e);
        }
        throw new InputProblem(where + key + ": " + text + " is not within 0 to 100");
    }

    /** The value of a key. */
    public double get(String key) {
        Double value = values.get(key);
        if (value == null)
            throw new InputProblem("observations: key '" + key + "' is missing; see rules/observations.csv");
        return value;
    }

    /** The value of the longest key that starts a dotted name: {@code look.device.ntc.open} finds {@code look.device}. */
    double nearest(String name, double otherwise) {
        String key = name;
        while (true) {
            Double value = values.get(key);
            if (value != null) return value;
            int dot = key.lastIndexOf('.');
            if (dot < 0) return otherwise;
            key = key.substring(0, dot);
        }
    }
}
