package loomcase.faults;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import loomcase.faults.FaultGenerator.Context;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.PlaceId;

/** A device failed by itself, and the true engine conditions that a healthy device reports. */
final class DeviceFaults {
    private static final double HARD_SHORT = 1;

    /** By how much a thermistor drifts, in either direction, and in which share of cases (judgement). */
    private static final double DRIFT_FACTOR = 3;

    private static final double LARGE_DRIFT_FACTOR = 12;
    private static final double LARGE_DRIFTS = 0.3;

    /** By how much of its supply a signal drifts, in either direction (judgement). */
    private static final double DRIFT_FRACTION = 0.3;

    /**
     * Share of the faults by which a sensor reads wrongly that make it read just like a condition of the engine that it is
     * there to report, where it has such (judgement): a low oil pressure may be a sensor that reads low.
     */
    private static final double FALSE_REPORT = 0.4;

    /** What a charged cell of lead and acid has at rest: a sixth of 12.6 V (US Army TM 5-3805-262-20). */
    private static final double CELL_VOLTS = 2.1;

    private static final double NOMINAL_VOLTS = 6 * CELL_VOLTS;

    /** Voltage of a battery of 12 V that is empty, by one that is full (US Army TM 5-3805-262-20: 11.7 and 12.6 V). */
    private static final double EMPTY = 11.7 / 12.6;

    /** How many times its resistance inside a battery has when empty and when worn out (judgement). */
    private static final double EMPTY_OHMS = 4;

    private static final double WORN_OHMS = 8;

    private final Context c;

    DeviceFaults(Context context) {
        this.c = context;
    }

    List<Hypothesis> generate() {
        List<Hypothesis> out = new ArrayList<>();
        for (Device d : c.circuit().devices().values()) {
            device(out, d);
            for (Device.Condition condition : d.conditions())
                out.add(new Hypothesis(
                        "condition.engine " + d.id() + " " + condition.id(),
                        "condition.engine",
                        List.of(FaultGenerator.place(PlaceId.Kind.ENGINE, condition.id())),
                        condition.label()
                                + (d.isGauged()
                                        ? ": a true engine condition, reported by a healthy " + d.label()
                                        : ": a true condition of the supply, no fault of the wiring"),
                        new Hypothesis.Fixed(List.of(new Edit.Value(d.id(), condition.quantity(), condition.value()))),
                        c.priors().probability("condition.engine", 1),
                        false));
        }
        return out;
    }

    private void device(List<Hypothesis> out, Device d) {
        Device.Nature nature = d.nature();
        if (nature instanceof Device.Ntc) ntc(out, d);
        else if (nature instanceof Device.Ratiometric r) ratiometric(out, d, r);
        else if (nature instanceof Device.MotorWithPosition m) {
            load(out, d, "motor", "motor", "device.motor", m.motorOhms());
            ratiometric(out, d, m.position());
        } else if (nature instanceof Device.Hall) {
            add(out, d, "device.hall.fail", "stuck high", 0.5, new Edit.Dead(d.id()));
            add(out, d, "device.hall.fail", "stuck low", 0.5, bridge(d, "signal", "return"));
        } else if (nature instanceof Device.VariableReluctance) {
            String coil = Names.device(d.id(), "coil");
            add(out, d, "device.variable-reluctance.open", "coil open", 1, new Edit.Series(coil, Edit.OPEN_OHMS));
            add(
                    out,
                    d,
                    "device.variable-reluctance.short",
                    "coil shorted",
                    1,
                    new Edit.Dead(d.id()),
                    new Edit.Series(coil, HARD_SHORT));
        } else if (nature instanceof Device.Load l) load(out, d, "element", l.word(), family(l), l.ohms());
        else if (nature instanceof Device.Node)
            add(out, d, "device.node.dead", "dead, talks to nobody", 1, new Edit.Dead(d.id()));
        else if (nature instanceof Device.Relay r) relay(out, d, r);
        else if (nature instanceof Device.Battery b) battery(out, d, b);
        else throw new IllegalStateException("unknown nature " + nature);
    }

    /** A bad battery shows with the engine stopped only: while it runs the charging system feeds the harness. */
    private void battery(List<Hypothesis> out, Device d, Device.Battery b) {
        String cell = Names.device(d.id(), "cell");
        add(
                out,
                d,
                "device.battery.empty",
                "discharged",
                1,
                resting(d, volts -> volts * EMPTY),
                new Edit.Series(cell, b.ohms() * EMPTY_OHMS));
        add(out, d, "device.battery.worn", "worn out, sags under load", 1, new Edit.Series(cell, b.ohms() * WORN_OHMS));
        add(
                out,
                d,
                "device.battery.cell",
                "one cell dead",
                1,
                resting(d, volts -> volts * (1 - 1.0 / Math.max(1, Math.round(volts / CELL_VOLTS)))));
    }

