package loomcase.solve;

import java.util.List;
import java.util.Optional;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;

/**
 * What each device is electrically.
 *
 * <p>An amplified sensor is a voltage {@code f · (supply − return)} behind its output resistance; it draws what it
 * sources from its supply and sends what it sinks to its return. Without supply its output is open or, with protection
 * diodes, tied to supply and return through {@value #DIODE_VOLTS} V. A network node drives the high line to 5 V above
 * its ground and the low line to its ground through {@value #DRIVE_OHMS} ohm each: into 60 ohm this gives the 3.5 V and
 * 1.5 V of ISO 11898-2.
 *
 * <p>What feeds the harness is the battery's cells while the engine stands and the charging system while it runs; each has a
 * name of its own, so a bad battery is one with the engine stopped only.
 */
final class DeviceParts {
    /** The battery while the engine stands. */
    static final String CELL = "cell";

    /** Battery and charging system while the engine runs. */
    private static final String CHARGED = "charged";

    static final List<String> SUPPLIES = List.of(CELL, CHARGED);

    static final double DIODE_VOLTS = 0.6;
    static final double DIODE_OHMS = 5;
    static final double DRIVE_OHMS = 45;
    static final double DRIVE_VOLTS = 5;
    static final double BIAS_VOLTS = 2.5;
    static final double BIAS_OHMS = 25_000;

    private final Netlist net;
    private final Device device;
    private final OperatingPoint op;
    private final boolean on;

    private DeviceParts(Netlist net, Device device, OperatingPoint op, boolean on) {
        this.net = net;
        this.device = device;
        this.op = op;
        this.on = on;
    }

    static void add(Netlist net, Device device, OperatingPoint op, OperatingPoint.Phase phase) {
        DeviceParts parts = new DeviceParts(net, device, op, phase.on().contains(device.id()));
        Device.Nature nature = device.nature();
        if (nature instanceof Device.Ntc n) parts.ntc(n);
        else if (nature instanceof Device.Ratiometric r) parts.ratiometric(r);
        else if (nature instanceof Device.MotorWithPosition m) {
            net.resistor(parts.name("motor"), parts.point("motorA"), parts.point("motorB"), m.motorOhms());
            parts.ratiometric(m.position());
        } else if (nature instanceof Device.Hall h) parts.hall(h);
        else if (nature instanceof Device.VariableReluctance v) parts.pickUp(v);
        else if (nature instanceof Device.Load l)
            net.resistor(parts.name("element"), parts.point("a"), parts.point("b"), l.ohms());
        else if (nature instanceof Device.Node n) parts.networkNode(n);
        else if (nature instanceof Device.Relay r) parts.relay(r);
        else if (nature instanceof Device.Battery b)
            net.source(
                    parts.name(op.engineRunning() ? CHARGED : CELL),
                    parts.point("positive"),
                    Names.CHASSIS,
                    b.ohms(),
                    op.batteryVolts());
        else throw new IllegalStateException("unknown nature " + nature);
    }

    private String name(String part) {
        return Names.device(device.id(), part);
    }

    private String point(String role) {
        return Names.mating(device.terminals().get(role));
    }

    private int node(String role) {
        return net.node(point(role));
    }

    private void ntc(Device.Ntc n) {
        net.resistor(
                name("element"),
                point("signal"),
                point("return"),
                n.ohms(n.celsius().at(op.id())));
    }

    private void ratiometric(Device.Ratiometric r) {
        net.resistor(name("supply"), point("supply"), point("return"), r.supplyOhms());
        int s = node("supply");
        int g = node("return");
        int o = node("signal");
        net.add(output(name("output"), s, g, o, r, r.fraction().at(op.id())));
        if (r.unpowered() != Device.Unpowered.DIODES) return;
        net.add(diode(name("diode-return"), g, o));
        net.add(diode(name("diode-supply"), o, s));
    }

    /** An amplified output at a share {@code fraction} of its supply. */
    static Part output(String name, int supply, int ret, int out, Device.Ratiometric r, double fraction) {
        double g = 1 / r.outputOhms();
        return new Part(
                name,
                Optional.of(new Part.Gate(supply, ret, r.minimumSupplyVolts())),
                new Part.Probe(out, ret, supply, ret, fraction),
                new double[] {0},
                List.of(
                        List.of(
                                new Stamp(supply, out, supply, ret, g * fraction, 0),
                                new Stamp(supply, out, out, ret, -g, 0)),
                        List.of(
                                new Stamp(out, ret, out, ret, g, 0),
                                new Stamp(out, ret, supply, ret, -g * fraction, 0))));
    }

    private static Part diode(String name, int anode, int cathode) {
        return new Part(
                name,
                Optional.empty(),
                Part.Probe.across(anode, cathode),
                new double[] {DIODE_VOLTS},
                List.of(List.of(), List.of(Stamp.branch(anode, cathode, 1 / DIODE_OHMS, DIODE_VOLTS))));
    }

    private void hall(Device.Hall h) {
        net.resistor(name("supply"), point("supply"), point("return"), h.supplyOhms());
        int s = node("supply");
        int g = node("return");
        int o = node("signal");
        Part output =
                gated(name("output"), s, g, h.minimumSupplyVolts(), List.of(Stamp.branch(o, g, 1 / h.onOhms(), 0)));
        net.add(on ? output : output.dead());
    }

    private static Part gated(String name, int plus, int minus, double volts, List<Stamp> stamps) {
        return new Part(
                name,
                Optional.of(new Part.Gate(plus, minus, volts)),
                Part.Probe.across(plus, minus),
                new double[0],
                List.of(stamps));
    }

    private void pickUp(Device.VariableReluctance v) {
        double peak = on ? v.peakVolts().at(op.id()) : 0;
        net.source(name("coil"), point("positive"), point("negative"), v.coilOhms(), peak);
    }

    private void networkNode(Device.Node n) {
        net.resistor(name("supply"), point("power"), point("ground"), n.supplyOhms());
        int p = node("power");
        int g = node("ground");
        net.add(gated(
                name("transceiver"),
                p,
                g,
                n.minimumSupplyVolts(),
                transceiver(node("canHigh"), node("canLow"), g, on)));
        if (Double.isFinite(n.terminatorOhms()))
            net.resistor(name("terminator"), point("canHigh"), point("canLow"), n.terminatorOhms());
    }

    /** Bias towards 2.5 V, and when driving the dominant level. */
    static List<Stamp> transceiver(int high, int low, int ground, boolean drives) {
        Stamp biasHigh = Stamp.branch(high, ground, 1 / BIAS_OHMS, BIAS_VOLTS);
        Stamp biasLow = Stamp.branch(low, ground, 1 / BIAS_OHMS, BIAS_VOLTS);
        if (!drives) return List.of(biasHigh, biasLow);
        return List.of(
                biasHigh,
                biasLow,
                Stamp.branch(high, ground, 1 / DRIVE_OHMS, DRIVE_VOLTS),
                Stamp.branch(low, ground, 1 / DRIVE_OHMS, 0));
    }

    private void relay(Device.Relay r) {
        net.resistor(name("coil"), point("coilA"), point("coilB"), r.coilOhms());
        List<Stamp> closed = List.of(Stamp.branch(node("contactA"), node("contactB"), 1 / r.contactOhms(), 0));
        net.add(new Part(
                name("contact"),
                Optional.empty(),
                Part.Probe.across(node("coilA"), node("coilB")),
                new double[] {-r.pullInVolts(), r.pullInVolts()},
                List.of(closed, List.of(), closed)));
    }
}
