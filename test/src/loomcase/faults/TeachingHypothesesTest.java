package loomcase.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import loomcase.demo.Harness;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;

/**
 * The hypotheses of the teaching harness, counted by hand.
 *
 * <pre>
 *  JN4 (battery)                JN0 (control unit)              JN1                JN2 (front)
 *  CB/1 -W1- F1 =====B4======== J1   G1 =========B1============== + ======B2====== C1 ECT  1 signal 2 return
 *               W2 W14          W3 to G1     S1 at 0.5  R1 at 0.7 |                C2 OPS  1 5 V 2 return 3 signal
 *                               1 power      (5 V)      S2 at 0.8 B3               C4 FAN  1 feed 2 low side
 *                               2 ground                (return)  |
 *                               3 5 V  4 return                   JN3 C3 MAP  1 5 V 2 return 3 signal
 *                               5 fan 6 ECT 7 OPS 8 MAP
 *
 *  nets: battery W1 W2 W14; ground W3; 5 V W4 W5 W6; return W7 W8 W9 W10; W11; W12; W13; W15
 * </pre>
 */
class TeachingHypothesesTest {
    private static final Map<String, Integer> BY_HAND = Map.ofEntries(
            Map.entry("nothing", 1),
            // 15 wires; two sizes of resistance each; W3 is ground and cannot short to it; two sizes of leak
            Map.entry("wire.open", 15),
            Map.entry("wire.resistive", 30),
            Map.entry("wire.short-ground", 14),
            Map.entry("wire.leak-ground", 28),
            // seven nets meet in B1, so 21 pairs: battery with 6, 5 V with 5 more, the other five among themselves 10
            Map.entry("wire.short-battery", 6),
            Map.entry("wire.short-five-volt", 5),
            Map.entry("wire.short-neighbour", 10),
            // used cavities: J1 8, C1 2, C2 3, C3 3, C4 2, CB 1
            Map.entry("contact.open", 19),
            Map.entry("contact.backed-out", 19),
            Map.entry("contact.fretted", 19),
            Map.entry("contact.resistive", 38),
            Map.entry("crimp.open", 19),
            Map.entry("crimp.resistive", 38),
            // neighbours: J1 3 + 3 in its rows and 4 across, C1 1, C2 2, C3 2, C4 1: 16, two sizes of water
            Map.entry("contact.bridge", 32),
            Map.entry("common.swapped-cavities", 16),
            // legs: S1 three, S2 four
            Map.entry("splice.leg-open", 7),
            Map.entry("splice.leg-resistive", 14),
            Map.entry("splice.open", 2),
            Map.entry("fuse.open", 1),
            Map.entry("ground.open", 1),
            Map.entry("ground.resistive", 3),
            Map.entry("device.ntc.open", 1),
            Map.entry("device.ntc.short", 1),
            // too cold, too hot, and a false report of its condition
            Map.entry("device.ntc.drift", 5),
            // OPS and MAP; OPS stands at 0.1 of its supply, so it cannot read far too low; it can report its condition
            // falsely
            Map.entry("device.ratiometric.open", 2),
            Map.entry("device.ratiometric.short", 4),
            Map.entry("device.ratiometric.drift", 4),
            Map.entry("device.battery.empty", 1),
            Map.entry("device.battery.worn", 1),
            Map.entry("device.battery.cell", 1),
            Map.entry("device.coil.open", 1),
            Map.entry("device.coil.short", 1),
            Map.entry("condition.engine", 2),
            Map.entry("control-unit.pin", 8),
            Map.entry("control-unit.supply", 1),
            Map.entry("common.rub-point.ground", 1),
            Map.entry("common.rub-point.neighbour", 1),
            Map.entry("common.rub-point.open", 1),
            // all four branches carry two wires or more
            Map.entry("common.hot-spot", 4),
            Map.entry("common.crushed-clip", 8),
            Map.entry("common.branch-cut", 4),
            // plugs with more than one cavity: J1, C1 to C4
            Map.entry("common.unplugged", 5),
            Map.entry("common.half-latched", 5),
            Map.entry("common.wet-connector", 5));

    private static final double FRONT = 2.3 * 1.9 * 1.6;
    private static final double INTAKE = 1 * 1 * 0.6;
    private static final double FRAME = 0.3 * 1 * 1.6;
    private static final double TOLERANCE = 1e-15;

