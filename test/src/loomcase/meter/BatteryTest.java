package loomcase.meter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Stream;
import loomcase.demo.Harness;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;
import org.junit.jupiter.api.Test;

/**
 * A battery at its posts, on the reference harness of 12 V.
 *
 * <p>How far it is charged by its voltage at rest: US Army TM 5-3805-262-20, batteries and cables, voltage test. A cell of lead
 * and acid has about 2 V: US DOE-HDBK-1084-95. Least voltage under load and voltage while it is charged: common practice, no
 * source.
 */
class BatteryTest {
    private static final Harness H = Harness.LARCH;
    private static final Larch LARCH = new Larch();
    private static final String POST = "C-BAT/1";
    private static final String WORN = "worn BAT worn out, sags under load";
    private static final String EMPTY = "empty BAT discharged";
    private static final String CELL = "cell BAT one cell dead";

    /** Percent of charge by volts from which on. */
    private static final TreeMap<Double, Integer> CHARGE =
            new TreeMap<>(Map.of(0.0, 0, 11.8, 0, 12.0, 25, 12.2, 50, 12.4, 75, 12.6, 100));

    private static final double LEAST_UNDER_LOAD = 9.6;

    private static double volts(Setup setup, Edit... edits) {
        return LARCH.mean(new loomcase.meter.Test.Volts(POST, Names.CHASSIS, setup), edits);
    }

    private static Edit[] bad(String fault, Edit... more) {
        return Stream.concat(H.edits("device.battery." + fault).stream(), Stream.of(more))
                .toArray(Edit[]::new);
    }

    private static int charge(double volts) {
        return CHARGE.floorEntry(volts).getValue();
    }

    @Test
    void atRestItsVoltageTellsItsCharge() {
        Setup off = Setup.off();
        assertEquals(75, charge(volts(off)));
        assertEquals(75, charge(volts(off, bad(WORN))));
        assertEquals(0, charge(volts(off, bad(EMPTY))));
        double cell = volts(off) - volts(off, bad(CELL));
        assertTrue(cell > 1.9 && cell < 2.2, cell + " V less with a dead cell");
    }

    /** A load tester that draws some 200 A. */
    @Test
    void underLoadAWornOneSags() {
        Edit load = new Edit.Bridge(POST, Names.CHASSIS, 0.05);
        assertTrue(volts(Setup.off(), load) > LEAST_UNDER_LOAD);
        for (String fault : List.of(WORN, EMPTY, CELL)) {
            double sags = volts(Setup.off(), bad(fault, load));
            assertTrue(sags < LEAST_UNDER_LOAD, fault + ": " + sags + " V");
        }
    }

    /** While the engine runs the harness has the charging system's voltage, whatever the battery is like. */
    @Test
    void chargingHidesABadBattery() {
        Setup idle = Setup.on("idle-warm", "rest");
        double healthy = volts(idle);
        assertTrue(healthy > 13.5 && healthy < 14.8, healthy + " V");
        for (String fault : List.of(WORN, EMPTY, CELL)) assertEquals(healthy, volts(idle, bad(fault)), 1e-9, fault);
        double notCharged =
                volts(idle, H.edits("condition.engine BAT not-charged").toArray(Edit[]::new));
        assertTrue(notCharged < 12.6, notCharged + " V");
    }

    /** With everything unplugged no current flows, so the posts show the voltage itself: 9 V when it may be no more, never more. */
    @Test
    void aLimitOnItsVoltageNeverRaisesIt() {
        NetworkSolver solver = new NetworkSolver(H.circuit(), H.layout());
        for (double limit : new double[] {9, 20}) {
            Solution s = solver.at("key-on", "rest")
                    .solve(List.of(
                            new Edit.Series(Names.contact(POST), Edit.OPEN_OHMS),
                            new Edit.Value("BAT", Edit.Quantity.RESTING_VOLTS, limit)));
            assertEquals(Math.min(limit, 12.5), s.volts(Names.mating(POST)).orElseThrow(), 1e-3);
        }
    }

    /** An ohmmeter measures on a battery taken off; how good that battery is changes nothing. */
    @Test
    void aBatteryTakenOffIsInNoReading() {
        NetworkSolver.Instant off = new NetworkSolver(H.circuit(), H.layout()).keyOff(false, OptionalDouble.empty());
        Edit meter = new Edit.Source(POST, Names.CHASSIS, 1, 1000);
        double healthy = off.solve(List.of(meter)).volts(POST).orElseThrow();
        assertTrue(healthy > 0.01, "a battery would short the meter: " + healthy);
        for (String fault : List.of(WORN, EMPTY, CELL))
            assertEquals(
                    healthy, off.solve(List.of(bad(fault, meter))).volts(POST).orElseThrow(), 1e-9, fault);
    }
}
