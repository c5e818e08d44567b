package loomcase.drill;

import java.math.BigDecimal;
import java.math.RoundingMode;
import loomcase.model.Costs;

/**
 * What something took.
 *
 * @param minutes on the clock
 * @param parts price of parts, in the circuit's currency
 */
public record Bill(double minutes, BigDecimal parts) {
    private static final BigDecimal HOUR = BigDecimal.valueOf(60);

    /** Nothing. */
    public static final Bill FREE = new Bill(0, BigDecimal.ZERO);

    /** Minutes without parts. */
    public static Bill of(double minutes) {
        return new Bill(minutes, BigDecimal.ZERO);
    }

    /** Both together. */
    public Bill plus(Bill other) {
        return new Bill(minutes + other.minutes, parts.add(other.parts));
    }

    /** Labour and parts, rounded to hundredths. */
    public BigDecimal money(Costs costs) {
        return costs.labourPerHour()
                .multiply(BigDecimal.valueOf(minutes))
                .divide(HOUR, 10, RoundingMode.HALF_UP)
                .add(parts)
                .setScale(2, RoundingMode.HALF_UP);
    }
}
