package loomcase.verdict;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import loomcase.InputProblem;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * Minutes of handwork, success and failure rates, hidden damage: what repair costs rest on, each with its uncertainty. The
 * sources stand in {@code rules/repair-costs.csv}.
 *
 * @param ranges by key, in the order of the file
 */
public record RepairCosts(Map<String, Range> ranges) {
    private static final String BUILT_IN = "/rules/repair-costs.csv";

    /**
     * A figure nobody knows exactly, taken as triangular: {@code low} and {@code high} are the ends, {@code likely} the peak.
     */
    public record Range(double low, double likely, double high) {
        public Range {
            if (!(low >= 0 && low <= likely && likely <= high && high < 1e9))
                throw new IllegalArgumentException(low + ", " + likely + ", " + high
                        + ": low, likely and high must rise and lie within 0 to 1000000000");
        }

        /** Expectation of the triangular distribution, {@code (low + likely + high) / 3}. */
        public double mean() {
            return (low + likely + high) / 3;
        }
    }

    public RepairCosts {
        ranges = Collections.unmodifiableMap(new LinkedHashMap<>(ranges));
    }

    /** The file that comes with the program. */
    public static RepairCosts builtIn() {
        try (InputStream in = RepairCosts.class.getResourceAsStream(BUILT_IN)) {
            if (in == null) throw new IllegalStateException("the program lacks " + BUILT_IN);
            return new RepairCosts(parse(BUILT_IN, new InputStreamReader(in, StandardCharsets.UTF_8)));
        } catch (IOException e) {
            throw new IllegalStateException("cannot read " + BUILT_IN, e);
        }
    }

    /**
     * A shop's own file, laid over this one: keys it lacks keep their value.
     *
     * @throws InputProblem with file, line and what is wrong
     */
    public RepairCosts with(Path file) {
        try (Reader in = Files.newBufferedReader(file)) {
            Map<String, Range> merged = new LinkedHashMap<>(ranges);
            parse(file.toString(), in).forEach((key, range) -> {
                if (!ranges.containsKey(key))
                    throw new InputProblem(
                            file + ": key '" + key + "' is not known; see rules/repair-costs.csv for the keys");
                merged.put(key, range);
            });
            return new RepairCosts(merged);
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (CharacterCodingException e) {
            throw new InputProblem(file + ": is not UTF-8 text", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
    }

    /** The same with one key changed. */
    RepairCosts with(String key, Range range) {
        Map<String, Range> changed = new LinkedHashMap<>(ranges);
        changed.put(key, range);
        return new RepairCosts(changed);
    }

    private static Map<String, Range> parse(String name, Reader in) throws IOException {
        Map<String, Range> out = new LinkedHashMap<>();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var records = format.parse(in)) {
            for (CSVRecord r : records) {
                String where = name + ": line " + records.getCurrentLineNumber() + ": ";
                if (!r.isMapped("key")
                        || !r.isMapped("low")
                        || !r.isMapped("likely")
                        || !r.isMapped("high")
                        || !r.isConsistent())
                    throw new InputProblem(where + "needs the columns of rules/repair-costs.csv");
                if (out.put(r.get("key"), range(where, r)) != null)
                    throw new InputProblem(where + r.get("key") + " is given twice; give it once");
            }
        } catch (UncheckedIOException e) {
            if (e.getCause() instanceof CharacterCodingException coding) throw coding;
            throw new InputProblem(name + ": is not a CSV file: " + e.getCause().getMessage(), e);
        } catch (IllegalArgumentException e) {
            throw new InputProblem(name + ": is not a CSV file: " + e.getMessage(), e);
        }
        return out;
    }

    private static Range range(String where, CSVRecord r) {
        String key = r.get("key");
        Range out;
        try {
            out = new Range(number(r, "low"), number(r, "likely"), number(r, "high"));
        } catch (NumberFormatException e) {
            throw new InputProblem(where + key + ": low, likely and high must be numbers", e);
        } catch (IllegalArgumentException e) {
            throw new InputProblem(where + key + ": " + e.getMessage(), e);
        }
        if (isShare(key) && out.high() > 1)
            throw new InputProblem(where + key + ": " + out.high() + " is above 1; a probability lies within 0 to 1");
        if (key.startsWith("posterior.") && out.low() < 1)
            throw new InputProblem(where + key + ": " + out.low() + " is below 1; 1 means that base rates are certain");
        return out;
    }

    private static double number(CSVRecord r, String column) {
        return Double.parseDouble(r.get(column));
    }

    private static boolean isShare(String key) {
        return key.startsWith("fix.")
                || key.startsWith("fails.")
                || key.startsWith("hidden.")
                || key.startsWith("share.");
    }

    /** Expectation of every figure. */
    Figures means() {
        Map<String, Double> out = new LinkedHashMap<>();
        ranges.forEach((key, range) -> out.put(key, range.mean()));
        return new Figures(out);
    }

    /** One value for every key. */
    record Figures(Map<String, Double> values) {
        double get(String key) {
            return find(key)
                    .orElseThrow(() -> new InputProblem(
                            "repair costs: key '" + key + "' is missing; see rules/repair-costs.csv for the keys"));
        }

        Optional<Double> find(String key) {
            return Optional.ofNullable(values.get(key));
        }
    }
}
