package loomcase.model.read;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import loomcase.InputProblem;
import loomcase.model.AccessStep;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Conductor;
import loomcase.model.Connector;
import loomcase.model.Costs;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.model.Wire;
import loomcase.model.Zone;

/**
 * Reads a circuit file of the form {@value #FORM}.
 *
 * <p>Structure, types, ranges and spelling are checked here, each failure naming file, line and field; that references
 * resolve and the circuit makes sense as a whole is the work of {@link References} and of {@code loomcase check}.
 */
public final class CircuitReader {
    /** The form this program reads. */
    public static final String FORM = "loomcase-circuit/1";

    private final Cursor root;
    private final Map<String, Zone> zones;

    private CircuitReader(Cursor root) {
        this.root = root;
        this.zones = keyed("zones", CircuitReader::zone, Zone::id);
    }

    /**
     * Reads and resolves a circuit.
     *
     * @throws InputProblem with file, line, field and what is allowed
     */
    public static Circuit read(Path file) {
        Cursor root = Cursor.of(file, Json.read(file));
        String form = root.text("form");
        if (!form.equals(FORM)) throw root.problem("form", "'" + form + "' is not known; allowed is " + FORM);
        Circuit circuit = new CircuitReader(root).circuit();
        root.done();
        References.check(file, circuit);
        return circuit;
    }

    private Circuit circuit() {
        return new Circuit(
                root.id("id"),
                root.text("title"),
                root.text("origin"),
                keyed("operatingPoints", CircuitReader::operatingPoint, OperatingPoint::id),
                keyed("branches", this::branch, Branch::id),
                keyed("connectors", this::connector, Connector::id),
                keyed("splices", CircuitReader::splice, Joints.Splice::id),
                keyed("grounds", CircuitReader::ground, Joints.Ground::id),
                keyed("fuses", CircuitReader::fuse, Joints.Fuse::id),
                keyed("devices", DeviceReader::device, Device::id),
                ControlUnitReader.controlUnit(root.object("controlUnit")),
                keyed("wires", CircuitReader::wire, Wire::id),
                watches(),
                keyed("access", CircuitReader::step, AccessStep::id),
                costs(root.object("costs")));
    }

    private <T> Map<String, T> keyed(String field, Function<Cursor, T> read, Function<T, String> id) {
        Map<String, T> out = new LinkedHashMap<>();
        for (Cursor c : root.objects(field)) {
            T value;
            try {
                value = read.apply(c);
            } catch (IllegalArgumentException e) {
                throw c.problem("id", e.getMessage());
            }
            c.done();
            if (out.put(id.apply(value), value) != null)
                throw c.problem("id", "'" + id.apply(value) + "' is used twice in " + field);
        }
        return out;
    }

    private List<Watch> watches() {
        List<Watch> out = new ArrayList<>();
        for (Cursor c : root.objects("watches")) {
            out.add(WatchReader.watch(c));
            c.done();
        }
        return out;
    }

    private static Zone zone(Cursor c) {
        return new Zone(
                c.id("id"),
                c.number("celsius", -60, 400),
                c.word("vibration", Zone.Vibration.class),
                c.word("fluid", Zone.Fluid.class));
    }

    private static OperatingPoint operatingPoint(Cursor c) {
        List<OperatingPoint.Phase> phases = new ArrayList<>();
        for (Cursor p : c.objects("phases")) {
            phases.add(new OperatingPoint.Phase(p.id("id"), p.texts("on")));
            p.done();
        }
        if (phases.isEmpty()) throw c.problem("phases", "needs at least one phase");
        return new OperatingPoint(
                c.id("id"),
                c.text("label"),
                c.number("batteryVolts", 0, 60),
                c.flag("engineRunning", false),
                c.number("wireCelsius", -60, 200, 20),
                phases);
    }

    private Zone zoneOf(Cursor c) {
        Zone zone = zones.get(c.text("zone"));
        if (zone == null) throw c.problem("zone", "'" + c.text("zone") + "' is not one of " + zones.keySet());
        return zone;
    }

