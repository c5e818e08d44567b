package loomcase.drill;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import loomcase.intake.CaseIntake;
import loomcase.journal.Fact;
import loomcase.journal.Jumper;
import loomcase.meter.Harm;
import loomcase.meter.Setup;
import loomcase.meter.Test;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Copper;
import loomcase.model.Joints;
import loomcase.model.Names;
import loomcase.rank.Evidence;

/**
 * What a harmful test does to engine, meter and person. That these things happen is common practice, no source; minutes and
 * price of a meter fuse are judgement.
 */
final class Harms {
    /** Voltage from which an ohmmeter is taken to blow its fuse. */
    private static final double LIVE_VOLTS = 1;

    private static final Bill METER_FUSE = new Bill(10, new BigDecimal("15.00"));

    private final Circuit circuit;
    private final Engine engine;
    private final Prices prices;
    private final Copper copper;

    Harms(Engine engine, Prices prices) {
        this.circuit = engine.circuit();
        this.engine = engine;
        this.prices = prices;
        this.copper = Copper.of(circuit);
    }

    /** Marks that a line earns, with the faults it makes. */
    List<Mark> of(int line, Fact fact, List<Planted> faults) {
        List<Mark> out = new ArrayList<>();
        Optional<Test> test = CaseIntake.tested(circuit, fact).map(Evidence.Tested::test);
        if (test.isEmpty()) return out;
        Set<Harm> harms = prices.facts(test.get()).harms();
        if (harms.contains(Harm.OHMS_ON_LIVE_CIRCUIT)) out.add(live(line, (Test.Numeric) test.get(), faults));
        if (harms.contains(Harm.PROBES_FEMALE_CAVITY) && fact instanceof Fact.Reading r && Request.isBare(r.meter()))
            Stream.of(r.a(), r.b()).forEach(p -> spread(line, p, r, out));
        if (harms.contains(Harm.BOOSTED_VOLTAGE))
            out.add(harmful(
                    line, "leads on an injector circuit of a running engine: boosted voltage can kill", Bill.FREE));
        if (harms.contains(Harm.MOVING_PARTS))
            out.add(new Mark(
                    line,
                    "work beside a running engine: keep clear of moving and hot parts",
                    false,
                    Bill.FREE,
                    Optional.empty()));
        for (Jumper j : jumpers(fact)) jumper(line, j, harms, out);
        return out;
    }

    private static List<Jumper> jumpers(Fact fact) {
        if (fact instanceof Fact.Reading r) return r.setup().jumpers();
        return fact instanceof Fact.Watched w ? w.setup().jumpers() : List.of();
    }

    private static Mark harmful(int line, String words, Bill bill) {
        return new Mark(line, words, true, bill, Optional.empty());
    }

    private Mark live(int line, Test.Numeric n, List<Planted> faults) {
        Setup setup = n.setup();
        double volts = engine.exact(new Test.Volts(n.pointA(), n.pointB(), setup), faults, line);
        if (Math.abs(volts) < LIVE_VOLTS)
            return harmful(
                    line,
                    "ohms on a circuit that nobody had made dead; this time there was no voltage to speak of",
                    Bill.FREE);
        return harmful(
                line,
                String.format(
                        java.util.Locale.ROOT, "ohms on a live circuit of %.1f V: the meter's fuse is blown", volts),
                METER_FUSE);
    }

    private void spread(int line, String point, Fact.Reading r, List<Mark> out) {
        Connector c = circuit.connectors().get(Names.connectorOf(point));
        if (c == null || point.endsWith("~")) return;
        boolean apart =
                r.setup().unplugged().contains(c.id()) || r.setup().unplugged().contains(c.mates());
        if (!apart) return;
        Optional<Planted> made = engine.made("contact.fretted " + point)
                .or(() -> engine.made("contact.fretted " + c.mates() + "/" + Names.cavityOf(point)));
        out.add(new Mark(
                line,
                "a bare probe forced into cavity " + point + ": the terminal is spread and makes contact now and then",
                true,
                Bill.FREE,
                made));
    }

    private void jumper(int line, Jumper j, Set<Harm> harms, List<Mark> out) {
        for (String end : List.of(j.from(), j.to())) {
            String net = copper.net(end.endsWith("~") ? end.substring(0, end.length() - 1) : end);
            if (harms.contains(Harm.JUMPER_ON_DRIVER) || harms.contains(Harm.JUMPER_ON_INJECTOR))
                circuit.controlUnit().pins().values().stream()
                        .filter(p -> copper.net(p.cavity()).equals(net) && drives(p))
                        .findFirst()
                        .ifPresent(p -> out.add(new Mark(
                                line,
                                "a jumper on the output of pin " + p.cavity() + ": the driver in the control unit is"
                                        + " blown",
                                true,
                                Bill.FREE,
                                engine.made("control-unit.pin "
                                        + circuit.controlUnit().id() + " " + p.cavity()))));
            if (harms.contains(Harm.JUMPER_ON_SUPPLY)) fuse(line, net, out);
        }
        if (harms.contains(Harm.JUMPER_ON_SUPPLY)
                && out.stream().noneMatch(m -> m.made().isPresent()))
            out.add(harmful(line, "a jumper without a resistor on a supply or feed: a short circuit", Bill.FREE));
    }

    private static boolean drives(ControlUnit.Pin pin) {
        return pin.function() instanceof ControlUnit.LowSide || pin.function() instanceof ControlUnit.HighSide;
    }

    private void fuse(int line, String net, List<Mark> out) {
        for (Joints.Fuse f : circuit.fuses().values())
            if (copper.net(f.id() + "/out").equals(net))
                out.add(new Mark(
                        line,
                        "a jumper without a resistor on a feed: fuse " + f.id() + " is blown",
                        true,
                        Bill.FREE,
                        engine.made("fuse.open " + f.id())));
    }
}