    @Test
    void everyFamilyHasAsManyHypothesesAsCountedByHand() {
        Map<String, Integer> found = Harness.TEACHING.hypotheses().stream()
                .collect(Collectors.groupingBy(Hypothesis::family, TreeMap::new, Collectors.summingInt(h -> 1)));
        assertEquals(new TreeMap<>(BY_HAND), found);
    }

    @Test
    void lengthAndZoneScaleTheRateOfAWire() {
        // W11 runs the whole of B1 and B2, both front; W13 the whole of B1 and of B3, which is intake; 0.05 m at each
        // end
        prior("wire.open W11", 0.012, 1.5 * FRONT + 0.1);
        prior("wire.open W13", 0.012, 1.0 * FRONT + 0.4 * INTAKE + 0.1);
        prior("wire.short-ground W13", 0.012, 1.0 * FRONT + 0.4 * INTAKE + 0.1);
        // W3 and W1 hang at one junction: only their ends
        prior("wire.open W3", 0.012, 0.1);
        prior("wire.open W2", 0.012, 0.8 * FRAME + 0.1);
    }

    @Test
    void twoSizesShareTheRateOfAResistance() {
        prior("wire.resistive W11 30 ohm", 0.008, (1.5 * FRONT + 0.1) / 2);
        prior("contact.resistive C1/1 1 kohm", 0.018, FRONT / 2);
        prior("contact.bridge C1/1 2 200 ohm", 0.009, FRONT / 2);
    }

    @Test
    void theZoneOfAPlugScalesItsContacts() {
        prior("contact.open C1/1", 0.0315, FRONT);
        prior("contact.open J1/6", 0.0315, INTAKE);
        prior("crimp.open CB/1", 0.008, FRAME);
    }

    @Test
    void clipsAndRubPointsCountWithTheirBranch() {
        prior("common.rub-point.ground B1 R1", 1.3, FRONT);
        prior("common.crushed-clip B1 ground", 0.02, 4 * FRONT / 2);
        prior("common.crushed-clip B3 broken", 0.02, 1 * INTAKE / 2);
        prior("common.branch-cut B4", 0.02, FRAME);
    }

    @Test
    void devicesFusesAndTheControlUnitAreLeftUnscaled() {
        prior("device.ntc.open ECT element open", 0.88, 1);
        prior("fuse.open F1", 0.3, 1);
        prior("control-unit.pin ECM J1/6", 0.01, 1);
        prior("condition.engine ECT overheat", 20, 1);
        // six of ten that drift do so either way, two of them a lot, four report the condition; MAP has none to report
        prior("device.ntc.drift ECT reads far too hot", 0.31, 0.7 * 0.3);
        prior("device.ntc.drift ECT reads near its cold end", 0.31, 0.3 * 0.3);
        prior("device.ntc.drift ECT like overheat", 0.31, 0.4);
        prior("device.ratiometric.drift MAP reads far too high", 2.75, 0.5);
    }

    @Test
    void shortsBetweenWiresAddUpToTheRateOfOneWire() {
        // In B1 the battery net is W14 alone: whatever wire shorts to battery there meets W14, and so it does in B2.
        prior("wire.short-battery " + pair("W14", "W11"), 0.002, 1.5 * FRONT);
        // 5 V: in B1 three wires, W4 to 0.5 m, W5 and W6 from there; of B2 only W5. W11 meets each with a third of its
        // rate
        // in B1 and meets W5 alone in B2: as much in either, so the last is named, and there W5 with it.
        prior("wire.short-five-volt " + pair("W5", "W11"), 0.001, (0.5 + 0.5 + 0.5) * FRONT / 3 + 0.5 * FRONT);
        // W12 and W13 share B1. Signal wires there: W7 to W13 and W15; each meets those of other nets: 7 for a lone
        // wire.
        prior("wire.short-neighbour " + pair("W12", "W13"), 0.004, 1.0 * FRONT / 7);
    }

    private static String pair(String a, String b) {
        return Harness.TEACHING.hypotheses().stream()
                .filter(h -> h.family().startsWith("wire.short-")
                        && h.places().contains(new PlaceId(PlaceId.Kind.WIRE, a))
                        && h.places().contains(new PlaceId(PlaceId.Kind.WIRE, b)))
                .map(h -> h.id().substring(h.family().length() + 1))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no short between " + a + " and " + b));
    }

    private static void prior(String id, double ratePerMillionHours, double exposure) {
        double expected = 1 - Math.exp(-ratePerMillionHours * exposure * 500 / 1e6);
        assertEquals(expected, Harness.TEACHING.hypothesis(id).probability(), TOLERANCE, id);
    }
}
