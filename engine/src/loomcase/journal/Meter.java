package loomcase.journal;

import java.util.OptionalDouble;

/**
 * The instrument of a reading, as far as it was said.
 *
 * @param name what it is called in the shop, empty when not said
 * @param inputOhms its own resistance when it reads volts, 1000 to 1e12; empty when not said
 * @param leadZeroOhms what the leads read held together and what was already taken off the reading, 0 to 100; empty when
 *     the leads were not zeroed
 */
public record Meter(String name, OptionalDouble inputOhms, OptionalDouble leadZeroOhms) {
    /** Least and most resistance of a meter. */
    public static final double LEAST_INPUT_OHMS = 1000;

    public static final double MOST_INPUT_OHMS = 1e12;
    /** Most that leads may read held together. */
    public static final double MOST_LEAD_OHMS = 100;

    /** Nothing was said about the meter. */
    public static final Meter NOT_SAID = new Meter("", OptionalDouble.empty(), OptionalDouble.empty());

    public Meter {
        name = Words.text("name of the meter", name.strip());
        if (inputOhms.isPresent())
            within("input resistance", inputOhms.getAsDouble(), LEAST_INPUT_OHMS, MOST_INPUT_OHMS);
        if (leadZeroOhms.isPresent()) within("lead zero", leadZeroOhms.getAsDouble(), 0, MOST_LEAD_OHMS);
    }

    private static void within(String what, double ohms, double least, double most) {
        if (!(ohms >= least && ohms <= most))
            throw new IllegalArgumentException(what + " of " + Shown.plain(ohms) + " ohm is not within "
                    + Shown.plain(least) + " to " + Shown.plain(most) + " ohm");
    }
}
