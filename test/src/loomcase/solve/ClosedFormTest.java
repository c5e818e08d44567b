package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

/**
 * Circuits with an answer in closed form; formula and figure of each from the project reference diagnosis/mna_vectors.md
 * unless another source is named.
 */
class ClosedFormTest {
    /** The reference prints six decimals; every node of ours also leaks through 1e9 ohm. */
    private static final double VOLTS = 5e-6;

    private static final String GND = Names.CHASSIS;

    private static double volts(Netlist net, String point) {
        Solution s = new DirectSolver(net).solve();
        assertTrue(s.settled());
        return s.volts(point).orElseThrow();
    }

    private static Netlist thermistor(double returnOhms) {
        Netlist net = new Netlist();
        net.source("pull-up", "pin", GND, 1000, 5);
        net.resistor("ntc", "pin", "return", 2205);
        net.resistor("return", "return", GND, returnOhms);
        return net;
    }

    @Test
    void thermistorDivider() {
        assertEquals(3.439938, volts(thermistor(1e-6), "pin"), VOLTS);
    }

    @Test
    void thermistorWithResistanceInItsReturn() {
        assertEquals(3.463902, volts(thermistor(50), "pin"), VOLTS);
    }

    @Test
    void thermistorWithLeakFromItsPin() {
        Netlist net = thermistor(1e-6);
        net.resistor("leak", "pin", GND, 10_000);
        assertEquals(3.218508, volts(net, "pin"), VOLTS);
    }

    /**
     * <pre>
     *        12 V
     *    100 |  | 120
     *   left o  o right
     *    350 |  | 220
     *        gnd
     * </pre>
     */
    @Test
    void openBridge() {
        Netlist net = new Netlist();
        net.source("supply", "top", GND, 1e-6, 12);
        net.resistor("a", "top", "left", 100);
        net.resistor("b", "left", GND, 350);
        net.resistor("c", "top", "right", 120);
        net.resistor("d", "right", GND, 220);
        Solution s = new DirectSolver(net).solve();
        assertEquals(1.568627, s.volts("left", "right").orElseThrow(), VOLTS);
    }

    /** Input resistance of a ladder of n unit sections is F(2n+1)/F(2n). */
    @Test
    void ladderGivesFibonacciRatios() {
        for (int n : new int[] {1, 2, 3, 4, 8, 15, 30}) {
            Netlist net = new Netlist();
            net.source("meter", "p0", GND, 1, 1);
            for (int i = 0; i < n; i++) {
                net.resistor("series" + i, "p" + i, "p" + (i + 1), 1);
                net.resistor("shunt" + i, "p" + (i + 1), GND, 1);
            }
            double v = volts(net, "p0");
            assertEquals(fibonacci(2 * n + 1) / fibonacci(2 * n), v / (1 - v), 1e-7, "n = " + n);
        }
    }

    private static double fibonacci(int n) {
        double a = 0;
        double b = 1;
        for (int i = 0; i < n; i++) {
            double next = a + b;
            a = b;
            b = next;
        }
        return a;
    }

    @Test
    void terminatorsOfTwoWireNetwork() {
        assertEquals(60, between(120, 120), 1e-4);
        assertEquals(120, between(120), 1e-4);
        assertEquals(40, between(120, 120, 120), 1e-4);
    }

    private static double between(double... ohms) {
        Netlist net = new Netlist();
        net.source("meter", "high", "low", 100, 1);
        for (int i = 0; i < ohms.length; i++) net.resistor("t" + i, "high", "low", ohms[i]);
        double v = new DirectSolver(net).solve().volts("high", "low").orElseThrow();
        return 100 * v / (1 - v);
    }

    @Test
    void sixtyOhmsInOneLineSeenFromTheFarEnd() {
        Netlist net = new Netlist();
        net.source("meter", "high", "low", 100, 1);
        net.resistor("near", "high", "low", 120);
        net.resistor("corroded", "high", "high2", 60);
        net.resistor("far", "high2", "low", 120);
        double v = new DirectSolver(net).solve().volts("high", "low").orElseThrow();
        assertEquals(72.000000, 100 * v / (1 - v), 1e-4);
    }

    /** A rail as {@link ControlUnitParts} builds it, here with an output resistance near zero. */
    private static Netlist rail(double limitAmperes) {
        Netlist net = new Netlist();
        int rail = net.node("rail");
        double ohms = 1e-6;
        net.add(new Part(
                "rail",
                Optional.empty(),
                Part.Probe.across(rail, 0),
                new double[] {5 - ohms * limitAmperes, 5},
                List.of(
                        List.of(new Stamp(rail, 0, 0, 0, 0, -limitAmperes)),
                        List.of(Stamp.branch(rail, 0, 1 / ohms, 5)),
                        List.of())));
        return net;
    }

    @Test
    void limitedRail() {
        for (double[] c : new double[][] {{2, 0.200000}, {100, 5}, {40, 4.000000}}) {
            Netlist net = rail(0.1);
            net.resistor("load", "rail", GND, c[0]);
            assertEquals(c[1], volts(net, "rail"), VOLTS, c[0] + " ohm");
        }
    }

    /** Two shorts on one rail share its limit current: 0.1 A into 2 and 3 ohm in parallel (derived). */
    @Test
    void twoShortsOnOneRail() {
        Netlist net = rail(0.1);
        net.resistor("short1", "rail", GND, 2);
        net.resistor("short2", "rail", GND, 3);
        assertEquals(0.12, volts(net, "rail"), VOLTS);
    }

    @Test
    void unloadedRailStandsAtItsVoltage() {
        assertEquals(5, volts(rail(0.1), "rail"), VOLTS);
    }

    private static Netlist shortedInput() {
        Netlist net = new Netlist();
        net.source("pull-up", "pin", GND, 51_000, 5);
        net.resistor("pull-down", "pin", GND, 100_000);
        net.source("short", "pin", GND, 200, 12.6);
        return net;
    }

    @Test
    void inputShortedToBatteryWithoutClamp() {
        assertEquals(12.545320, volts(shortedInput(), "pin"), 2e-5);
    }

    /** 5.7 V clamp behind 1 ohm; the leak of 1e9 ohm is below the figure's last digit. */
    @Test
    void inputShortedToBatteryWithClamp() {
        Netlist net = shortedInput();
        int pin = net.node("pin");
        net.add(new Part(
                "clamp",
                Optional.empty(),
                Part.Probe.across(pin, 0),
                new double[] {-0.6, 5.7},
                List.of(List.of(Stamp.branch(pin, 0, 1, -0.6)), List.of(), List.of(Stamp.branch(pin, 0, 1, 5.7)))));
        assertEquals(5.734257, volts(net, "pin"), VOLTS);
    }
}
