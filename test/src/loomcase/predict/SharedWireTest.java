package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import loomcase.demo.Harness;
import loomcase.j1939.Code;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.Watch;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Which sensors show which codes when the 5 V supply or the return that they share fails.
 *
 * <p>Source of the patterns: column {@code expected_codes} of {@code test/data/wiring/sim_shared.csv} (an independent
 * simulation; see {@code SOURCES.md} there). The sensors of each shared wire are found by following the circuit file, not
 * by the program's own nets.
 */
class SharedWireTest {
    private static final double RATIO_TOLERANCE = 0.01;

    /**
     * A shared wire pair.
     *
     * @param supplyPin pin of the supply, {@code supplyWire} the wire before the splice
     * @param returnWire wire of the return before its splice
     * @param fed pulled-down sensors on the supply
     * @param returned sensors on the return, thermistors and pulled-down ones
     */
    record Shared(
            Harness harness,
            String rail,
            int supplySpn,
            String supplyPin,
            String supplyWire,
            String returnWire,
            Set<String> fed,
            Set<String> returned) {
        @Override
        public String toString() {
            return harness + " " + rail;
        }
    }

    static Stream<Shared> shared() {
        return Stream.of(
                new Shared(
                        Harness.TEACHING,
                        "5VA",
                        3509,
                        "J1/3",
                        "W4",
                        "W7",
                        Set.of("OPS", "MAP"),
                        Set.of("OPS", "MAP", "ECT")),
                new Shared(
                        Harness.LARCH,
                        "5VA",
                        3509,
                        "J2/2",
                        "W123",
                        "W162",
                        Set.of("FRP", "FDP", "OPS", "CCP", "OLV"),
                        Set.of("FRP", "FDP", "FUT", "OPS", "CCP", "OLV", "EOT")));
    }

    @ParameterizedTest
    @MethodSource("shared")
    void openSupplySetsFourOnEveryPulledDownSensorAndNothingElse(Shared s) {
        assertEquals(each(s, s.fed, 4), circuitCodes(s, open(s.supplyWire)));
    }

    @ParameterizedTest
    @MethodSource("shared")
    void groundedSupplySetsFourOnTheSupplyToo(Shared s) {
        Set<Code> expected = each(s, s.fed, 4);
        expected.add(new Code(s.supplySpn, 4));
        assertEquals(expected, circuitCodes(s, List.of(new Edit.Bridge(s.supplyPin, Names.CHASSIS, Edit.SHORT_OHMS))));
    }

    @ParameterizedTest
    @MethodSource("shared")
    void supplyShortedToBatterySetsThreeOnSensorsAboveAThirdOfTheirSpan(Shared s) {
        // the simulation: 3 above about 37 % of span at 12.6 V; at 13.8 and 13.9 V the limits used here ask for 34 %
        Set<String> high = new TreeSet<>();
        for (String d : s.fed)
            if (((Device.Ratiometric) s.harness.circuit().devices().get(d).nature())
                            .fraction()
                            .at("idle-warm")
                    > 0.345) high.add(d);
        Set<Code> expected = each(s, high, 3);
        expected.add(new Code(s.supplySpn, 3));
        String power = "J1/1";
        assertEquals(expected, circuitCodes(s, List.of(new Edit.Bridge(s.supplyPin, power, Edit.SHORT_OHMS))));
    }

    @ParameterizedTest
    @MethodSource("shared")
    void openReturnSetsThreeOnThermistorsAndLeavesPlainSensorsHighInRange(Shared s) {
        Predictor p = predictor(s);
        Set<Code> found = circuitCodes(s, open(s.returnWire));
        for (String id : s.returned) {
            Device d = s.harness.circuit().devices().get(id);
            int spn = spn(s, id);
            if (d.nature() instanceof Device.Ntc) {
                assertTrue(found.contains(new Code(spn, 3)), id + " in " + found);
                continue;
            }
            // fault map: a broken-wire-protected sensor goes silent and is pulled down to 0 V
            boolean plain = ((Device.Ratiometric) d.nature()).unpowered() == Device.Unpowered.DIODES;
            assertEquals(!plain, found.contains(new Code(spn, 4)), id + " in " + found);
            if (!plain) continue;
            double volts = reading(p, open(s.returnWire), spn).value();
            assertTrue(volts > 4.2 && volts < 4.7, id + " reads " + volts + " V; simulated 4.375 V with one load");
        }
    }

    @ParameterizedTest
    @MethodSource("shared")
    void resistanceInTheSupplyLowersAllInProportionAndSetsNothing(Shared s) {
        List<Edit> edits = List.of(new Edit.Series(Names.wire(s.supplyWire), 10));
        assertEquals(Set.of(), circuitCodes(s, edits));
        Predictor p = predictor(s);
        Map<String, Double> ratio = new TreeMap<>();
        for (String d : s.fed) {
            Predictor.Reading r = reading(p, edits, spn(s, d));
            ratio.put(d, r.value() / r.healthy());
        }
        double first = ratio.values().iterator().next();
        assertTrue(first < 0.99 && first > 0.8, "10 ohm: the simulation has 4.771 of 4.999 V; here " + ratio);
        ratio.forEach((d, x) -> assertEquals(first, x, RATIO_TOLERANCE, d + " of " + ratio));
    }

    @ParameterizedTest
    @MethodSource("shared")
    void resistanceInTheReturnRaisesAllAndSetsNothing(Shared s) {
        List<Edit> edits = List.of(new Edit.Series(Names.wire(s.returnWire), 10));
        assertEquals(Set.of(), circuitCodes(s, edits));
        Predictor p = predictor(s);
        for (String d : s.returned) {
            Predictor.Reading r = reading(p, edits, spn(s, d));
            assertTrue(r.value() > r.healthy() + 0.02, d + " went from " + r.healthy() + " to " + r.value() + " V");
        }
    }

    private static Predictor predictor(Shared s) {
        return s.harness.predictor(List.of(), 0, List.of("idle-warm"));
    }

    /** Codes 3 and 4 shown with more than even odds. */
    private static Set<Code> circuitCodes(Shared s, List<Edit> edits) {
        Predictor p = predictor(s);
        Prediction q = p.predict(edits);
        Set<Code> out = new TreeSet<>();
        for (int k = 0; k < q.codes().length; k++) {
            Code c = p.table().codes().get(q.codes()[k]);
            if (q.probability()[k] > 0.5 && (c.fmi() == 3 || c.fmi() == 4)) out.add(c);
        }
        return out;
    }

    private static Predictor.Reading reading(Predictor p, List<Edit> edits, int spn) {
        return p.readings(edits, p.table().index(new Code(spn, 4))).get(0);
    }

    private static Set<Code> each(Shared s, Set<String> devices, int fmi) {
        Set<Code> out = new TreeSet<>();
        devices.forEach(d -> out.add(new Code(spn(s, d), fmi)));
        return out;
    }

    private static int spn(Shared s, String device) {
        return s.harness.circuit().watches().stream()
                .filter(w -> w.device().equals(device) && w.fmi() == 4)
                .mapToInt(Watch::spn)
                .findFirst()
                .orElseThrow();
    }

    private static List<Edit> open(String wire) {
        return List.of(new Edit.Series(Names.wire(wire), Edit.OPEN_OHMS));
    }
}
