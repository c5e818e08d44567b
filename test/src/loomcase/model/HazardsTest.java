package loomcase.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.predict.CircuitFacts;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Each device's hazards against what stands behind the SPN that watches it (SAE J1939 names of SPNs, from memory) and the
 * schema's meaning of each word.
 */
class HazardsTest {
    /** SPNs of injectors 1 to 6: the only loads fed by a boosted driver. */
    private static final Set<Integer> INJECTORS = Set.of(651, 652, 653, 654, 655, 656);

    /** SPNs whose part sits in, or opens, a fuel line or tank. */
    private static final Set<Integer> FUEL = Set.of(94, 96, 97, 157, 174, 1347, 651, 652, 653, 654, 655, 656);

    /** Coolant temperature and level. */
    private static final Set<Integer> COOLANT = Set.of(110, 111);

    /** Beside a fan, shaft or flywheel, or itself motor-driven: valves, turbo actuator, speed pick-ups, starter relay. */
    private static final Set<Integer> MOVING = Set.of(27, 51, 190, 191, 641, 647, 677, 723, 1639);

    /** Charge air and air inlet: pressure and temperature, no hazard word of their own. */
    private static final Set<Integer> AIR = Set.of(102, 105, 1176, 2630);

    private static Set<String> having(Circuit circuit, String hazard) {
        return circuit.devices().values().stream()
                .filter(d -> d.hazards().contains(hazard))
                .map(Device::id)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static Set<String> watchedBy(Circuit circuit, Set<Integer> spns) {
        return circuit.watches().stream()
                .filter(w -> spns.contains(w.spn()) && !w.device().isEmpty())
                .map(Watch::device)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static Set<String> ofKind(Circuit circuit, String... words) {
        return circuit.devices().values().stream()
                .filter(d -> List.of(words).contains(d.nature().word()))
                .map(Device::id)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static Circuit shipped(String name) {
        return CircuitReader.read(Path.of("circuits", name));
    }

    @ParameterizedTest
    @ValueSource(strings = {"teaching.json", "larch-13.json"})
    void boostedFuelAndCoolantAreWhereTheSpnSaysAndNowhereElse(String name) {
        Circuit circuit = shipped(name);
        assertEquals(watchedBy(circuit, INJECTORS), having(circuit, "boosted"));
        assertEquals(ofKind(circuit, "injector"), having(circuit, "boosted"));
        assertEquals(watchedBy(circuit, COOLANT), having(circuit, "coolant"));
        Set<String> fuel = having(circuit, "fuel");
        // the lift pump's code watches its relay; the motor itself is the only load of kind motor
        fuel.removeAll(ofKind(circuit, "motor"));
        assertEquals(watchedBy(circuit, FUEL), fuel);
    }

    @ParameterizedTest
    @ValueSource(strings = {"teaching.json", "larch-13.json"})
    void whatMovesSaysSo(String name) {
        Circuit circuit = shipped(name);
        Set<String> moving = having(circuit, "moving");
        assertTrue(moving.containsAll(watchedBy(circuit, MOVING)), moving.toString());
        assertTrue(moving.containsAll(ofKind(circuit, "motor-with-position")), moving.toString());
        assertTrue(having(circuit, "battery").containsAll(ofKind(circuit, "battery", "relay")));
    }

    /** Along their whole way, read by hand from the circuit file: control unit plug, valve cover plugs, their branches. */
    @Test
    void whereInjectorWiresPassThroughTheVoltageIsToldAndElsewhereItIsNot() {
        Circuit circuit = shipped("larch-13.json");
        TreeSet<String> told =
                Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit)).cautions().stream()
                        .filter(c -> c.rule().equals("Injector wires pass through"))
                        .map(c -> c.placeId())
                        .collect(Collectors.toCollection(TreeSet::new));
        assertEquals(
                new TreeSet<>(
                        List.of("J2", "XFa", "XFb", "XRa", "XRb", "BE1", "BE2", "BE7", "BE14", "BE15", "BE16", "BE17")),
                told);
    }

    /** A stud is loosened with the battery's negative off; studs and fuses on hot parts are warned of like what is beside them. */
    @Test
    void groundStudsAndFusesHaveCautionsToo() {
        Circuit circuit = shipped("larch-13.json");
        Map<String, Set<String>> rules =
                Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit)).cautions().stream()
                        .collect(Collectors.groupingBy(
                                c -> c.placeId(), Collectors.mapping(c -> c.rule(), Collectors.toSet())));
        for (String stud : circuit.grounds().keySet())
            assertTrue(rules.getOrDefault(stud, Set.of()).contains("Battery and starter cables are not fused"), stud);
        for (String fuse : circuit.fuses().keySet())
            assertTrue(rules.getOrDefault(fuse, Set.of()).contains("Never measure ohms on a live circuit"), fuse);
    }

    @Test
    void chargeAirSensorsAreNotWarnedOfInjectorVoltageButInjectorsAre() {
        Circuit circuit = shipped("larch-13.json");
        Map<String, String> cautions =
                Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit)).cautions().stream()
                        .collect(Collectors.toMap(
                                c -> c.placeId(), c -> c.text(), (a, b) -> a + "\n" + b, java.util.TreeMap::new));
        assertEquals(4, watchedBy(circuit, AIR).size());
        for (String air : watchedBy(circuit, AIR)) {
            for (String place : List.of(air, "C-" + air)) {
                String told = cautions.get(place);
                assertTrue(!told.contains("Boosted") && told.contains("Hot parts"), place + ": " + told);
            }
        }
        for (String injector : watchedBy(circuit, INJECTORS))
            for (String place : List.of(injector, "C-" + injector))
                assertTrue(cautions.get(place).contains("Boosted"), place);
    }
}