    private Branch branch(Cursor c) {
        List<Branch.RubPoint> rubs = new ArrayList<>();
        double metres = c.number("metres", 0.01, 100);
        for (Cursor r : c.objects("rubPoints")) {
            rubs.add(new Branch.RubPoint(r.id("id"), r.text("label"), r.number("metresAlong", 0, metres)));
            r.done();
        }
        return new Branch(
                c.id("id"),
                c.text("label"),
                c.id("from"),
                c.id("to"),
                metres,
                zoneOf(c),
                c.has("clips") ? c.whole("clips", 0, 1000) : 0,
                rubs,
                c.texts("access"));
    }

    private Connector connector(Cursor c) {
        List<List<String>> rows = new ArrayList<>();
        for (String row : c.texts("rows")) rows.add(List.of(row.trim().split("\\s+")));
        if (rows.isEmpty()) throw c.problem("rows", "needs at least one row of cavities such as \"1 2 3\"");
        List<String> cavities = rows.stream().flatMap(List::stream).toList();
        if (cavities.stream().distinct().count() != cavities.size()) throw c.problem("rows", "names a cavity twice");
        return new Connector(
                c.id("id"),
                c.text("label"),
                c.id("at"),
                c.id("mates"),
                rows,
                c.text("terminal", ""),
                c.flag("sealed", false),
                zoneOf(c),
                c.texts("access"));
    }

    private static Joints.Splice splice(Cursor c) {
        return new Joints.Splice(c.id("id"), c.text("label"), c.id("branch"), c.number("metresAlong", 0, 100));
    }

    private static Joints.Ground ground(Cursor c) {
        return new Joints.Ground(
                c.id("id"), c.text("label"), c.id("at"), c.number("ohms", 1e-6, 1000, 0.001), c.texts("access"));
    }

    private static Joints.Fuse fuse(Cursor c) {
        return new Joints.Fuse(
                c.id("id"),
                c.text("label"),
                c.id("at"),
                c.number("amperes", 0.1, 1000),
                c.number("ohms", 1e-5, 10, 0.005),
                c.texts("access"));
    }

    private static Wire wire(Cursor c) {
        return new Wire(
                c.id("id"),
                c.text("circuit"),
                c.id("from"),
                c.id("to"),
                Conductor.parse(c.text("size")),
                c.text("colour", ""),
                c.text("insulation", ""),
                c.has("metres") ? OptionalDouble.of(c.number("metres", 0.001, 100)) : OptionalDouble.empty());
    }

    private static AccessStep step(Cursor c) {
        return new AccessStep(
                c.id("id"),
                c.text("label"),
                c.number("minutes", 0, 10000),
                c.text("caution", ""),
                c.texts("needs"),
                c.texts("after"));
    }

    private static Costs costs(Cursor c) {
        List<Costs.Section> sections = new ArrayList<>();
        for (Cursor s : c.objects("sections")) {
            sections.add(new Costs.Section(
                    s.id("id"), s.texts("branches"), money(s, "part"), s.number("minutes", 0, 100000)));
            s.done();
        }
        Costs costs = new Costs(
                c.text("currency"),
                money(c, "labourPerHour"),
                money(c, "harnessPart"),
                c.number("harnessMinutes", 0, 100000),
                sections,
                prices(c, "repairParts"),
                prices(c, "deviceParts"),
                money(c, "controlUnitPart"));
        c.done();
        return costs;
    }

    private static Map<String, BigDecimal> prices(Cursor c, String field) {
        Map<String, BigDecimal> out = new LinkedHashMap<>();
        if (!c.has(field)) return out;
        Cursor list = c.object(field);
        for (String key : list.all().keySet()) out.put(key, money(list, key));
        return out;
    }

    private static BigDecimal money(Cursor c, String field) {
        String text = c.text(field);
        try {
            BigDecimal value = new BigDecimal(text);
            if (value.signum() >= 0) return value;
        } catch (NumberFormatException e) {
            throw c.problem(field, "'" + text + "' is not an amount such as \"120.00\"");
        }
        throw c.problem(field, "'" + text + "' must not be below 0");
    }
}
