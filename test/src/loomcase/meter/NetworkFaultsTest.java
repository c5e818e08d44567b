package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import loomcase.model.Edit;
import loomcase.model.Names;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every row of can_faults.csv (ISO 11898-2 levels and what follows from them; source in each row) on the network of the
 * reference harness, read at its service plug. A plain number in the table allows the width of its own healthy row, 54 to
 * 66 about 60, that is a tenth.
 */
class NetworkFaultsTest {
    private static final String HIGH = "C-SVC/C";
    private static final String LOW = "C-SVC/D";
    private static final double ACCEPT = 0.1;
    private static final Larch LARCH = new Larch();
    private static final loomcase.meter.Test OHMS = new loomcase.meter.Test.Ohms(HIGH, LOW, Setup.batteryOff());

    private static Map<String, List<Edit>> plants() {
        Map<String, List<Edit>> out = new LinkedHashMap<>();
        Edit farGone = new Edit.Value("TRM", Edit.Quantity.OHMS, Edit.OPEN_OHMS);
        out.put("healthy", List.of());
        out.put("one terminator missing", List.of(farGone));
        out.put("both terminators missing", List.of(farGone, new Edit.Series("terminator:CAN1", Edit.OPEN_OHMS)));
        out.put("third terminator added", List.of(new Edit.Bridge("C-VGT/3", "C-VGT/4", 120)));
        out.put("backbone cut (both wires) mid-bus", List.of(Larch.open("W093"), Larch.open("W110")));
        out.put("CAN_H open in backbone", List.of(Larch.open("W093")));
        out.put("CAN_L open in backbone", List.of(Larch.open("W110")));
        out.put("stub wire open", List.of(Larch.open("W102")));
        out.put("series 60 ohm corrosion in one line near a terminator", List.of(Larch.series("W096", 60)));
        out.put("H shorted to L", List.of(Larch.bridge("C-NX1/3", "C-NX1/4")));
        out.put("H shorted to ground", List.of(Larch.bridge("C-NX1/3", Names.CHASSIS)));
        out.put("L shorted to ground", List.of(Larch.bridge("C-NX1/4", Names.CHASSIS)));
        out.put("H shorted to battery", List.of(Larch.bridge("C-NX1/3", "C-BAT/1")));
        out.put("L shorted to battery", List.of(Larch.bridge("C-NX1/4", "C-BAT/1")));
        out.put(
                "H and L swapped at one node",
                List.of(
                        new Edit.Series("contact:C-NX1/3", Edit.OPEN_OHMS),
                        new Edit.Series("contact:C-NX1/4", Edit.OPEN_OHMS),
                        new Edit.Bridge("C-NX1/3", "C-NX1/4~", 0.005),
                        new Edit.Bridge("C-NX1/4", "C-NX1/3~", 0.005)));
        out.put("node lost power", List.of(new Edit.Series("contact:C-NX1/1", Edit.OPEN_OHMS)));
        return out;
    }

    static Stream<CSVRecord> rows() {
        return Table.rows("can_faults.csv").stream();
    }

    @ParameterizedTest
    @MethodSource("rows")
    void ohmsBetweenTheLinesAreThoseOfTheTable(CSVRecord row) {
        double read = LARCH.mean(OHMS, plants().get(row.get("fault")).toArray(Edit[]::new));
        double[] range = ohms(row.get("ohms_H_L_at_service_plug_power_off"));
        assertTrue(range[0] <= read && read <= range[1], row + " reads " + read);
    }

    private static double[] ohms(String text) {
        if (text.startsWith("k-ohm")) return new double[] {1000, 100_000};
        Matcher bounds = Pattern.compile("^(\\d+)-(\\d+)").matcher(text);
        if (bounds.find())
            return new double[] {Double.parseDouble(bounds.group(1)), Double.parseDouble(bounds.group(2))};
        Matcher one = Pattern.compile("^(\\d+)").matcher(text);
        assertTrue(one.find(), text);
        double v = Double.parseDouble(one.group(1));
        return new double[] {v * (1 - ACCEPT), v * (1 + ACCEPT)};
    }

    @ParameterizedTest
    @MethodSource("rows")
    void voltsOfEachLineAreThoseOfTheTable(CSVRecord row) {
        Edit[] edits = plants().get(row.get("fault")).toArray(Edit[]::new);
        check(row, HIGH, row.get("H_to_gnd_V"), edits);
        check(row, LOW, row.get("L_to_gnd_V"), edits);
    }

    /** "distorted" is no reading of a steady meter; "high" is held above anything a healthy line averages. */
    private static void check(CSVRecord row, String line, String text, Edit[] edits) {
        if (text.equals("distorted")) return;
        double v = LARCH.mean(new loomcase.meter.Test.Volts(line, Names.CHASSIS, LARCH.rest), edits);
        double battery = LARCH.circuit.operatingPoints().get("key-on").batteryVolts();
        double[] range = volts(text, line.equals(HIGH), battery);
        assertTrue(range[0] <= v && v <= range[1], row + " " + line + " reads " + v);
    }

    private static double[] volts(String text, boolean high, double battery) {
        if (text.startsWith("normal") || text.contains("avg busy"))
            return high ? new double[] {2.5, 2.8} : new double[] {2.2, 2.5};
        if (text.equals("Vbat")) return new double[] {battery - 0.5, battery};
        if (text.equals("high")) return new double[] {4.5, battery};
        if (text.startsWith("2.5")) return new double[] {2.2, 2.8};
        if (text.equals("0")) return new double[] {-0.05, 0.1};
        Matcher bounds = Pattern.compile("^([\\d.]+)-([\\d.]+)").matcher(text);
        assertTrue(bounds.find(), "a text that this test does not know: " + text);
        return new double[] {Double.parseDouble(bounds.group(1)) - 0.01, Double.parseDouble(bounds.group(2))};
    }

    @Test
    void theTwoLinesTogetherMakeAboutFiveVolts() {
        assertTrue(Table.row("can_faults.csv", "fault", "healthy")
                .get("bus_effect")
                .contains("H+L sum about 5.0 V"));
        double high = LARCH.mean(new loomcase.meter.Test.Volts(HIGH, Names.CHASSIS, LARCH.rest));
        double low = LARCH.mean(new loomcase.meter.Test.Volts(LOW, Names.CHASSIS, LARCH.rest));
        assertEquals(5.0, high + low, 0.1);
    }

    @Test
    void everyNodeAlikeStillReadsTwoTerminatorsInParallel() {
        // can_values.csv, parallel reading: 60 ohm, derived; terminators of 120 ohm by ISO 11898-2
        double expected = Double.parseDouble(Table.row("can_values.csv", "item", "parallel reading")
                .get("value")
                .split(" ")[0]);
        for (String node : List.of("VGT", "DFT", "NX1", "ETM", "DDU", "NX2"))
            assertEquals(
                    expected,
                    LARCH.mean(
                            new loomcase.meter.Test.Ohms("C-" + node + "/3", "C-" + node + "/4", Setup.batteryOff())),
                    1.5,
                    node);
    }
}
