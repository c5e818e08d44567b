package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import loomcase.j1939.Code;
import loomcase.model.Watch;
import loomcase.policy.FmiReading;
import loomcase.policy.Mask;
import loomcase.policy.PolicyOutcome;
import org.junit.jupiter.api.Test;

/** From watch conditions to codes shown, each case by hand from the formula in {@link CodeTable}. */
class CodeTableTest {
    private static final double EXACT = 1e-15;

    private static Watch watch(int spn, int fmi, String kind) {
        return new Watch(
                spn,
                fmi,
                "",
                kind,
                "",
                "",
                new Watch.PinVolts("J/1", "rest"),
                new Watch.Limit(true, 1, 1),
                List.of("key-on"),
                1);
    }

    private static FmiReading reading(String kind, int condition, int shown, double weight) {
        return new FmiReading(kind, condition, shown, weight, "rule", "basis");
    }

    private static Mask mask(int bySpn, int byFmi, int spn, int fmi, double strength) {
        return new Mask(bySpn, byFmi, spn, fmi, strength, "rule", "reason");
    }

    private static CodeTable table(
            List<Watch> watches, List<Mask> masks, List<FmiReading> readings, double missed, Code... seen) {
        return new CodeTable(
                watches,
                new PolicyOutcome(masks, readings, List.of(), List.of(), false, List.of()),
                List.of(seen),
                missed);
    }

    private static double of(CodeTable t, double[] shown, int spn, int fmi) {
        return shown[t.index(new Code(spn, fmi))];
    }

    @Test
    void aConditionIsSplitAmongItsFmisByWeight() {
        CodeTable t = table(
                List.of(watch(110, 3, "ntc")),
                List.of(),
                List.of(reading("ntc", 3, 3, 0.9), reading("ntc", 3, 2, 0.1)),
                0);
        double[] q = t.shown(new double[] {0.8});
        assertEquals(List.of(new Code(110, 2), new Code(110, 3)), t.codes());
        assertEquals(0.72, of(t, q, 110, 3), EXACT);
        assertEquals(0.08, of(t, q, 110, 2), EXACT);
    }

    @Test
    void aConditionWithoutReadingsIsShownAsItIsAndMayBeMissed() {
        CodeTable t = table(List.of(watch(168, 4, "power")), List.of(), List.of(), 0.25);
        assertEquals(0.6, of(t, t.shown(new double[] {0.8}), 168, 4), EXACT);
    }

    @Test
    void twoWatchesThatShowOneCodeCombineAsEither() {
        CodeTable t = table(
                List.of(watch(110, 3, "ntc"), watch(110, 2, "power")), List.of(), List.of(reading("ntc", 3, 2, 1)), 0);
        // 1 − (1 − 0.5)(1 − 0.4)
        assertEquals(0.7, of(t, t.shown(new double[] {0.5, 0.4}), 110, 2), EXACT);
    }

    @Test
    void aMaskLowersTheHiddenCodeByItsStrengthTimesTheHider() {
        CodeTable t = table(
                List.of(watch(3509, 4, "supply"), watch(100, 4, "power")),
                List.of(mask(3509, 4, 100, 4, 0.3)),
                List.of(),
                0);
        double[] q = t.shown(new double[] {0.5, 0.9});
        assertEquals(0.5, of(t, q, 3509, 4), EXACT);
        // 0.9 · (1 − 0.3 · 0.5)
        assertEquals(0.765, of(t, q, 100, 4), EXACT);
        assertEquals(List.of(new CodeTable.Hider(new Code(3509, 4), 0.3)), t.hiders(t.index(new Code(100, 4))));
        assertEquals(List.of(), t.hiders(t.index(new Code(3509, 4))));
    }

    @Test
    void whatOneConditionIsShownWithDoesNotHideItsOtherFmi() {
        CodeTable t = table(
                List.of(watch(110, 3, "ntc"), watch(110, 5, "power")),
                List.of(mask(110, 5, 110, 2, 0.5), mask(110, 3, 110, 2, 0.9)),
                List.of(reading("ntc", 3, 2, 0.3), reading("ntc", 3, 3, 0.5), reading("ntc", 3, 5, 0.2)),
                0);
        // alone: one limit crossed is shown once, with 2, 3 or 5
        double[] alone = t.shown(new double[] {1, 0});
        assertEquals(0.3, of(t, alone, 110, 2), EXACT);
        assertEquals(0.5, of(t, alone, 110, 3), EXACT);
        // with the other watch at 0.4: 0.3 · (1 − 0.5 · 0.4); code 5 by itself 1 − (1 − 0.2)(1 − 0.4)
        double[] both = t.shown(new double[] {1, 0.4});
        assertEquals(0.24, of(t, both, 110, 2), EXACT);
        assertEquals(0.52, of(t, both, 110, 5), EXACT);
    }

    @Test
    void masksInARowEachUseTheHiderBeforeMasking() {
        CodeTable t = table(
                List.of(watch(1, 4, "power"), watch(2, 4, "power"), watch(3, 4, "power")),
                List.of(mask(1, 4, 2, 4, 0.5), mask(2, 4, 3, 4, 0.5), mask(1, 4, 3, 4, 0.2)),
                List.of(),
                0);
        double[] q = t.shown(new double[] {1, 0.8, 1});
        assertEquals(0.4, of(t, q, 2, 4), EXACT);
        // 1 · (1 − 0.5 · 0.8)(1 − 0.2 · 1): 0.8 is code 2 before code 1 hid it
        assertEquals(0.48, of(t, q, 3, 4), EXACT);
    }

    @Test
    void aCodeSeenThatNoWatchSetsIsInTheTableAndNeverShown() {
        CodeTable t = table(List.of(watch(110, 3, "power")), List.of(), List.of(), 0, new Code(9999, 31));
        assertEquals(0, of(t, t.shown(new double[] {1}), 9999, 31));
        assertTrue(t.index(new Code(5, 5)) < 0);
    }

    @Test
    void aMaskOfCodesNotInTheTableIsLeftOut() {
        CodeTable t = table(List.of(watch(100, 4, "power")), List.of(mask(1, 1, 100, 4, 0.9)), List.of(), 0);
        assertEquals(1, of(t, t.shown(new double[] {1}), 100, 4));
    }
}
