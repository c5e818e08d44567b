package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.Function;
import loomcase.meter.NumericPrediction.Value;
import loomcase.model.Edit;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

/** What the size of a fault adds to the spread of a reading, beside voltage dividers (Ohm's law). */
class FaultSizeTest {
    private static final double SHARE = 0.5;
    private static final double VOLTS = 5;
    private static final double SOURCE_OHMS = 30;

    /** A short across a supply of 5 V behind 30 ohm reads 5 · R / (30 + R). */
    private static double across(double ohms) {
        return VOLTS * ohms / (SOURCE_OHMS + ohms);
    }

    private static final Function<List<Edit>, Value> DIVIDER = edits -> new Value(
            edits.stream()
                    .filter(Edit.Bridge.class::isInstance)
                    .map(Edit.Bridge.class::cast)
                    .mapToDouble(b -> across(b.ohms()))
                    .findFirst()
                    .orElse(VOLTS),
            0);

    private static Value widened(Edit... edits) {
        return new FaultSize(SHARE, 1).widened(List.of(edits), DIVIDER);
    }

    private static Edit bridge(double ohms) {
        return new Edit.Bridge("C/1", "C/2", ohms);
    }

    @Test
    void aShortIsAsUnsureAsItsOhmsMakeIt() {
        Value v = widened(bridge(1));
        assertEquals(across(1), v.mean(), 1e-12);
        assertEquals(across(1.5) - across(1), v.spread(), 1e-12);
        assertTrue(v.spread() < 0.1, "of a reading that 4.8 V are missing of");
    }

    @Test
    void aBreakHasNoSize() {
        assertEquals(0, widened(new Edit.Series("wire:W", Edit.OPEN_OHMS)).spread());
    }

    /** Metal on metal reads nothing, a strand that just touches some ohms: as large again, not half as large. */
    @Test
    void aShortIsAnythingFromNothingUp() {
        double spread = widened(bridge(Edit.SHORT_OHMS)).spread();
        assertEquals(across(2 * Edit.SHORT_OHMS) - across(Edit.SHORT_OHMS), spread, 1e-12);
    }

    /** The second fault moves nothing here, whatever its size. */
    @Test
    void ofTwoFaultsOnlyWhatASizeMovesCounts() {
        assertEquals(
                widened(bridge(Edit.SHORT_OHMS)).spread(),
                widened(bridge(Edit.SHORT_OHMS), new Edit.Series("wire:W", 1000))
                        .spread());
    }

    @Test
    void aSignalCountsForAShareOfWhatItMoves() {
        Function<List<Edit>, Value> signal = edits -> new Value(edits.isEmpty() ? 2 : 4, 0.3);
        Value v = new FaultSize(SHARE, 1).widened(List.of(new Edit.Value("S", Edit.Quantity.FRACTION, 0.8)), signal);
        assertEquals(Math.hypot(0.3, SHARE * 2), v.spread(), 1e-12);
    }

    /** Half charged instead of empty: 12.2 V instead of 11.7 V (US Army TM 5-3805-262-20). */
    @Test
    void aBatteryIsAsUnsureAsItsChargeMakesIt() {
        Function<List<Edit>, Value> posts = edits -> new Value(((Edit.Value) edits.get(0)).value(), 0);
        Value v =
                new FaultSize(SHARE, 1).widened(List.of(new Edit.Value("B", Edit.Quantity.RESTING_VOLTS, 11.7)), posts);
        assertEquals(11.7, v.mean());
        assertEquals(0.5, v.spread(), 1e-9);
    }

    @Test
    void overRangeStaysOverRange() {
        Function<List<Edit>, Value> open = edits -> new Value(Double.POSITIVE_INFINITY, 0);
        assertTrue(Double.isInfinite(
                new FaultSize(SHARE, 1).widened(List.of(bridge(1000)), open).mean()));
    }

    /** A supply of 5 V shorted by one ohm inside a sensor: a reading at another plug of that supply fits it closely. */
    @Test
    void aSupplyThatIsDownIsNotTakenToReadAnything() {
        Larch larch = new Larch();
        Subject shorted = new Subject(
                "device.ratiometric.short", List.of(), false, List.of(new Edit.Bridge("C-EBP/1~", "C-EBP/2~", 1)));
        Distribution d = larch.meter.predict(
                new loomcase.meter.Test.Volts("C-AP2/1", Names.CHASSIS, larch.rest.unplug(List.of("C-AP2"))), shorted);
        Distribution.Bell bell = (Distribution.Bell) d.parts().get(0);
        assertTrue(bell.sigma() < 0.2, bell.toString());
    }
}