    private Edit resting(Device battery, DoubleUnaryOperator left) {
        double volts = c.circuit().operatingPoints().values().stream()
                .filter(op -> !op.engineRunning())
                .mapToDouble(OperatingPoint::batteryVolts)
                .max()
                .orElse(NOMINAL_VOLTS);
        return new Edit.Value(battery.id(), Edit.Quantity.RESTING_VOLTS, left.applyAsDouble(volts));
    }

    private void ntc(List<Hypothesis> out, Device d) {
        String element = Names.device(d.id(), "element");
        add(out, d, "device.ntc.open", "element open", 1, new Edit.Series(element, Edit.OPEN_OHMS));
        add(out, d, "device.ntc.short", "element shorted", 1, new Edit.Series(element, HARD_SHORT));
        drift(out, d, "reads far too cold", 1 - LARGE_DRIFTS, DRIFT_FACTOR);
        drift(out, d, "reads far too hot", 1 - LARGE_DRIFTS, 1 / DRIFT_FACTOR);
        drift(out, d, "reads near its cold end", LARGE_DRIFTS, LARGE_DRIFT_FACTOR);
        drift(out, d, "reads near its hot end", LARGE_DRIFTS, 1 / LARGE_DRIFT_FACTOR);
        falseReports(out, d, "device.ntc.drift");
    }

    private void drift(List<Hypothesis> out, Device d, String how, double share, double factor) {
        add(
                out,
                d,
                "device.ntc.drift",
                how,
                0.5 * share * (1 - falseReports(d)),
                new Edit.Value(d.id(), Edit.Quantity.OHMS_FACTOR, factor));
    }

    private static double falseReports(Device d) {
        return d.conditions().isEmpty() ? 0 : FALSE_REPORT;
    }

    /** A healthy engine, and a sensor that reports a condition of it. */
    private void falseReports(List<Hypothesis> out, Device d, String family) {
        for (Device.Condition condition : d.conditions())
            out.add(c.fixed(
                    family,
                    d.place(),
                    "like " + condition.id(),
                    d.label() + " (" + d.id() + "): falsely reports "
                            + condition.label().replace("truly ", ""),
                    falseReports(d) / d.conditions().size(),
                    new Edit.Value(d.id(), condition.quantity(), condition.value())));
    }

    private void ratiometric(List<Hypothesis> out, Device d, Device.Ratiometric r) {
        add(out, d, "device.ratiometric.open", "gives no signal", 1, new Edit.Dead(d.id()));
        add(out, d, "device.ratiometric.short", "signal shorted inside", 0.5, bridge(d, "signal", "return"));
        add(out, d, "device.ratiometric.short", "supply shorted inside", 0.5, bridge(d, "supply", "return"));
        double f = r.fraction().usual();
        for (double drift : List.of(DRIFT_FRACTION, -DRIFT_FRACTION)) {
            double drifted = Math.max(0.08, Math.min(0.92, f + drift));
            if (Math.abs(drifted - f) < 0.1) continue;
            add(
                    out,
                    d,
                    "device.ratiometric.drift",
                    drift > 0 ? "reads far too high" : "reads far too low",
                    0.5 * (1 - falseReports(d)),
                    new Edit.Value(d.id(), Edit.Quantity.FRACTION, drifted));
        }
        falseReports(out, d, "device.ratiometric.drift");
    }

    private void load(List<Hypothesis> out, Device d, String part, String word, String family, double ohms) {
        String element = Names.device(d.id(), part);
        add(out, d, family + ".open", word + " open", 1, new Edit.Series(element, Edit.OPEN_OHMS));
        if (word.equals("terminator")) return;
        boolean reports = word.equals("probe");
        add(
                out,
                d,
                family + ".short",
                word + " shorted",
                reports ? 1 - falseReports(d) : 1,
                new Edit.Series(element, Math.max(0.01, ohms * 0.02)));
        if (reports) falseReports(out, d, family + ".short");
    }

    private static String family(Device.Load l) {
        return "device." + l.word();
    }

    private void relay(List<Hypothesis> out, Device d, Device.Relay r) {
        Edit coil = new Edit.Series(Names.device(d.id(), "coil"), Edit.OPEN_OHMS);
        add(out, d, "device.relay.coil-open", "coil open", 1, coil);
        add(out, d, "device.relay.contact-open", "contact does not close", 1, new Edit.Dead(d.id()));
        add(
                out,
                d,
                "device.relay.contact-welded",
                "contact welded",
                1,
                new Edit.Bridge(terminal(d, "contactA"), terminal(d, "contactB"), r.contactOhms()));
    }

    private static Edit bridge(Device d, String roleA, String roleB) {
        return new Edit.Bridge(terminal(d, roleA), terminal(d, roleB), HARD_SHORT);
    }

    private static String terminal(Device d, String role) {
        return Names.mating(d.terminals().get(role));
    }

    private void add(List<Hypothesis> out, Device d, String family, String how, double share, Edit... edits) {
        out.add(c.fixed(family, d.place(), how, d.label() + " (" + d.id() + "): " + how, share, edits));
    }
}
