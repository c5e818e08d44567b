package loomcase.faults;

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
import java.util.LinkedHashMap;
import java.util.Map;
import loomcase.InputProblem;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * Base rates, zone factors and shares from the priors file, each with its source there.
 *
 * @param values central value by key; failures per million hours for rates, pure numbers for factors and shares
 */
public record Priors(Map<String, Double> values) {
    private static final String BUILT_IN = "/rules/priors.csv";
    private static final String VALUE = "rate_per_million_hours";

    /** Hours of work over which a fault had time to appear since all was last known to be well (judgement: a service interval). */
    public static final double EXPOSURE_HOURS = 500;

    public Priors {
        values = Map.copyOf(values);
    }

    /** The file that comes with the program. */
    public static Priors builtIn() {
        try (InputStream in = Priors.class.getResourceAsStream(BUILT_IN)) {
            if (in == null) throw new IllegalStateException("the program lacks " + BUILT_IN);
            return parse(BUILT_IN, new InputStreamReader(in, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new IllegalStateException("cannot read " + BUILT_IN, e);
        }
    }

    /**
     * A shop's own file, laid over the built-in one: keys it lacks keep their built-in value.
     *
     * @throws InputProblem with file, line and what is wrong
     */
    public Priors with(Path file) {
        try (Reader in = Files.newBufferedReader(file)) {
            Map<String, Double> merged = new LinkedHashMap<>(values);
            parse(file.toString(), in).values().forEach((key, value) -> {
                if (!values.containsKey(key))
                    throw new InputProblem(
                            file + ": key '" + key + "' is not known; see rules/priors.csv for the keys");
                merged.put(key, value);
            });
            return new Priors(merged);
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (CharacterCodingException e) {
            throw new InputProblem(file + ": is not UTF-8 text", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
    }

    private static Priors parse(String name, Reader in) throws IOException {
        Map<String, Double> out = new LinkedHashMap<>();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var records = format.parse(in)) {
            for (CSVRecord record : records) {
                String where = name + ": line " + records.getCurrentLineNumber() + ": ";
                if (!record.isMapped("key") || !record.isMapped(VALUE) || !record.isConsistent())
                    throw new InputProblem(where + "needs the columns of rules/priors.csv");
                String key = record.get("key");
                if (out.put(key, number(where, key, record.get(VALUE))) != null)
                    throw new InputProblem(where + key + " is given twice; give it once");
            }
        } catch (UncheckedIOException e) {
            if (e.getCause() instanceof CharacterCodingException coding) throw coding;
            throw new InputProblem(name + ": is not a CSV file: " + firstLine(e.getCause()), e);
        } catch (IllegalArgumentException e) {
            throw new InputProblem(name + ": is not a CSV file: " + firstLine(e), e);
        }
        return new Priors(out);
    }

    private static String firstLine(Throwable e) {
        return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
    }

    private static double number(String where, String key, String text) {
        double value;
        try {
            value = Double.parseDouble(text);
        } catch (NumberFormatException e) {
            throw new InputProblem(where + key + ": '" + text + "' is not a number", e);
        }
        if (!(value >= 0 && value < 1e9))
            throw new InputProblem(where + key + ": " + text + " is not within 0 to 1000000000");
        if (key.startsWith("observe.count-")) {
            if (value < 1)
                throw new InputProblem(
                        where + key + ": " + text + " is below 1; a code that was seen was counted at least once");
        } else if (key.startsWith("observe.") && !(value > 0 && value < 1))
            throw new InputProblem(where + key + ": " + text + " is not between 0 and 1; a share lies between them");
        return value;
    }

    /** The value of a key. */
    public double get(String key) {
        Double value = values.get(key);
        if (value == null)
            throw new InputProblem("priors: key '" + key + "' is missing; see rules/priors.csv for the keys");
        return value;
    }

    /** Probability that a fault of this family has appeared, {@code 1 − exp(−rate · exposure · hours)}. */
    public double probability(String family, double exposure) {
        return 1 - Math.exp(-get(family) * 1e-6 * exposure * EXPOSURE_HOURS);
    }
}
