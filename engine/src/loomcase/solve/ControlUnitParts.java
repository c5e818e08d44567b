package loomcase.solve;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import loomcase.model.ControlUnit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;

/**
 * What stands behind each control-unit pin; everything refers to the unit's own ground, not to the chassis.
 *
 * <p>A rail regulates at its voltage behind its output resistance, holds its limit current when overloaded, and cannot
 * sink: pulled up from outside it simply follows. A driver that is on is a small resistance up to its limit current. A
 * driver that is off leaves a weak diagnostic bias.
 */
final class ControlUnitParts {
    /** Start of the name of the unit's own load at a power pin. */
    static final String LOAD = "load:";

    private static final String REFERENCE = "reference:";

    /** Start of the name of what a voltage inside the unit feeds when nothing hangs on it. */
    static final String IDLE = "idle:";

    static final double BOND_OHMS = 0.001;

    /** Ohms of all that a voltage inside the unit feeds but the inputs (judgement): what drains it when the unit is off. */
    private static final double IDLE_OHMS = 1000;

    private final Netlist net;
    private final ControlUnit unit;
    private final OperatingPoint.Phase phase;
    private final String groundPoint;
    private final String powerPoint;
    private final Map<String, String> otherLine = new HashMap<>();

    private ControlUnitParts(Netlist net, ControlUnit unit, OperatingPoint.Phase phase) {
        this.net = net;
        this.unit = unit;
        this.phase = phase;
        this.groundPoint = Names.inside(unit.id(), "ground");
        this.powerPoint = Names.inside(unit.id(), "power");
    }

    static void add(Netlist net, ControlUnit unit, OperatingPoint.Phase phase) {
        ControlUnitParts parts = new ControlUnitParts(net, unit, phase);
        unit.rails().values().stream()
                .sorted(Comparator.comparing(ControlUnit.Rail::id))
                .forEach(parts::rail);
        unit.pins().values().stream()
                .mapToDouble(pin -> inside(pin.function()))
                .filter(volts -> volts != 0)
                .sorted()
                .distinct()
                .forEach(parts::reference);
        parts.pins(pin -> true);
    }

    /** The voltage inside the unit that a pin's resistor goes to; 0 when it is the ground or there is no resistor. */
    private static double inside(ControlUnit.PinFunction f) {
        if (f instanceof ControlUnit.PullUp u) return u.volts();
        if (f instanceof ControlUnit.Differential d) return d.biasVolts();
        if (f instanceof ControlUnit.LowSide d) return d.diagnosticVolts();
        if (f instanceof ControlUnit.HighSide d) return d.diagnosticVolts();
        return f instanceof ControlUnit.Network ? DeviceParts.BIAS_VOLTS : 0;
    }

    private String referencePoint(double volts) {
        return volts == 0 ? groundPoint : Names.inside(unit.id(), volts + " V");
    }

    /** A voltage that is there while the unit has its supply, for the resistors of its inputs. */
    private void reference(double volts) {
        int point = net.node(referencePoint(volts));
        int ground = net.node(groundPoint);
        net.resistor(IDLE + volts, referencePoint(volts), groundPoint, IDLE_OHMS);
        net.add(new Part(
                REFERENCE + volts,
                whileSupplied(),
                Part.Probe.across(point, ground),
                new double[0],
                List.of(List.of(Stamp.branch(point, ground, 1 / BOND_OHMS, volts * (1 + BOND_OHMS / IDLE_OHMS))))));
    }

    /** The resistor between a pin and the voltage inside the unit that it goes to. */
    private void input(ControlUnit.Pin p, double ohms) {
        net.resistor("pin:" + p.cavity(), Names.mating(p.cavity()), referencePoint(inside(p.function())), ohms);
    }

    /** Adds some pins alone. */
    static void addPins(Netlist net, ControlUnit unit, OperatingPoint.Phase phase, Set<String> cavities) {
        new ControlUnitParts(net, unit, phase).pins(pin -> cavities.contains(pin.cavity()));
    }

    private void pins(Predicate<ControlUnit.Pin> some) {
        unit.pins().values().stream()
                .filter(some)
                .sorted(Comparator.comparing(ControlUnit.Pin::cavity))
                .forEach(this::pin);
    }

    /** Part name of a rail. */
    static String rail(String rail) {
        return "rail:" + rail;
    }

    /** Part name of a driver that is on. */
    static String driver(String cavity) {
        return "driver:" + cavity;
    }

    private Optional<Part.Gate> whileSupplied() {
        return Optional.of(new Part.Gate(net.node(powerPoint), net.node(groundPoint), unit.minimumSupplyVolts()));
    }

    /** True for a part that makes a voltage inside the unit. */
    static boolean isSupply(Part part) {
        return part.name().startsWith(rail("")) || part.name().startsWith(REFERENCE);
    }

