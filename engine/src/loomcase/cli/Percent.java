package loomcase.cli;

import java.util.Locale;

/** Probabilities as people read them. */
final class Percent {
    private Percent() {}

    /** Six wide, such as {@code "  90 %"}; small ones keep one digit that says something. */
    static String of(double probability) {
        double percent = 100 * probability;
        if (percent > 99.5 && percent < 99.995) return " >99 %";
        if (percent >= 1) return String.format(Locale.ROOT, "%4.0f %%", percent);
        if (percent >= 0.1) return String.format(Locale.ROOT, "%4.1f %%", percent);
        return "<0.1 %";
    }
}
