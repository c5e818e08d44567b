package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import loomcase.model.Edit;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

/**
 * Networks that are hardly networks any more, on the teaching harness, at key on: 12.5 V, rail 5 V limited to 0.15 A,
 * thermistor on a 1 kohm pull-up, fan clutch of 10 ohm. Expected values are worked out by hand beside each.
 */
class BrokenNetworkTest {
    private final RandomEdits draw = new RandomEdits(RandomEdits.circuit("teaching"), 1);
    private final NetworkSolver solver = new NetworkSolver(draw.circuit, draw.layout);

    private Solution solve(Edit... edits) {
        return solve(List.of(edits));
    }

    private Solution solve(List<Edit> edits) {
        Solution s = solver.at("key-on", "rest").solve(edits);
        assertTrue(s.settled());
        return s;
    }

    private static Edit open(String element) {
        return new Edit.Series(element, Edit.OPEN_OHMS);
    }

    private static double pin(Solution s, String cavity) {
        return s.pinVolts("ECM", cavity).orElseThrow();
    }

    @Test
    void everythingUnplugged() {
        List<Edit> all = new ArrayList<>();
        Netlist net = solver.at("key-on", "rest").healthy().net();
        for (Netlist.Element e : net.elements()) if (e.name().startsWith("contact:")) all.add(open(e.name()));
        Solution s = solve(all);
        // Open contacts of 1e9 ohm feed a unit that loads with 12 ohm: nothing anywhere but the battery post itself.
        assertEquals(12.5, s.volts("CB/1~").orElseThrow(), 1e-3);
        // The rail is off and hangs on its leak alone, so against the floating unit's ground it has no level of its
        // own.
        for (String cavity : List.of("J1/1", "J1/7", "J1/8")) assertEquals(0, pin(s, cavity), 1e-3, cavity);
    }

    @Test
    void allSensorPlugsUnplugged() {
        Solution s = solve(
                open("contact:C1/1"),
                open("contact:C1/2"),
                open("contact:C2/1"),
                open("contact:C2/2"),
                open("contact:C2/3"),
                open("contact:C3/1"),
                open("contact:C3/2"),
                open("contact:C3/3"));
        assertEquals(5, pin(s, "J1/6"), 1e-3, "pull-up alone");
        assertEquals(0, pin(s, "J1/7"), 1e-3, "pull-down alone");
        assertEquals(0, pin(s, "J1/8"), 1e-3, "pull-down alone");
        assertEquals(5, pin(s, "J1/3"), 1e-3, "unloaded rail regulates");
    }

    /** Without its feed nothing inside the unit has a voltage: Kirchhoff leaves none in the thermistor's circuit either. */
    @Test
    void unitWithoutItsFeedPullsNoInputUp() {
        assertTrue(pin(solve(), "J1/6") > 1, "the thermistor is pulled up in a healthy engine");
        Solution s = solve(open("contact:J1/1"));
        assertEquals(0, s.supplyVolts("ECM"), 1e-3);
        for (String cavity : List.of("J1/3", "J1/6")) assertEquals(0, pin(s, cavity), 1e-3, cavity);
    }

    /** The pull-ups of a unit that is off still lead to its ground: a foreign voltage on one of them is drained. */
    @Test
    void unitWithoutItsFeedDrainsAForeignVoltage() {
        // 1.2 V from outside through 1 kohm into the pull-up of 1 kohm and the 1 kohm of the unit that is off: 0.8 V.
        Solution s = solve(
                open("contact:J1/1"),
                open("contact:C1/1"),
                open("contact:C1/2"),
                new Edit.Source("J1/6", Names.CHASSIS, 1.2, 1000));
        assertEquals(0.8, s.volts("J1/6").orElseThrow(), 2e-3);
    }

    /** Wires of a sensor cut at both ends: the island floats on its leaks and the open ends, and stays finite. */
    @Test
    void floatingIsland() {
        Solution s = solve(open("wire:W6"), open("wire:W9"), open("wire:W13"));
        double island = s.volts("C3/1").orElseThrow();
        assertTrue(island >= 0 && island <= 12.5, "island at " + island);
        assertEquals(0, pin(s, "J1/8"), 1e-3);
        assertEquals(
                solver.at("key-on", "rest").healthy().volts("C2/3").orElseThrow(),
                s.volts("C2/3").orElseThrow(),
                2e-3);
    }

