package loomcase.meter;

import java.util.List;
import java.util.Map;
import loomcase.InputProblem;
import loomcase.KeyedFile;

/**
 * How sure a meter, an eye and the model are: error of meter and model, outlier shares, and how often a look, a wiggle or
 * a swap tells the truth. The figures and their sources stand in {@code rules/observations.csv}.
 *
 * @param values by key
 */
public record Observations(Map<String, Double> values) {
    private static final KeyedFile<Double> FILE = new KeyedFile<>(
            "rules/observations.csv", List.of("value"), (where, key, line) -> number(where, key, line.get("value")));

    public Observations {
        values = Map.copyOf(values);
    }

    /** The file that comes with the program. */
    public static Observations builtIn() {
        return new Observations(FILE.builtIn());
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
