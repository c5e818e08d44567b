package loomcase.journal;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import loomcase.InputProblem;

/** What a meter showed: a number with its unit, digits kept as shown, or over range. */
public sealed interface Shown {
    /** What a unit measures. */
    enum Quantity {
        VOLTS,
        OHMS;

        String word() {
            return Words.of(this);
        }
    }

    /** Units a meter shows. */
    enum Unit {
        MILLIVOLT("mV", Quantity.VOLTS, 1e-3),
        VOLT("V", Quantity.VOLTS, 1),
        MILLIOHM("mohm", Quantity.OHMS, 1e-3),
        OHM("ohm", Quantity.OHMS, 1),
        KILOHM("kohm", Quantity.OHMS, 1e3),
        MEGOHM("Mohm", Quantity.OHMS, 1e6);

        private final String sign;
        private final Quantity quantity;
        private final double factor;

        Unit(String sign, Quantity quantity, double factor) {
            this.sign = sign;
            this.quantity = quantity;
            this.factor = factor;
        }

        /** The sign used in files and on screens. */
        public String sign() {
            return sign;
        }

        /** What it measures. */
        public Quantity quantity() {
            return quantity;
        }

        static Optional<Unit> of(String sign) {
            for (Unit unit : values()) if (unit.sign.equals(sign)) return Optional.of(unit);
            return Optional.empty();
        }
    }

    /** The word for over range, in files and as typed. */
    String OPEN = "open";

    /** The value in volts or ohms, empty when over range. */
    OptionalDouble value();

    /**
     * A number on the display.
     *
     * @param amount as shown, so {@code 5.00} keeps its two decimals
     * @param unit as shown
     */
    record Number(BigDecimal amount, Unit unit) implements Shown {
        public Number {
            if (amount.precision() > 12 || amount.scale() > 12 || amount.scale() < 0)
                throw new IllegalArgumentException("reading " + amount + " has more digits than a meter shows");
        }

        @Override
        public OptionalDouble value() {
            return OptionalDouble.of(amount.doubleValue() * unit.factor);
        }

        /** One step of the last digit shown, in volts or ohms. */
        public double step() {
            return Math.pow(10, -amount.scale()) * unit.factor;
        }

        @Override
        public String toString() {
            return amount.toPlainString() + " " + unit.sign;
        }
    }

    /** No number: more ohms than the meter can measure. */
    record OverRange() implements Shown {
        @Override
        public OptionalDouble value() {
            return OptionalDouble.empty();
        }

        @Override
        public String toString() {
            return OPEN;
        }
    }

    /**
     * Reads {@code 4.98V}, {@code -120mV}, {@code 0.4ohm}, {@code 4.7k}, {@code 1.2Mohm}, {@code open} or {@code OL}.
     *
     * @throws InputProblem saying what is allowed
     */
    static Shown parse(String text) {
        String bare = text.strip();
        if (List.of(OPEN, "ol", "o.l", "o.l.").contains(bare.toLowerCase(Locale.ROOT))) return new OverRange();
        Matcher m = Typed.FORM.matcher(bare);
        if (!m.matches()) throw new InputProblem("reading '" + text + "' is no number with a unit; " + Typed.ALLOWED);
        if (m.group(2).isEmpty())
            throw new InputProblem(
                    "reading '" + text + "' has no unit; write it as " + m.group(1) + "V or " + m.group(1) + "ohm");
        Unit unit = Typed.unit(m.group(2))
                .orElseThrow(() ->
                        new InputProblem("reading '" + text + "': unit '" + m.group(2) + "' is not known; allowed are"
                                + " mV, V, mohm, ohm, kohm, Mohm, k, M and the sign for ohm; capital and small letters"
                                + " differ"));
        return new Number(new BigDecimal(m.group(1)), unit);
    }

    /** Reads a resistance that is not a reading, such as that of a lead. */
    static double parseOhms(String what, String text) {
        Matcher m = Typed.FORM.matcher(text.strip());
        Optional<Unit> unit = m.matches() ? Typed.unit(m.group(2).isEmpty() ? "ohm" : m.group(2)) : Optional.empty();
        if (unit.isEmpty() || unit.get().quantity != Quantity.OHMS)
            throw new InputProblem(what + ": '" + text + "' is no resistance; write it as 0.2ohm, 1kohm or 10Mohm");
        return Double.parseDouble(m.group(1)) * unit.get().factor;
    }

    /** A number as a person writes it. */
    static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    /** The form of a typed reading. */
    final class Typed {
        private static final Pattern FORM = Pattern.compile("([+-]?[0-9]{1,9}(?:[.][0-9]{1,6})?) ?([^\\s0-9.,]{0,9})");
        private static final String ALLOWED = "write it as 4.98V, 120mV, 0.4ohm, 4.7kohm, 1.2Mohm or open";

        private Typed() {}

        private static Optional<Unit> unit(String sign) {
            // two code points look like the ohm sign: the Greek letter and the unit sign
            String word = sign.replaceAll("[\u03A9\u2126]|[oO]hms?$", "ohm");
            if (word.equals("k") || word.equals("M") || word.equals("m")) word = word.equals("m") ? "?" : word + "ohm";
            return Unit.of(word.equals("K") || word.equals("Kohm") ? "kohm" : word);
        }
    }
}
