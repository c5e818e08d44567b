package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;

class CatalogueTest {
    private static final Larch LARCH = new Larch();
    private static final Catalogue CATALOGUE = new Catalogue(LARCH.circuit, LARCH.layout);

    private static List<loomcase.meter.Test> near(PlaceId... places) {
        return CATALOGUE.of(List.of(places));
    }

    private static Set<String> rows(List<loomcase.meter.Test> tests) {
        return tests.stream().map(t -> CATALOGUE.facts(t).row()).collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void aSuspectedThermistorWireGetsEveryKindOfTestThatFits() {
        assertEquals(
                Set.of("M02", "M03", "M04", "M05", "M08", "M09", "M10", "M11", "M12", "M21", "M24"),
                rows(near(Larch.wire("W208"))));
    }

    @Test
    void aSuspectedSensorWithSupplyAlsoGetsItsSupplyAndTheJumperFromIt() {
        Set<String> rows = rows(near(new PlaceId(PlaceId.Kind.DEVICE, "OPS")));
        assertTrue(rows.containsAll(Set.of("M04", "M06", "M07", "M08")), rows.toString());
    }

    @Test
    void aSuspectedConditionOfTheEngineGetsAGauge() {
        assertEquals(
                List.of("gauge OPS"),
                near(new PlaceId(PlaceId.Kind.ENGINE, "oil-lost")).stream()
                        .map(loomcase.meter.Test::id)
                        .toList());
    }

    @Test
    void aSuspectedNodeGetsTheNetworkTests() {
        Set<String> rows = rows(near(new PlaceId(PlaceId.Kind.DEVICE, "VGT")));
        assertTrue(rows.containsAll(Set.of("M17", "M18", "M19", "M13")), rows.toString());
    }

    @Test
    void aSuspectedSupplySpliceHasEachOfItsPartsUnplugged() {
        Set<String> unplugged = near(new PlaceId(PlaceId.Kind.SPLICE, "S5A")).stream()
                .filter(t -> t instanceof loomcase.meter.Test.UnplugAndWatch)
                .map(t -> ((loomcase.meter.Test.UnplugAndWatch) t).connector())
                .collect(Collectors.toSet());
        assertEquals(Set.of("C-FRP", "C-FDP", "C-OPS", "C-CCP", "C-OLV"), unplugged);
    }

    @Test
    void aGroundPathGetsADropUnderLoad() {
        assertTrue(rows(near(Larch.wire("W018"))).contains("M26"));
    }

    @Test
    void minutesAreThoseOfTheList() {
        for (loomcase.meter.Test t : near(Larch.wire("W208"), new PlaceId(PlaceId.Kind.DEVICE, "VGT"))) {
            TestFacts f = CATALOGUE.facts(t);
            assertEquals(
                    Double.parseDouble(
                            Table.row("measurements.csv", "id", f.row()).get("minutes_typ")),
                    f.minutes(),
                    t.id());
        }
    }

    @Test
    void everyListedTestOfTheWholeHarnessIsSafeNamedOnceAndPredictable() {
        List<PlaceId> all = new ArrayList<>();
        LARCH.circuit.wires().keySet().forEach(w -> all.add(Larch.wire(w)));
        LARCH.circuit.splices().keySet().forEach(s -> all.add(new PlaceId(PlaceId.Kind.SPLICE, s)));
        LARCH.circuit.devices().values().forEach(d -> all.add(d.place()));
        LARCH.circuit.connectors().keySet().forEach(c -> all.add(new PlaceId(PlaceId.Kind.CONNECTOR, c)));
        LARCH.circuit.fuses().keySet().forEach(c -> all.add(new PlaceId(PlaceId.Kind.FUSE, c)));
        LARCH.circuit.grounds().keySet().forEach(c -> all.add(new PlaceId(PlaceId.Kind.GROUND, c)));
        all.add(LARCH.circuit.controlUnit().place());
        List<loomcase.meter.Test> tests = CATALOGUE.of(all);
        assertTrue(tests.size() < 12 * all.size(), tests.size() + " tests for " + all.size() + " places");
        Set<String> ids = new HashSet<>();
        Set<Harm> never = EnumSet.of(
                Harm.OHMS_ON_LIVE_CIRCUIT, Harm.JUMPER_ON_DRIVER, Harm.JUMPER_ON_INJECTOR, Harm.JUMPER_ON_SUPPLY);
        int step = 0;
        for (loomcase.meter.Test t : tests) {
            assertTrue(ids.add(t.id()), t.id());
            TestFacts f = CATALOGUE.facts(t);
            assertTrue(f.harms().stream().noneMatch(never::contains), t.id() + " " + f.harms());
            assertFalse(f.places().isEmpty(), t.id());
            if (step++ % 5 == 0) LARCH.meter.predict(t, Subject.NOTHING);
        }
    }

    @Test
    void listingIsTheSameEachTime() {
        assertEquals(
                near(Larch.wire("W208")), new Catalogue(LARCH.circuit, LARCH.layout).of(List.of(Larch.wire("W208"))));
    }

    @Test
    void harmsAreSeenInTestsThatNobodyListed() {
        Setup key = LARCH.rest;
        assertEquals(Set.of(Harm.OHMS_ON_LIVE_CIRCUIT), harms(new loomcase.meter.Test.Ohms("C-ECT/1", "C-ECT/2", key)));
        assertEquals(
                Set.of(Harm.OHMS_ON_LIVE_CIRCUIT),
                harms(new loomcase.meter.Test.Ohms("C-ECT/1", "C-ECT/2", Setup.off())));
        assertEquals(Set.of(), harms(new loomcase.meter.Test.Ohms("C-ECT/1", "C-ECT/2", Setup.batteryOff())));
        assertTrue(harms(jumper("C-INJ1", "C-INJ1/1", "C-INJ1/2"))
                .containsAll(Set.of(Harm.JUMPER_ON_DRIVER, Harm.JUMPER_ON_INJECTOR)));
        assertEquals(Set.of(Harm.JUMPER_ON_SUPPLY), harms(jumper("C-OPS", "C-OPS/1", "C-OPS/3")));
        assertEquals(
                Set.of(Harm.PROBES_FEMALE_CAVITY),
                harms(new loomcase.meter.Test.Volts("C-ECT/1", Names.CHASSIS, key.unplug(List.of("C-ECT")))));
        assertEquals(
                Set.of(Harm.BOOSTED_VOLTAGE, Harm.MOVING_PARTS),
                harms(new loomcase.meter.Test.Volts("C-INJ1/1", Names.CHASSIS, Setup.on("idle-warm", "rest"))));
    }

    private static Set<Harm> harms(loomcase.meter.Test t) {
        return CATALOGUE.facts(t).harms();
    }

    private static loomcase.meter.Test jumper(String plug, String a, String b) {
        return new loomcase.meter.Test.JumperAndWatch(plug, a, b, 0.1, List.of(new Code(110, 3)), "key-on");
    }

    @Test
    void aPointThatTheCircuitLacksIsNamed() {
        InputProblem p = assertThrows(
                InputProblem.class,
                () -> LARCH.meter.predict(
                        new loomcase.meter.Test.Volts("C-ECT/9", Names.CHASSIS, LARCH.rest), Subject.NOTHING));
        assertTrue(p.getMessage().contains("'C-ECT/9'"), p.getMessage());
    }

    @Test
    void anOperatingPointOrPlugThatTheCircuitLacksIsNamed() {
        InputProblem point = assertThrows(
                InputProblem.class,
                () -> LARCH.meter.predict(
                        new loomcase.meter.Test.Volts("C-ECT/1", Names.CHASSIS, Setup.on("moon", "rest")),
                        Subject.NOTHING));
        assertEquals(
                "the circuit has no operating point 'moon'; it has key-on, idle-warm, loaded-hot", point.getMessage());
        InputProblem plug = assertThrows(
                InputProblem.class,
                () -> LARCH.meter.predict(
                        new loomcase.meter.Test.Volts("C-ECT/1", Names.CHASSIS, LARCH.rest.unplug(List.of("C-NONE"))),
                        Subject.NOTHING));
        assertEquals("circuit larch-13 has no connector 'C-NONE'", plug.getMessage());
    }
}
