package loomcase.claim;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.DecimalFormatSymbols;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Numbers in the words of one language; no digit is lost or gained on the way. */
final class Figures {
    private static final int MONEY_DECIMALS = 2;
    private static final int MEASURED_DIGITS = 3;

    private final char point;

    Figures(Locale language) {
        point = DecimalFormatSymbols.getInstance(language).getDecimalSeparator();
    }

    private static final DateTimeFormatter WHEN = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm xxx", Locale.ROOT);

    /** A moment as on the other sheets, to the minute. */
    static String when(OffsetDateTime at) {
        return WHEN.format(at);
    }

    /** Rounded half up to two decimals. */
    static BigDecimal money(BigDecimal amount) {
        return amount.setScale(MONEY_DECIMALS, RoundingMode.HALF_UP);
    }

    /** A price with at least two decimals, and with more where somebody gave more. */
    String price(BigDecimal amount) {
        return plain(amount.scale() < MONEY_DECIMALS ? amount.setScale(MONEY_DECIMALS) : amount);
    }

    /** A number with its decimal sign; no grouping, as commas and points for that differ between readers. */
    String plain(BigDecimal number) {
        return number.toPlainString().replace('.', point);
    }

    /** A reading as the meter showed it. */
    String shown(String text) {
        return text.replaceAll("(?<=[0-9])[.](?=[0-9])", String.valueOf(point));
    }

    /** A number to three significant digits, without an exponent. */
    String rounded(double value) {
        BigDecimal d = new BigDecimal(value).round(new java.math.MathContext(MEASURED_DIGITS, RoundingMode.HALF_UP));
        return plain(d.scale() < 0 ? d.setScale(0) : d);
    }

    /** A number as somebody gave it. */
    String given(double value) {
        return minutes(BigDecimal.valueOf(value));
    }

    /** A number to one decimal, none where it is whole. */
    String rounded1(double value) {
        return minutes(BigDecimal.valueOf(value).setScale(1, RoundingMode.HALF_UP));
    }

    /** Minutes without empty decimals. */
    String minutes(BigDecimal minutes) {
        BigDecimal d = minutes.stripTrailingZeros();
        return plain(d.scale() < 0 ? d.setScale(0) : d);
    }
}
