package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import loomcase.j1939.Code;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.predict.Predictor;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The code before a test is the one that fmi_fault_map.csv gives for the fault (derived, basis in each row); the code after
 * unplugging or jumpering is the one that rows M04 to M06 of measurements.csv say: it flips where harness and control unit
 * are sound for that polarity, else it stays. A 0 stands for neither: a jumper across a short to battery only divides it.
 */
class FmiFlipTest {
    private static final Larch LARCH = new Larch();

    private static Edit[] thermistor(String site) {
        return switch (site) {
            case "signal open" -> new Edit[] {Larch.open("W208")};
            case "branch return open" -> new Edit[] {Larch.open("W186")};
            case "signal short to ground/return" -> new Edit[] {Larch.bridge("J2/4", Names.CHASSIS)};
            case "signal short to battery" -> new Edit[] {Larch.bridge("J2/4", "C-BAT/1")};
            case "sensor element open" -> new Edit[] {new Edit.Value("ECT", Edit.Quantity.OHMS, 1e9)};
            case "sensor element shorted" -> new Edit[] {new Edit.Value("ECT", Edit.Quantity.OHMS_FACTOR, 1e-4)};
            default -> throw new IllegalArgumentException(site);
        };
    }

    private static Edit[] ratiometric(String site) {
        return switch (site) {
            case "signal open" -> new Edit[] {Larch.open("W215")};
            case "branch 5 V supply open" -> new Edit[] {Larch.open("W129")};
            case "signal short to ground" -> new Edit[] {Larch.bridge("J2/22", Names.CHASSIS)};
            case "signal short to 5 V" -> new Edit[] {Larch.bridge("J2/22", "J2/2")};
            case "shared supply shorted to ground" -> new Edit[] {Larch.bridge("S5A", Names.CHASSIS)};
            default -> throw new IllegalArgumentException(site);
        };
    }

    /** The FMI that the table holds most probable for a fault. */
    private static int before(String circuitType, String site) {
        CSVRecord row = Table.rows("fmi_fault_map.csv").stream()
                .filter(r -> r.get("circuit_type").equals(circuitType)
                        && r.get("fault_site").equals(site))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(circuitType + " " + site));
        return Integer.parseInt(row.get("fmi_weights").split(":")[0]);
    }

    @ParameterizedTest
    @CsvSource({
        "signal open, 3, 3",
        "branch return open, 3, 3",
        "signal short to ground/return, 4, 4",
        "signal short to battery, 3, 0",
        "sensor element open, 3, 4",
        "sensor element shorted, 3, 4"
    })
    void thermistor(String site, int unplugged, int jumpered) {
        Edit[] edits = thermistor(site);
        assertShown(110, before("NTC_2wire_pullup", site), edits);
        List<Code> codes = List.of(new Code(110, 3), new Code(110, 4));
        after(new loomcase.meter.Test.UnplugAndWatch("C-ECT", codes, "key-on"), 110, unplugged, edits);
        after(
                new loomcase.meter.Test.JumperAndWatch("C-ECT", "C-ECT/1", "C-ECT/2", 0.1, codes, "key-on"),
                110,
                jumpered,
                edits);
    }

    @ParameterizedTest
    @CsvSource({
        "signal open, 4, 4",
        "branch 5 V supply open, 4, 4",
        "signal short to ground, 4, 4",
        "signal short to 5 V, 3, 3",
        "shared supply shorted to ground, 4, 4"
    })
    void ratiometricWithPullDown(String site, int unplugged, int jumpered) {
        Edit[] edits = ratiometric(site);
        assertShown(101, before("RATIOMETRIC_3wire_pulldown_100k", site), edits);
        List<Code> codes = List.of(new Code(101, 3), new Code(101, 4));
        after(new loomcase.meter.Test.UnplugAndWatch("C-CCP", codes, "key-on"), 101, unplugged, edits);
        after(
                new loomcase.meter.Test.JumperAndWatch("C-CCP", "C-CCP/1", "C-CCP/3", 1000, codes, "key-on"),
                101,
                jumpered,
                edits);
    }

    @Test
    void aDeadOutputFlipsWhenSupplyIsJumperedToSignal() {
        List<Code> codes = List.of(new Code(101, 3), new Code(101, 4));
        var jumper = new loomcase.meter.Test.JumperAndWatch("C-CCP", "C-CCP/1", "C-CCP/3", 1000, codes, "key-on");
        Edit[] edits = {new Edit.Value("CCP", Edit.Quantity.FRACTION, 0)};
        assertShown(101, 4, edits);
        after(jumper, 101, 3, edits);
    }

    private static void assertShown(int spn, int fmi, Edit... edits) {
        Predictor predictor = new Predictor(LARCH.circuit, LARCH.solver, LARCH.table, List.of("key-on"));
        double q = predictor.predict(List.of(edits)).of(LARCH.table.index(new Code(spn, fmi)), 0);
        // a supply code may hide the code of a sensor, so one half is enough
        assertTrue(q > 0.5, spn + "/" + fmi + " before has " + q);
    }

    private static void after(loomcase.meter.Test test, int spn, int fmi, Edit... edits) {
        assertEquals(fmi == 3, LARCH.active(test, new Code(spn, 3), edits) > 0.5, test.id());
        assertEquals(fmi == 4, LARCH.active(test, new Code(spn, 4), edits) > 0.5, test.id());
    }
}
