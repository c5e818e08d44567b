package loomcase.drill;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a student may use up.
 *
 * @param minutes minutes on the clock, above 0; empty for no limit
 * @param money labour and parts together, above 0; empty for no limit
 * @param hintMinutes minutes that a hint costs, 0 or more
 */
public record Limits(OptionalDouble minutes, Optional<BigDecimal> money, double hintMinutes) {
    /** What a hint costs when nobody says otherwise (judgement). */
    public static final double USUAL_HINT_MINUTES = 20;

    /** No limit, hints at the usual cost. */
    public static final Limits NONE = new Limits(OptionalDouble.empty(), Optional.empty(), USUAL_HINT_MINUTES);

    public Limits {
        if (minutes.isPresent() && !(minutes.getAsDouble() > 0))
            throw new IllegalArgumentException("a limit of " + minutes.getAsDouble() + " minutes; allowed is above 0");
        if (money.isPresent() && money.get().signum() <= 0)
            throw new IllegalArgumentException("a limit of " + money.get() + " in money; allowed is above 0");
        if (!(hintMinutes >= 0))
            throw new IllegalArgumentException("a hint of " + hintMinutes + " minutes; allowed is 0 or more");
    }
}
