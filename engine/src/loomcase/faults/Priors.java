package loomcase.faults;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import loomcase.InputProblem;
import loomcase.KeyedFile;

/**
 * Base rates, zone factors and shares from the priors file, each with its source there.
 *
 * @param values central value by key; failures per million hours for rates, pure numbers for factors and shares
 */
public record Priors(Map<String, Double> values) {
    private static final String VALUE = "rate_per_million_hours";
    private static final KeyedFile<Double> FILE = new KeyedFile<>(
            "rules/priors.csv", List.of(VALUE), (where, key, line) -> number(where, key, line.get(VALUE)));

    /** Hours of work over which a fault had time to appear since all was last known to be well (judgement: a service interval). */
    public static final double EXPOSURE_HOURS = 500;

    public Priors {
        values = Map.copyOf(values);
    }

    /** The file that comes with the program. */
    public static Priors builtIn() {
        return new Priors(FILE.builtIn());
    }

    /**
     * A shop's own file, laid over the built-in one: keys it lacks keep their built-in value.
     *
     * @throws InputProblem with file, line and what is wrong
     */
    public Priors with(Path file) {
        return new Priors(FILE.over(values, file));
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
        } else if (key.startsWith("work.left.")) {
            if (!(value > 0 && value <= 1))
                throw new InputProblem(where + key + ": " + text + " is not above 0, at most 1; a share lies there");
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