    private void rail(ControlUnit.Rail r) {
        int rail = net.node(Names.inside(unit.id(), r.id()));
        int ground = net.node(groundPoint);
        net.add(new Part(
                rail(r.id()),
                whileSupplied(),
                Part.Probe.across(rail, ground),
                new double[] {r.volts() - r.ohms() * r.limitAmperes(), r.volts()},
                List.of(
                        List.of(new Stamp(rail, ground, 0, 0, 0, -r.limitAmperes())),
                        List.of(Stamp.branch(rail, ground, 1 / r.ohms(), r.volts())),
                        List.of())));
    }

    private void pin(ControlUnit.Pin p) {
        String pin = Names.mating(p.cavity());
        String element = "pin:" + p.cavity();
        ControlUnit.PinFunction f = p.function();
        if (f instanceof ControlUnit.Power power) {
            net.resistor(element, pin, powerPoint, BOND_OHMS);
            net.resistor(LOAD + p.cavity(), powerPoint, groundPoint, power.loadOhms());
        } else if (f instanceof ControlUnit.GroundPin) net.resistor(element, pin, groundPoint, BOND_OHMS);
        else if (f instanceof ControlUnit.Supply s)
            net.resistor(element, pin, Names.inside(unit.id(), s.rail()), BOND_OHMS);
        else if (f instanceof ControlUnit.Return r) net.resistor(element, pin, groundPoint, r.ohms());
        else if (f instanceof ControlUnit.PullUp u) input(p, u.ohms());
        else if (f instanceof ControlUnit.PullDown d) net.resistor(element, pin, groundPoint, d.ohms());
        else if (f instanceof ControlUnit.Differential d) input(p, d.ohms());
        else if (f instanceof ControlUnit.LowSide d) {
            input(p, d.diagnosticOhms());
            driver(p, pin, groundPoint, d.onOhms(), d.limitAmperes());
        } else if (f instanceof ControlUnit.HighSide d) {
            input(p, d.diagnosticOhms());
            driver(p, powerPoint, pin, d.onOhms(), d.limitAmperes());
        } else if (f instanceof ControlUnit.Network n) network(p, n, pin);
        else throw new IllegalStateException("unknown pin function " + f);
        p.clamp().ifPresent(c -> clamp(p, pin, c));
    }

    private void driver(ControlUnit.Pin p, String from, String to, double onOhms, double limitAmperes) {
        int a = net.node(from);
        int b = net.node(to);
        addSwitched(
                p,
                new Part(
                        driver(p.cavity()),
                        Optional.empty(),
                        Part.Probe.across(a, b),
                        new double[] {onOhms * limitAmperes},
                        List.of(
                                List.of(Stamp.branch(a, b, 1 / onOhms, 0)),
                                List.of(new Stamp(a, b, 0, 0, 0, limitAmperes)))));
    }

    /** Adds a part that works only while its pin is on; the network has the same shape either way. */
    private void addSwitched(ControlUnit.Pin p, Part part) {
        net.add(phase.on().contains(p.cavity()) ? part : part.dead());
    }

    private void network(ControlUnit.Pin p, ControlUnit.Network n, String pin) {
        input(p, DeviceParts.BIAS_OHMS);
        int a = net.node(pin);
        int b = net.node(groundPoint);
        double volts = n.high() ? DeviceParts.DRIVE_VOLTS : 0;
        addSwitched(
                p,
                new Part(
                        driver(p.cavity()),
                        Optional.empty(),
                        Part.Probe.across(a, b),
                        new double[0],
                        List.of(List.of(Stamp.branch(a, b, 1 / DeviceParts.DRIVE_OHMS, volts)))));
        String partner = otherLine.putIfAbsent(n.bus(), pin);
        if (partner == null) return;
        double ohms = unit.pins().values().stream()
                .map(ControlUnit.Pin::function)
                .filter(f -> f instanceof ControlUnit.Network o && o.bus().equals(n.bus()))
                .mapToDouble(f -> ((ControlUnit.Network) f).terminatorOhms())
                .min()
                .orElse(Double.POSITIVE_INFINITY);
        if (Double.isFinite(ohms)) net.resistor("terminator:" + n.bus(), partner, pin, ohms);
    }

    private void clamp(ControlUnit.Pin p, String pin, ControlUnit.Clamp c) {
        int a = net.node(pin);
        int b = net.node(groundPoint);
        double g = 1 / c.ohms();
        net.add(new Part(
                "clamp:" + p.cavity(),
                Optional.empty(),
                Part.Probe.across(a, b),
                new double[] {-DeviceParts.DIODE_VOLTS, c.highVolts()},
                List.of(
                        List.of(Stamp.branch(a, b, g, -DeviceParts.DIODE_VOLTS)),
                        List.of(),
                        List.of(Stamp.branch(a, b, g, c.highVolts())))));
    }
}
