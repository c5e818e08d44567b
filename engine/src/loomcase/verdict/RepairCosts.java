package loomcase.verdict;

import java.nio.file.Path;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.KeyedFile;
import org.apache.commons.csv.CSVRecord;

/**
 * Minutes of handwork, success and failure rates, hidden damage: what repair costs rest on, each with its uncertainty. The
 * sources stand in {@code rules/repair-costs.csv}.
 *
 * @param ranges by key, in the order of the file
 */
public record RepairCosts(Map<String, Range> ranges) {
    private static final KeyedFile<Range> FILE =
            new KeyedFile<>("rules/repair-costs.csv", List.of("low", "likely", "high"), RepairCosts::range);

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
        return new RepairCosts(FILE.builtIn());
    }

    /**
     * A shop's own file, laid over this one: keys it lacks keep their value.
     *
     * @throws InputProblem with file, line and what is wrong
     */
    public RepairCosts with(Path file) {
        return new RepairCosts(FILE.over(ranges, file));
    }

    /** The same with one key changed. */
    RepairCosts with(String key, Range range) {
        Map<String, Range> changed = new LinkedHashMap<>(ranges);
        changed.put(key, range);
        return new RepairCosts(changed);
    }

    private static Range range(String where, String key, CSVRecord r) {
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
                || key.startsWith("shows.")
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
