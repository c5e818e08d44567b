package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import loomcase.model.Conductor;
import loomcase.model.Wire;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Drop and ampacity of repair wire against published tables: FAA AC 43.13-1B change 1 (27 September 2001), tables 11-7 and
 * 11-9 and paragraph 11-66; ISO 6722-1 limits as in the project's reference table conductors_metric.csv (from memory there).
 */
class WireLoadTest {
    private static final double METRES_PER_FOOT = 0.3048;

    /** Table 11-7: run length in feet, amperes, gauge, drop calculated there with its largest tin-plated resistance. */
    @ParameterizedTest
    @CsvSource({"107, 20, 6, 0.942", "90, 20, 4, 0.504", "88, 20, 12, 3.60", "100, 20, 14, 6.12"})
    void dropIsThatOfTheHandbookLessWhatTinAndToleranceAdd(double feet, double amperes, int gauge, double volts) {
        double ours = WireLoad.dropVolts(Conductor.parse("AWG" + gauge), feet * METRES_PER_FOOT, 20, amperes);
        assertTrue(ours <= 1.01 * volts && ours >= 0.85 * volts, ours + " V, the handbook " + volts);
    }

    /** Largest resistance at 20 °C in milliohms a metre. */
    @ParameterizedTest
    @CsvSource({"0.35, 54.4", "0.5, 37.1", "0.75, 24.7", "1.0, 18.5", "1.5, 12.7", "2.5, 7.60"})
    void metricWireIsWithinAFewHundredthsOfItsLimit(double square, double milliohms) {
        double ours = 1000 * WireLoad.dropVolts(new Conductor(square + "mm2", square), 1, 20, 1);
        assertEquals(milliohms, ours, 0.05 * milliohms);
    }

    /** Paragraph 11-66: length at temperature is (254.5)(L1)/(234.5 + T2), so drop grows by the inverse. */
    @ParameterizedTest
    @CsvSource({"20", "70", "105", "125"})
    void heatRaisesTheDropAsTheHandbookSays(double celsius) {
        Conductor wire = Conductor.parse("AWG18");
        double ratio = WireLoad.dropVolts(wire, 10, celsius, 5) / WireLoad.dropVolts(wire, 10, 20, 5);
        assertEquals((234.5 + celsius) / 254.5, ratio, 1e-3);
    }

    /** Table 11-9, wires in bundles, 105 °C conductors in 70 °C. */
    @ParameterizedTest
    @CsvSource({"24, 2.5", "22, 3", "20, 4", "18, 6", "16, 7", "14, 10", "12, 13", "10, 17", "8, 38"})
    void ampacityIsTheTablesAtItsOwnTemperatures(int gauge, double amperes) {
        double square = Conductor.parse("AWG" + gauge).areaSquareMillimetres();
        assertEquals(amperes, WireLoad.ampacity(square, 70, 105), 1e-6);
    }

    /** Table 11-9, the column for 150 °C conductors, whose rise is 80 K instead of 35 K; never above it. */
    @ParameterizedTest
    @CsvSource({"22, 5", "20, 7", "18, 9", "16, 11", "14, 14", "12, 19", "10, 26"})
    void aHotterClassCarriesAboutWhatItsColumnSays(int gauge, double amperes) {
        double square = Conductor.parse("AWG" + gauge).areaSquareMillimetres();
        assertEquals(amperes, WireLoad.ampacity(square, 70, 150), 0.16 * amperes);
    }

    @Test
    void wireAsHotAsItMayGetCarriesNothing() {
        assertEquals(0, WireLoad.ampacity(0.8, 125, WireLoad.CROSS_LINKED));
        assertEquals(0, WireLoad.ampacity(0.8, 90, WireLoad.limit("GPT")));
        assertTrue(WireLoad.ampacity(0.8, 90, WireLoad.limit("GXL")) > 3);
    }

    @Test
    void aSpliceAddsItsJointsAndNothingElse() {
        WireLoad l = WireLoad.of("W", Conductor.parse("AWG18"), "GXL", 2, "given", 0, 2, 20);
        assertEquals(2 * 2 * WireLoad.JOINT_OHMS, l.volts(), 1e-12);
        assertEquals(l.volts(), l.addedVolts(), 1e-12);
        assertTrue(l.carries());
        assertFalse(WireLoad.of("W", Conductor.parse("AWG24"), "GPT", 5, "given", 1, 1, 70)
                .carries());
    }

    @Test
    void whatAWireMayBeAskedForIsItsFuseOrItsPin() {
        Carried carried = new Carried(Posteriors.TEACHING);
        Wire feed = Posteriors.TEACHING.wires().get("W14");
        Wire signal = Posteriors.TEACHING.wires().get("W11");
        assertEquals(10, carried.load(feed).amperes());
        assertEquals("rating of fuse F1", carried.load(feed).basis());
        assertTrue(carried.load(signal).amperes() < 0.1);
    }
}
