package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import loomcase.demo.Harness;
import loomcase.j1939.Code;
import loomcase.model.Edit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A limit is soft by the normal distribution, and a unit without supply is silent. */
class SoftLimitTest {
    private static final Code POWER_LOW = new Code(168, 4);

    /**
     * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1 (worked examples: 1.53, −1.53, 0.5, −1); the rest
     * from a printed table of standard normal probabilities (math.com, z-distribution). Five decimals are printed.
     */
    @ParameterizedTest
    @CsvSource({
        "1.53, 0.93699",
        "-1.53, 0.06301",
        "0.5, 0.69146",
        "-1, 0.15866",
        "0, 0.5",
        "-2.3, 0.01072",
        "-2.5, 0.00621",
        "-2.8, 0.00256",
        "-3, 0.00135",
        "-3.5, 0.00023",
        "-4, 0.00003"
    })
    void theNormalDistributionAgreesWithPrintedTables(double z, double phi) {
        assertEquals(phi, Normal.cumulative(z), 0.5e-5 + 1e-9);
    }

    @Test
    void aWatchNearItsLimitIsShownWithPhiOfItsDistance() {
        // coolant too hot: below 0.75 V with spread 0.02 V; no reading splits FMI 0, no mask acts here
        Predictor p = Harness.TEACHING.predictor(List.of(), 0, List.of("idle-warm"));
        int code = p.table().index(new Code(110, 0));
        int between = 0;
        for (double celsius = 74; celsius < 84; celsius += 0.5) {
            List<Edit> edits = List.of(new Edit.Value("ECT", Edit.Quantity.CELSIUS, celsius + 22));
            double volts = p.readings(edits, code).get(0).value();
            double expected = phi((0.75 - volts) / 0.02);
            double shown = p.predict(edits).of(code, p.healthy()[code]);
            assertEquals(expected, shown, 1e-7, celsius + " °C, " + volts + " V");
            if (expected > 0.01 && expected < 0.99) between++;
        }
        assertTrue(between >= 3, "only " + between + " temperatures fell near the limit");
    }

    /** Φ by its power series, M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions, 26.2.10 (from memory). */
    private static double phi(double z) {
        if (Math.abs(z) > 6) return z > 0 ? 1 : 0;
        double term = z;
        double sum = z;
        for (int n = 1; n < 200; n++) {
            term *= -z * z / (2 * n);
            sum += term / (2 * n + 1);
        }
        return 0.5 + sum / Math.sqrt(2 * Math.PI);
    }

    @Test
    void aUnitWithoutItsSupplyIsSilent() {
        for (Harness h : List.of(Harness.TEACHING, Harness.LARCH)) {
            Predictor p = h.predictor(List.of(), 0, List.of("key-on", "idle-warm"));
            assertEquals(0, p.predict(h.edits("fuse.open F1")).codes().length, h + " with its fuse open");
        }
    }

    @Test
    void aWeakSupplyIsReportedAndOneBelowTheMinimumIsNot() {
        // 12 ohm of unit behind R ohm at 12.5 V: R = 10 leaves 6.8 V, R = 15 leaves 5.6 V, below the unit's 6 V
        Predictor p = Harness.TEACHING.predictor(List.of(), 0, List.of("key-on"));
        int code = p.table().index(POWER_LOW);
        assertTrue(p.predict(List.of(new Edit.Series("wire:W2", 10))).of(code, 0) > 0.99);
        assertEquals(0, p.predict(List.of(new Edit.Series("wire:W2", 15))).codes().length);
    }

    @Test
    void aCodeIsShownWhenAnyOperatingPointShowsIt() {
        // truly low oil is looked for at idle only
        List<Edit> low = Harness.TEACHING.edits("condition.engine OPS low-oil");
        Predictor both = Harness.TEACHING.predictor(List.of(), 0, List.of("key-on", "idle-warm"));
        Predictor idle = Harness.TEACHING.predictor(List.of(), 0, List.of("idle-warm"));
        Predictor key = Harness.TEACHING.predictor(List.of(), 0, List.of("key-on"));
        int code = both.table().index(new Code(100, 1));
        assertTrue(idle.predict(low).of(code, 0) > 0.9);
        assertEquals(idle.predict(low).of(code, 0), both.predict(low).of(code, 0), 1e-12);
        assertEquals(0, key.predict(low).codes().length);
        assertTrue(both.lookedFor()[code] && idle.lookedFor()[code] && !key.lookedFor()[code]);
    }

    @Test
    void askingTogetherOrOneByOneGivesTheSame() {
        Predictor one = Harness.TEACHING.predictor(List.of(), 0.05, List.of("key-on", "idle-warm"));
        Predictor many = Harness.TEACHING.predictor(List.of(), 0.05, List.of("key-on", "idle-warm"));
        List<List<Edit>> all = Harness.TEACHING.hypotheses().stream()
                .filter(h -> h.cause() instanceof loomcase.faults.Hypothesis.Fixed)
                .map(h -> ((loomcase.faults.Hypothesis.Fixed) h.cause()).edits())
                .toList();
        many.prepare(all, share -> {});
        for (List<Edit> edits : all) {
            Prediction a = one.predict(edits);
            Prediction b = many.predict(edits);
            org.junit.jupiter.api.Assertions.assertArrayEquals(a.codes(), b.codes(), edits.toString());
            org.junit.jupiter.api.Assertions.assertArrayEquals(
                    a.probability(), b.probability(), 1e-9, edits.toString());
        }
    }
}
