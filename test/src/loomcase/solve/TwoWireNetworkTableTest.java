package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import loomcase.model.Names;
import org.junit.jupiter.api.Test;

/**
 * Two-wire network under every fault of test/data/wiring/can_faults.csv: ohms between the lines with the power off, and
 * whether a talking node is heard.
 *
 * <pre>
 *   unit 120 ═╦═══ a ═══ b ═╦═ 120 far
 *             ╚ node N on a stub
 * </pre>
 *
 * Heard means, by ISO 11898-2 receiver thresholds, at least 0.9 V while the node talks and at most 0.5 V at rest. A
 * direct-current network knows no reflections, so rows that say "errors on a long bus" or "may limp" are compared by
 * ohms only; so is the swapped node, whose effect lies in the frames.
 */
class TwoWireNetworkTableTest {
    private static final double OPEN = 1e9;
    private static final double BIAS_LOAD_OHMS = 0.5;

    private static final class Bus {
        final Map<String, Double> series = new TreeMap<>();
        final Map<String, double[]> bridges = new TreeMap<>();
        double nearOhms = 120;
        double farOhms = 120;
        double thirdOhms = OPEN;
        double nodeSupplyVolts = 12;

        private double in(String wire) {
            return series.getOrDefault(wire, 0.01);
        }

        Netlist net(boolean power, String talker) {
            Netlist net = new Netlist();
            for (String line : List.of("H", "L")) {
                net.resistor("trunk" + line, "unit" + line, "far" + line, in("trunk" + line));
                net.resistor("stub" + line, "unit" + line, "node" + line, in("stub" + line));
            }
            net.resistor("near", "unitH", "unitL", nearOhms);
            net.resistor("far", "farH", "farL", farOhms);
            net.resistor("third", "unitH", "unitL", thirdOhms);
            bridges.forEach((points, fault) -> {
                String[] ends = points.split("-");
                net.source("fault " + points, ends[0], ends[1], fault[0], power ? fault[1] : 0);
            });
            for (String who : List.of("unit", "node", "far")) {
                String supply = who + "P";
                double volts = who.equals("node") ? nodeSupplyVolts : 12;
                net.source("supply " + who, supply, Names.CHASSIS, 0.1, power ? volts : 0);
                int plus = net.node(supply);
                net.add(new Part(
                        "transceiver " + who,
                        Optional.of(new Part.Gate(plus, 0, 8)),
                        Part.Probe.across(plus, 0),
                        new double[0],
                        List.of(DeviceParts.transceiver(
                                net.node(who + "H"), net.node(who + "L"), 0, who.equals(talker)))));
            }
            return net;
        }

        /** Between the lines at the unit, power off; node inputs of 50 kohm each do not count, they are off too. */
        double ohms() {
            Netlist net = net(false, "");
            net.source("meter", "unitH", "unitL", 1000, 1);
            double v = new DirectSolver(net).solve().volts("unitH", "unitL").orElseThrow();
            return 1000 * v / (1 - v);
        }

        boolean heard(String talker, String listener) {
            double talk = difference(talker, listener);
            double rest = difference("", listener);
            return talk >= 0.9 && rest <= 0.5;
        }

        private double difference(String talker, String listener) {
            Solution s = new DirectSolver(net(true, talker)).solve();
            assertTrue(s.settled());
            return s.volts(listener + "H", listener + "L").orElseThrow();
        }
    }

    private static Bus bus(String fault) {
        Bus b = new Bus();
        switch (fault) {
            case "healthy", "H and L swapped at one node" -> {}
            case "one terminator missing" -> b.farOhms = OPEN;
            case "both terminators missing" -> {
                b.farOhms = OPEN;
                b.nearOhms = OPEN;
            }
            case "third terminator added" -> b.thirdOhms = 120;
            case "backbone cut (both wires) mid-bus" -> b.series.putAll(Map.of("trunkH", OPEN, "trunkL", OPEN));
            case "CAN_H open in backbone" -> b.series.put("trunkH", OPEN);
            case "CAN_L open in backbone" -> b.series.put("trunkL", OPEN);
            case "stub wire open" -> b.series.put("stubH", OPEN);
            case "series 60 ohm corrosion in one line near a terminator" -> b.series.put("trunkH", 60.0);
            case "H shorted to L" -> b.bridges.put("unitH-unitL", new double[] {0.5, 0});
            case "H shorted to ground" -> b.bridges.put("unitH-chassis", new double[] {0.5, 0});
            case "L shorted to ground" -> b.bridges.put("unitL-chassis", new double[] {0.5, 0});
            case "H shorted to battery" -> b.bridges.put("unitH-chassis", new double[] {0.5, 12});
            case "L shorted to battery" -> b.bridges.put("unitL-chassis", new double[] {0.5, 12});
            case "node lost power" -> b.nodeSupplyVolts = 0;
            default -> throw new AssertionError("row not covered: " + fault);
        }
        return b;
    }

    @Test
    void ohmsAtTheServicePlug() {
        List<Map<String, String>> rows = Tables.rows("can_faults.csv");
        assertEquals(16, rows.size());
        for (Map<String, String> row : rows) {
            String printed = row.get("ohms_H_L_at_service_plug_power_off");
            double ohms = bus(row.get("fault")).ohms();
            if (printed.startsWith("k-ohm")) assertTrue(ohms > 1000, row + " " + ohms);
            else if (printed.equals("0-2")) assertTrue(ohms >= 0 && ohms <= 2, row + " " + ohms);
            else {
                double expected = Double.parseDouble(printed.replaceAll("^(\\d+).*", "$1"));
                assertEquals(expected, ohms, BIAS_LOAD_OHMS, row.toString());
            }
        }
    }

    @Test
    void nodeIsHeardExactlyWhereTheTableSaysTheBusLives() {
        for (String alive : List.of(
                "healthy",
                "one terminator missing",
                "third terminator added",
                "L shorted to ground",
                "series 60 ohm corrosion in one line near a terminator"))
            assertTrue(bus(alive).heard("node", "unit") && bus(alive).heard("far", "unit"), alive);
        for (String dead : List.of("H shorted to L", "H shorted to ground", "L shorted to battery"))
            assertTrue(!bus(dead).heard("node", "unit") && !bus(dead).heard("far", "unit"), dead);
        for (String across :
                List.of("backbone cut (both wires) mid-bus", "CAN_H open in backbone", "CAN_L open in backbone"))
            assertTrue(bus(across).heard("node", "unit") && !bus(across).heard("far", "unit"), across);
        for (String silent : List.of("stub wire open", "node lost power"))
            assertTrue(!bus(silent).heard("node", "unit") && bus(silent).heard("far", "unit"), silent);
    }

    /** Levels of ISO 11898-2 (can_values of the reference): dominant 3.5 V and 1.5 V, recessive 2.5 V, nominal. */
    @Test
    void nominalLevels() {
        Bus bus = bus("healthy");
        Solution talk = new DirectSolver(bus.net(true, "node")).solve();
        assertEquals(3.5, talk.volts("unitH").orElseThrow(), 0.1);
        assertEquals(1.5, talk.volts("unitL").orElseThrow(), 0.1);
        Solution rest = new DirectSolver(bus.net(true, "")).solve();
        assertEquals(2.5, rest.volts("unitH").orElseThrow(), 0.01);
    }
}
