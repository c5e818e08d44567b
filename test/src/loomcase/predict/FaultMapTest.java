package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import loomcase.demo.Harness;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

/**
 * The fault map against the reference harness: each row that the harness can express is planted, and the FMI that the map
 * weighs most must be the one most probably shown, "none" included.
 *
 * <p>Source: {@code test/data/wiring/fmi_fault_map.csv}, see {@code SOURCES.md} there. The built-in rules that split a
 * condition among FMIs were written from the same facts; what is independent here is which condition the solved network
 * meets. Ties in the map or in the prediction count as agreement.
 */
class FaultMapTest {
    private static final Path MAP = Path.of("test/data/wiring/fmi_fault_map.csv");
    private static final Map<String, Plantings.Planting> PLANTED = Plantings.all();
    private static final double TIE = 0.006;

    /** Rows that the reference harness answers differently: the answer it gives, and why. */
    private static final Map<String, String> DIFFERS = Map.of(
            "NTC_2wire_pullup|cross-short to another NTC signal",
            "none: no watch of the reference harness compares two temperatures, so a value within range sets nothing",
            "RATIOMETRIC_3wire_pulldown_100k|shared return open",
            "2: about 4.4 V, below the 4.7 V limit of code 3; oil pressure at rest is too high for a stopped engine",
            "HALL_3wire_opencollector_pullup|signal short to ground",
            "2: the level and the missing pulses are two watches here, and each may be shown as 2",
            "HALL_3wire_opencollector_pullup|signal short to 5 V/battery",
            "2: the level and the missing pulses are two watches here, and each may be shown as 2",
            "VR_2wire|polarity reversed (after repair)",
            "none: no watch of the reference harness compares the phase of crank and cam",
            "LOWSIDE_DRIVER_load_to_battery|load shorted internally",
            "3: the unit limits the current and watches the pin volts, so a shorted load looks like a short to battery",
            "HBRIDGE_motor_plus_position (throttle, EGR)|motor leg to ground/battery",
            "4: the unit tests the legs at rest, before any current could be too high");

    /** Rows that no part of the reference harness is like. */
    private static final Map<String, String> NOT_EXPRESSED = Map.of(
            "RATIOMETRIC_3wire_pullup_51k|branch 5 V supply open, plain sensor",
            "the only pulled-up sensor, AFR, is a protected one",
            "PWM_smart_actuator_command_feedback|command wire open",
            "every smart actuator of the reference harness is on the network",
            "PWM_smart_actuator_command_feedback|feedback wire open",
            "every smart actuator of the reference harness is on the network");

    @Test
    void everyRowIsPlantedOrSaidToBeOutOfReach() throws IOException {
        TreeSet<String> rows = new TreeSet<>(rows().keySet());
        TreeSet<String> treated = new TreeSet<>(PLANTED.keySet());
        treated.addAll(NOT_EXPRESSED.keySet());
        assertEquals(rows, treated);
        assertEquals(rows.size(), PLANTED.size() + NOT_EXPRESSED.size());
        assertTrue(PLANTED.keySet().containsAll(DIFFERS.keySet()), "a row that differs must be planted");
    }

    @Test
    void theHeaviestFmiOfTheMapIsTheOnePredicted() throws IOException {
        Predictor predictor = Harness.LARCH.predictor(List.of(), 0, List.of("key-on", "idle-warm"));
        List<String> wrong = new ArrayList<>();
        int agree = 0;
        for (Map.Entry<String, CSVRecord> row : rows().entrySet()) {
            Plantings.Planting planted = PLANTED.get(row.getKey());
            if (planted == null) continue;
            Map<String, Double> shown = shown(predictor, planted);
            List<String> expected = heaviest(row.getValue().get("fmi_weights"));
            boolean same = expected.stream().anyMatch(e -> mass(shown, e) >= most(shown, expected) - TIE);
            String differs = DIFFERS.get(row.getKey());
            String answer = differs == null ? "" : differs.substring(0, differs.indexOf(':'));
            if (differs != null && (same || mass(shown, answer) < most(shown, List.of(answer)) - TIE))
                wrong.add(row.getKey() + " is listed as answered with " + answer + ", found " + shown);
            if (differs == null && !same) wrong.add(row.getKey() + ": map " + expected + ", predicted " + shown);
            if (same) agree++;
        }
        assertEquals(List.of(), wrong);
        assertEquals(PLANTED.size() - DIFFERS.size(), agree);
    }

    /** Probability of each FMI of the SPN looked at, and of none of them. */
    private static Map<String, Double> shown(Predictor predictor, Plantings.Planting planted) {
        Prediction p = predictor.predict(planted.edits());
        Map<String, Double> out = new LinkedHashMap<>();
        double none = 1;
        for (int k = 0; k < p.codes().length; k++) {
            var code = predictor.table().codes().get(p.codes()[k]);
            if (code.spn() != planted.spn()) continue;
            out.put(Integer.toString(code.fmi()), p.probability()[k]);
            none *= 1 - p.probability()[k];
        }
        out.put("none", none);
        return out;
    }

    /** Probability of an entry of the map, which may stand for several FMIs, as {@code 0/15/16}. */
    private static double mass(Map<String, Double> shown, String entry) {
        double sum = 0;
        for (String fmi : entry.split("/")) sum += shown.getOrDefault(fmi, 0.0);
        return sum;
    }

    private static double most(Map<String, Double> shown, List<String> expected) {
        double single =
                shown.values().stream().mapToDouble(Double::doubleValue).max().orElseThrow();
        return Math.max(
                single, expected.stream().mapToDouble(e -> mass(shown, e)).max().orElseThrow());
    }

    /** Entries of the greatest weight of {@code fmi:weight;fmi:weight}. */
    private static List<String> heaviest(String weights) {
        double most = 0;
        List<String> out = new ArrayList<>();
        for (String part : weights.split(";")) {
            String fmi = part.substring(0, part.indexOf(':'));
            double weight = Double.parseDouble(part.substring(part.indexOf(':') + 1));
            if (weight > most) out.clear();
            if (weight >= most) out.add(fmi);
            most = Math.max(most, weight);
        }
        return out;
    }

    private static Map<String, CSVRecord> rows() throws IOException {
        Map<String, CSVRecord> out = new LinkedHashMap<>();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var in = Files.newBufferedReader(MAP);
                var records = format.parse(in)) {
            for (CSVRecord r : records) out.put(r.get("circuit_type") + "|" + r.get("fault_site"), r);
        }
        return out;
    }
}
