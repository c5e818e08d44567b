package loomcase.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import loomcase.demo.Harness;
import org.junit.jupiter.api.Test;

/** Which wires are one piece of copper: unions over splices, fuses and inline plugs, compared with what a reader sees. */
class NetsTest {
    private static final Nets TEACHING = new Nets(Harness.TEACHING.circuit());
    private static final Nets LARCH = new Nets(Harness.LARCH.circuit());

    @Test
    void theTeachingHarnessFallsIntoEightNets() {
        Map<String, Set<String>> nets = Harness.TEACHING.circuit().wires().values().stream()
                .collect(Collectors.groupingBy(
                        TEACHING::of,
                        TreeMap::new,
                        Collectors.mapping(w -> w.id(), Collectors.toCollection(TreeSet::new))));
        assertEquals(
                Set.of(
                        Set.of("W1", "W2", "W14"),
                        Set.of("W3"),
                        Set.of("W4", "W5", "W6"),
                        Set.of("W7", "W8", "W9", "W10"),
                        Set.of("W11"),
                        Set.of("W12"),
                        Set.of("W13"),
                        Set.of("W15")),
                Set.copyOf(nets.values()));
    }

    @Test
    void aNetKnowsWhatItIsTiedTo() {
        assertEquals(Nets.Kind.BATTERY, kind(Harness.TEACHING, TEACHING, "W14"));
        assertEquals(Nets.Kind.GROUND, kind(Harness.TEACHING, TEACHING, "W3"));
        assertEquals(Nets.Kind.RAIL, kind(Harness.TEACHING, TEACHING, "W6"));
        assertEquals(Nets.Kind.SIGNAL, kind(Harness.TEACHING, TEACHING, "W7"), "a return is not chassis: it has a pin");
        assertEquals(Nets.Kind.SIGNAL, kind(Harness.TEACHING, TEACHING, "W11"));
    }

    @Test
    void anInlinePlugJoinsAndARelayParts() {
        // W270 J1/11 - XBa/12, W271 XBb/12 - XCa/13, W272 XCb/13 - pedal: one signal through two inline plugs
        assertEquals(net("W270"), net("W271"));
        assertEquals(net("W270"), net("W272"));
        // K1's contact parts the battery side W020 from the switched side W024
        assertEquals(net("W001"), net("W020"), "over fuse F2");
        assertEquals(Set.of(false), Set.of(net("W020").equals(net("W024"))));
        assertEquals(Nets.Kind.BATTERY, kind(Harness.LARCH, LARCH, "W020"));
        assertEquals(Nets.Kind.SIGNAL, kind(Harness.LARCH, LARCH, "W024"));
        // rail 5VB leaves the control unit by two pins: two pieces of copper, both 5 V
        assertEquals(Set.of(false), Set.of(net("W131").equals(net("W138"))));
        assertEquals(Nets.Kind.RAIL, kind(Harness.LARCH, LARCH, "W143"));
        // grounds: the control unit's, the engine brake's stud through an inline plug and a splice
        assertEquals(Nets.Kind.GROUND, kind(Harness.LARCH, LARCH, "W015"));
        assertEquals(Nets.Kind.GROUND, kind(Harness.LARCH, LARCH, "W250"));
    }

    private static String net(String wire) {
        return LARCH.of(Harness.LARCH.circuit().wires().get(wire));
    }

    private static Nets.Kind kind(Harness h, Nets nets, String wire) {
        return nets.kind(nets.of(h.circuit().wires().get(wire)));
    }
}
