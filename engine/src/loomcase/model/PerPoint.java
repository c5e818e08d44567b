package loomcase.model;

import java.util.Map;

/**
 * A quantity that may differ between operating points.
 *
 * @param usual value at every operating point without one of its own
 * @param at values by operating-point id
 */
public record PerPoint(double usual, Map<String, Double> at) {
    public PerPoint {
        at = Ordered.copy(at);
    }

    /** The same value everywhere. */
    public static PerPoint always(double value) {
        return new PerPoint(value, Map.of());
    }

    /** The value at an operating point. */
    public double at(String operatingPoint) {
        return at.getOrDefault(operatingPoint, usual);
    }
}
