package loomcase.meter;

import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Device;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/**
 * What is known of a test apart from its readings.
 *
 * @param row row of the list of usual measurements that it is one of, {@code M01} …
 * @param minutes usual time of the test itself, without access
 * @param places places that must be reached, each once: connectors, branches, joints or devices
 * @param harms ways in which it can do harm
 * @param hazard what the row says to beware of, empty for nothing
 */
public record TestFacts(String row, double minutes, List<PlaceId> places, Set<Harm> harms, String hazard) {
    /** Ohms in a jumper from which a supply can bear it: 5 mA from 5 V (judgement). */
    private static final double SAFE_JUMPER_OHMS = 500;

    private static final String AT_POSTS = "M28";

    public TestFacts {
        places = List.copyOf(places);
        harms = harms.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(harms));
    }

    /** True when a battery's voltage is read at its posts. */
    public boolean isAtPosts() {
        return row.equals(AT_POSTS);
    }

    static TestFacts of(Circuit circuit, Nets nets, Measurements list, Test test) {
        known(circuit, test);
        Measurements.Row row = list.row(row(circuit, nets, test));
        return new TestFacts(
                row.id(),
                minutes(test, row),
                List.copyOf(places(circuit, nets, test)),
                harms(circuit, nets, test),
                row.hazard());
    }

    /** The list's time for cavities is for those of a plug; a single one takes the least of it. */
    private static double minutes(Test test, Measurements.Row row) {
        return test instanceof Test.Look l && l.place().kind() == PlaceId.Kind.CAVITY
                ? row.minutesLeast()
                : row.minutesTypical();
    }

    private static void known(Circuit circuit, Test test) {
        if (test instanceof Test.Watched w && !circuit.connectors().containsKey(w.connector()))
            throw new InputProblem("circuit " + circuit.id() + " has no connector '" + w.connector() + "'");
        List<String> devices = test instanceof Test.SwapWithNeighbour s
                ? List.of(s.device(), s.other())
                : test instanceof Test.Gauge g ? List.of(g.device()) : List.of();
        for (String id : devices)
            if (!circuit.devices().containsKey(id))
                throw new InputProblem("circuit " + circuit.id() + " has no device '" + id + "'");
    }

    private static String row(Circuit circuit, Nets nets, Test test) {
        if (test instanceof Test.Volts v) return volts(circuit, nets, v);
        if (test instanceof Test.Ohms o) return ohms(nets, o);
        if (test instanceof Test.Isolation i) return nets.isGround(i.pointB()) ? "M10" : "M11";
        if (test instanceof Test.Drop d)
            return unitSupply(circuit, d.pointA()) || unitSupply(circuit, d.pointB()) ? "M26" : "M13";
        if (test instanceof Test.UnplugAndWatch u) {
            Device d = circuit.devices()
                    .get(circuit.connectors().get(u.connector()).mates());
            return d != null && d.nature() instanceof Device.Node ? "M19" : "M04";
        }
        if (test instanceof Test.JumperAndWatch j)
            return nets.has(j.from(), ControlUnit.Supply.class) || nets.has(j.to(), ControlUnit.Supply.class)
                    ? "M06"
                    : "M05";
        if (test instanceof Test.Wiggle) return "M03";
        if (test instanceof Test.Look l) return l.place().kind() == PlaceId.Kind.CAVITY ? "M15" : "M02";
        if (test instanceof Test.SwapWithNeighbour) return "M24";
        if (test instanceof Test.Gauge) return "M27";
        throw new IllegalStateException("unknown test " + test);
    }

    private static boolean unitSupply(Circuit circuit, String point) {
        ControlUnit.Pin pin = circuit.controlUnit().pins().get(point);
        return pin != null
                && (pin.function() instanceof ControlUnit.Power || pin.function() instanceof ControlUnit.GroundPin);
    }

    private static String volts(Circuit circuit, Nets nets, Test.Volts v) {
        if (circuit.isAtBattery(v.pointA())) return AT_POSTS;
        if (nets.isNetwork(v.pointA())) return "M18";
        if (v.setup().unplugged().size() > 1) return "M12";
        return nets.has(v.pointA(), ControlUnit.Supply.class) ? "M07" : "M08";
    }

    private static String ohms(Nets nets, Test.Ohms o) {
        boolean pair = nets.isNetwork(o.pointA()) && nets.isNetwork(o.pointB());
        if (pair && !nets.of(o.pointA()).equals(nets.of(o.pointB()))) return "M17";
        if (!o.pointA().endsWith("~") || !o.pointB().endsWith("~")) return "M09";
        Set<Device> both = new LinkedHashSet<>(nets.devices(o.pointA()));
        both.retainAll(nets.devices(o.pointB()));
        if (both.stream().anyMatch(d -> d.nature() instanceof Device.VariableReluctance)) return "M22";
        if (both.stream()
                .anyMatch(d -> d.nature() instanceof Device.Load l && l.word().equals("injector"))) return "M23";
        return "M21";
    }

    private static Set<PlaceId> places(Circuit circuit, Nets nets, Test test) {
        Set<PlaceId> out = new LinkedHashSet<>();
        if (test instanceof Test.Numeric n) {
            place(circuit, n.pointA(), out);
            place(circuit, n.pointB(), out);
            n.setup().unplugged().forEach(c -> out.add(new PlaceId(PlaceId.Kind.CONNECTOR, c)));
            if (n.setup().batteryDisconnected()) battery(circuit, out);
        } else if (test instanceof Test.Watched w) out.add(new PlaceId(PlaceId.Kind.CONNECTOR, w.connector()));
        else if (test instanceof Test.Wiggle w) out.add(w.place());
        else if (test instanceof Test.Look l) out.add(l.place());
        else if (test instanceof Test.Gauge g) out.add(new PlaceId(PlaceId.Kind.DEVICE, g.device()));
        else if (test instanceof Test.SwapWithNeighbour s)
            for (String id : List.of(s.device(), s.other()))
                circuit.devices().get(id).terminals().values().forEach(t -> place(circuit, t, out));
        return out;
    }

    private static void place(Circuit circuit, String point, Set<PlaceId> out) {
        String owner = Names.connectorOf(point);
        if (circuit.connectors().containsKey(owner)) out.add(new PlaceId(PlaceId.Kind.CONNECTOR, owner));
        else if (circuit.fuses().containsKey(owner)) out.add(new PlaceId(PlaceId.Kind.FUSE, owner));
        else if (circuit.grounds().containsKey(point)) out.add(new PlaceId(PlaceId.Kind.GROUND, point));
        else if (circuit.splices().containsKey(point)) out.add(new PlaceId(PlaceId.Kind.SPLICE, point));
    }

    private static void battery(Circuit circuit, Set<PlaceId> out) {
        for (Device d : circuit.batteries()) d.terminals().values().forEach(t -> place(circuit, t, out));
    }

    private static Set<Harm> harms(Circuit circuit, Nets nets, Test test) {
        EnumSet<Harm> out = EnumSet.noneOf(Harm.class);
        if (test instanceof Test.Numeric n) {
            for (String p : List.of(n.pointA(), n.pointB())) {
                if (nets.isCavity(p) && !p.endsWith("~") && apart(circuit, n.setup(), p))
                    out.add(Harm.PROBES_FEMALE_CAVITY);
                if (injector(nets, p) && running(circuit, n.setup().power())) out.add(Harm.BOOSTED_VOLTAGE);
            }
            boolean ohms = test instanceof Test.Ohms || test instanceof Test.Isolation;
            if (ohms && !dead(circuit, nets, n)) out.add(Harm.OHMS_ON_LIVE_CIRCUIT);
            n.setup().jumpers().forEach(j -> jumper(nets, j, out));
            if (running(circuit, n.setup().power())) out.add(Harm.MOVING_PARTS);
        } else if (test instanceof Test.JumperAndWatch j)
            jumper(nets, new Setup.Jumper(j.from(), j.to(), j.ohms()), out);
        String op = test instanceof Test.Watched w
                ? w.operatingPoint()
                : test instanceof Test.Wiggle w ? w.operatingPoint() : "";
        if (circuit.operatingPoints().containsKey(op)
                && circuit.operatingPoints().get(op).engineRunning()) out.add(Harm.MOVING_PARTS);
        return out;
    }

    private static boolean running(Circuit circuit, Setup.Power power) {
        return power instanceof Setup.KeyOn on
                && circuit.operatingPoints().containsKey(on.operatingPoint())
                && circuit.operatingPoints().get(on.operatingPoint()).engineRunning();
    }

    /** True when no voltage can be where an ohmmeter is put: battery off, or every point on a plug apart with the key off. */
    private static boolean dead(Circuit circuit, Nets nets, Test.Numeric n) {
        if (n.setup().batteryDisconnected()) return true;
        if (n.setup().power() instanceof Setup.KeyOn) return false;
        return List.of(n.pointA(), n.pointB()).stream()
                .allMatch(p -> p.equals(Names.CHASSIS) || nets.isCavity(p) && apart(circuit, n.setup(), p));
    }

    private static boolean apart(Circuit circuit, Setup setup, String cavity) {
        Connector c = circuit.connectors().get(Names.connectorOf(cavity));
        return setup.unplugged().contains(c.id()) || setup.unplugged().contains(c.mates());
    }

    private static boolean injector(Nets nets, String point) {
        return nets.devices(point).stream()
                .anyMatch(d -> d.nature() instanceof Device.Load l && l.word().equals("injector"));
    }

    private static void jumper(Nets nets, Setup.Jumper j, Set<Harm> out) {
        for (String p : List.of(j.pointA(), j.pointB())) {
            if (injector(nets, p)) out.add(Harm.JUMPER_ON_INJECTOR);
            if (nets.has(p, ControlUnit.LowSide.class) || nets.has(p, ControlUnit.HighSide.class))
                out.add(Harm.JUMPER_ON_DRIVER);
            boolean supply = nets.has(p, ControlUnit.Supply.class) || nets.isFeed(p);
            if (supply && j.ohms() < SAFE_JUMPER_OHMS) out.add(Harm.JUMPER_ON_SUPPLY);
        }
    }
}