    /** 0.15 A into 0.5 ohm beside the sensors: 0.075 V, and both sensors are below their 3.5 V. */
    @Test
    void shortedRail() {
        Solution s = solve(new Edit.Bridge("S1", Names.CHASSIS, 0.5));
        assertEquals(0.075, s.volts("S1").orElseThrow(), 2e-3);
        assertEquals(0, pin(s, "J1/7"), 0.01);
        assertEquals(3.65, pin(s, "J1/6"), 0.1, "thermistor keeps its own pull-up");
    }

    /** Two shorts share 0.15 A: 0.5 and 1 ohm in parallel give 0.05 V. */
    @Test
    void twoShortsOnOneRail() {
        Solution s = solve(new Edit.Bridge("C2/1", Names.CHASSIS, 0.5), new Edit.Bridge("C3/1", Names.CHASSIS, 1));
        double total = s.volts("C2/1").orElseThrow() / 0.5 + s.volts("C3/1").orElseThrow() / 1;
        assertEquals(0.15, total, 2e-3, "the limit current, whole");
        assertEquals(0.05, s.volts("S1").orElseThrow(), 4e-3);
    }

    /** The signal wire on battery through half an ohm: 12.5 V less the clamp's share, (12.5 - 5.7) / 10.5 ohm. */
    @Test
    void signalShortedToBattery() {
        Solution s = solve(new Edit.Bridge("J1/8~", "CB/1~", 0.5));
        assertEquals(12.5 - 0.5 * (12.5 - 5.7) / 10.5, pin(s, "J1/8"), 0.15);
        assertEquals(5, pin(s, "J1/3"), 0.05, "the rail regulates on");
    }

    /**
     * An unplugged input of 100 kohm fed from the battery: through 130 kohm it stands at 12.5 V · 100/230, below its clamp
     * of 5.7 V; through 50 kohm the clamp of 10 ohm holds it at (12.5/50k + 5.7/10) / (1/50k + 1/100k + 1/10).
     */
    @Test
    void clampHoldsOnlyAboveItsVoltage() {
        Edit unplugged = open("contact:J1/7");
        Solution below = solve(unplugged, new Edit.Bridge("J1/7~", "CB/1~", 130_000));
        assertEquals(12.5 * 100 / 230, below.volts("J1/7~").orElseThrow(), 0.01);
        Solution above = solve(unplugged, new Edit.Bridge("J1/7~", "CB/1~", 50_000));
        double clamped = (12.5 / 50_000 + 5.7 / 10) / (1.0 / 50_000 + 1.0 / 100_000 + 1.0 / 10);
        assertEquals(clamped, pin(above, "J1/7"), 2e-4);
    }

    /** Battery post shorted by half an ohm: 12.5 V over 8 mohm and 0.5 ohm; upstream of the fuse, so it stays. */
    @Test
    void shortedBattery() {
        Solution s = solve(new Edit.Bridge("CB/1~", Names.CHASSIS, 0.5));
        assertEquals(12.5 * 0.5 / 0.508, s.volts("CB/1~").orElseThrow(), 0.02);
        assertEquals(List.of(), s.openedFuses());
    }

    /** Behind the fuse of 10 A (opens above 13.5 A): 12.5 V / 0.52 ohm is 24 A, so it opens and all behind it is dead. */
    @Test
    void shortBehindTheFuseOpensIt() {
        Solution s = solve(new Edit.Bridge("F1/out", Names.CHASSIS, 0.5));
        assertEquals(List.of("fuse:F1"), s.openedFuses());
        assertEquals(0, s.volts("F1/out").orElseThrow(), 1e-3);
        assertEquals(12.5, s.volts("CB/1~").orElseThrow(), 1e-3);
        assertEquals(0, pin(s, "J1/3"), 1e-3, "the unit is off");
    }

    @Test
    void deckSaysWhichFuseIsOpenAndWhatWasDone() {
        String deck = solver.at("key-on", "rest").spiceDeck(List.of(new Edit.Bridge("F1/out", Names.CHASSIS, 0.5)));
        assertTrue(deck.contains("* Open fuses, found by Loomcase and not by this deck: [fuse:F1]"), deck);
        assertTrue(deck.contains("* Edit: Bridge[pointA=F1/out, pointB=chassis, ohms=0.5]"), deck);
        assertTrue(deck.contains(" = F1/out\n"), "node names are mapped");
    }

    @Test
    void editOfWhatIsNotThereChangesNothingOrSaysSo() {
        double before = pin(solver.at("key-on", "rest").healthy(), "J1/6");
        assertEquals(before, pin(solve(open("wire:NONE"), new Edit.Dead("NONE")), "J1/6"), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> solve(new Edit.Value("NONE", Edit.Quantity.OHMS, 1)));
    }
}
