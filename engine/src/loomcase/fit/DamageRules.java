package loomcase.fit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import loomcase.model.Circuit;
import loomcase.model.ControlUnit;
import loomcase.model.Copper;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.Wire;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * What a solved network may damage: voltages and currents beyond what a pin, a sensor, a wire or a fuse is meant for.
 *
 * <p>Limits of parts are judgement, since no circuit file states them: a rail fed more than {@value #ABOVE_RAIL_VOLTS} V above
 * its voltage; {@value #CLAMP_AMPERES} A through a pin's protection; {@value #RETURN_AMPERES} A through a sensor return; a
 * driver in its current limit; a sensor with {@value #ABOVE_SENSOR_VOLTS} V more than its rail, or reversed. Wires: FAA AC
 * 43.13-1B, see {@link Ampacity}. Boosted voltage is no part of the network, so it is told from the circuit alone.
 */
final class DamageRules {
    static final double ABOVE_RAIL_VOLTS = 0.5;
    static final double CLAMP_AMPERES = 0.02;
    static final double RETURN_AMPERES = 1;
    static final double ABOVE_SENSOR_VOLTS = 1.5;
    private static final double REVERSED_VOLTS = -0.7;
    private static final double AT_LIMIT = 0.99;

    /** A wire counts as overloaded by the slip when it carries this many times what it carries in a healthy engine. */
    private static final double CLEARLY_MORE = 1.2;

    private final Circuit circuit;
    private final double mostRailVolts;
    private final Map<String, Double> ampacity = new LinkedHashMap<>();

    DamageRules(Circuit circuit) {
        this.circuit = circuit;
        this.mostRailVolts = circuit.controlUnit().rails().values().stream()
                .mapToDouble(ControlUnit.Rail::volts)
                .max()
                .orElse(5);
        for (Wire w : circuit.wires().values()) ampacity.put(w.id(), Ampacity.amperes(w.size()));
    }

    /** True when the control unit has less than the supply it needs. */
    boolean unitDead(Solution s) {
        return s.supplyVolts(circuit.controlUnit().id()) < circuit.controlUnit().minimumSupplyVolts();
    }

    /** Amperes through each wire, by id. */
    Map<String, Double> amperes(Solution s) {
        Map<String, Double> out = new HashMap<>();
        for (String wire : ampacity.keySet())
            out.put(wire, Math.abs(s.amperes(Names.wire(wire)).orElse(0)));
        return out;
    }

    /**
     * What may be damaged at one instant, by what it is, so that what a healthy engine shows can be taken away.
     *
     * @param healthy amperes of the healthy engine at that instant
     */
    Map<String, String> at(NetworkSolver.Instant instant, Solution s, Map<String, Double> healthy) {
        Map<String, String> out = new LinkedHashMap<>();
        int ground =
                instant.node(Names.inside(circuit.controlUnit().id(), "ground")).orElseThrow();
        for (ControlUnit.Pin p : circuit.controlUnit().pins().values()) pin(p, instant, s, s.at(ground), out);
        for (Device d : circuit.devices().values()) device(d, instant, s, out);
        for (String f : s.openedFuses()) out.put(f, "fuse " + f.substring(f.indexOf(':') + 1) + " blows");
        ampacity.forEach((wire, most) -> {
            double amperes = Math.abs(s.amperes(Names.wire(wire)).orElse(0));
            if (amperes > most && amperes > CLEARLY_MORE * healthy.get(wire))
                out.put(
                        "wire " + wire,
                        format("wire %s may overheat: %.1f A, good for %.1f A in a bundle", wire, amperes, most));
        });
        return out;
    }

    private void pin(
            ControlUnit.Pin p, NetworkSolver.Instant instant, Solution s, double ground, Map<String, String> out) {
        OptionalInt node = instant.node(Names.mating(p.cavity()));
        if (node.isEmpty()) return;
        double volts = s.at(node.getAsInt()) - ground;
        String name = p.cavity() + " (" + p.label() + ")";
        if (p.function() instanceof ControlUnit.Supply supply) {
            double rail = circuit.controlUnit().rails().get(supply.rail()).volts();
            if (volts > rail + ABOVE_RAIL_VOLTS)
                out.put(
                        "rail " + supply.rail(),
                        format(
                                "%.1f V on the %.0f V supply %s: may damage the control unit and every sensor on it",
                                volts, rail, supply.rail()));
        } else if (p.function() instanceof ControlUnit.Return) {
            double amperes = Math.abs(s.amperes("pin:" + p.cavity()).orElse(0));
            if (amperes > RETURN_AMPERES)
                out.put(
                        "return " + p.cavity(),
                        format("%.1f A through the sensor return at pin %s: may burn the control unit", amperes, name));
        } else if (p.function() instanceof ControlUnit.LowSide l) driver(p, l.limitAmperes(), s, name, out);
        else if (p.function() instanceof ControlUnit.HighSide h) driver(p, h.limitAmperes(), s, name, out);
        OptionalDouble clamp = s.amperes("clamp:" + p.cavity());
        if (clamp.isPresent() && Math.abs(clamp.getAsDouble()) > CLAMP_AMPERES)
            out.put(
                    "pin " + p.cavity(),
                    format(
                            "%.1f V reaches signal pin %s, %.2f A through its protection: may damage the control unit",
                            volts, name, Math.abs(clamp.getAsDouble())));
    }

    private static void driver(ControlUnit.Pin p, double limit, Solution s, String name, Map<String, String> out) {
        if (Math.abs(s.driverAmperes(p.cavity())) >= AT_LIMIT * limit)
            out.put(
                    "driver " + p.cavity(),
                    format(
                            "driver pin %s runs at its limit of %.1f A into a short: may damage the driver",
                            name, limit));
    }

    private void device(Device d, NetworkSolver.Instant instant, Solution s, Map<String, String> out) {
        String supply = d.terminals().get("supply");
        String back = d.terminals().get("return");
        if (supply == null || back == null) return;
        OptionalInt a = instant.node(Names.mating(supply));
        OptionalInt b = instant.node(Names.mating(back));
        if (a.isEmpty() || b.isEmpty()) return;
        double volts = s.at(a.getAsInt()) - s.at(b.getAsInt());
        if (volts > mostRailVolts + ABOVE_SENSOR_VOLTS)
            out.put("sensor " + d.id(), format("%.1f V across the %s: may damage it", volts, d.label()));
        else if (volts < REVERSED_VOLTS)
            out.put("sensor " + d.id(), format("%.1f V reversed across the %s: may damage it", -volts, d.label()));
    }

    /** Boosted voltage that a swap of two cavities would lead where it does not belong; told from the circuit alone. */
    List<String> boosted(String cavityA, String cavityB, Copper copper) {
        List<String> out = new ArrayList<>();
        if (copper.net(cavityA).equals(copper.net(cavityB))) return out;
        Set<String> boosted = copper.netsWith(circuit, "boosted");
        boolean a = boosted.contains(copper.net(cavityA));
        if (a == boosted.contains(copper.net(cavityB))) return out;
        String to = a ? cavityB : cavityA;
        out.add("injector voltage, which is boosted far above battery, may reach what belongs to " + to
                + ": may damage it (the network counts it at battery voltage only)");
        return out;
    }

    private static String format(String text, Object... values) {
        return String.format(Locale.ROOT, text, values);
    }
}
