package loomcase.drill;

import java.math.BigDecimal;
import java.math.RoundingMode;
import loomcase.journal.Shown;
import loomcase.meter.Outcome;

/** A reading as a meter of 6000 counts shows it (from memory: a usual hand-held meter): the finest range that holds it. */
final class Display {
    private static final double COUNTS = 6;

    private Display() {}

    static Shown of(Outcome outcome, boolean drop) {
        if (!(outcome instanceof Outcome.Reading r)) return new Shown.OverRange();
        double size = Math.abs(r.value());
        if (r.unit() == Outcome.Unit.VOLTS) {
            if (drop && size < COUNTS / 10) return shown(r.value() * 1e3, 1, Shown.Unit.MILLIVOLT);
            return shown(r.value(), decimals(size), Shown.Unit.VOLT);
        }
        if (size < 100 * COUNTS) return shown(r.value(), 1, Shown.Unit.OHM);
        if (size < 1e5 * COUNTS) return shown(r.value() / 1e3, decimals(size / 1e3), Shown.Unit.KILOHM);
        return shown(r.value() / 1e6, decimals(size / 1e6), Shown.Unit.MEGOHM);
    }

    private static int decimals(double size) {
        return size < COUNTS ? 3 : size < 10 * COUNTS ? 2 : 1;
    }

    private static Shown shown(double value, int decimals, Shown.Unit unit) {
        return new Shown.Number(BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN), unit);
    }
}
