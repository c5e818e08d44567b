package loomcase.model.read;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.regex.Pattern;
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

    /** Sizes beyond AWG 0 (00, 000 …) are left out on purpose: as numbers they would be read as 0. */
    static final Pattern SIZE = Pattern.compile("(AWG|awg) ?([0-9]|[1-3][0-9]|40)|[0-9]{1,3}([.][0-9]{1,4})? ?mm2");

    private static final List<String> REPAIR_PARTS = List.of("terminal", "pigtail", "splice", "sealing");
    private static final Pattern AMOUNT = Pattern.compile("[0-9]{1,12}([.][0-9]{1,4})?");

    private final Cursor root;
    private final Map<String, Zone> zones;

    private CircuitReader(Cursor root) {
        this.root = root;
        this.zones = keyed(root.some("zones"), CircuitReader::zone, Zone::id);
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
                root.name("id"),
                root.text("title"),
                root.text("origin"),
                keyed(root.some("operatingPoints"), CircuitReader::operatingPoint, OperatingPoint::id),
                keyed(root.some("branches"), this::branch, Branch::id),
                keyed(root.some("connectors"), this::connector, Connector::id),
                keyed(root.objects("splices"), CircuitReader::splice, Joints.Splice::id),
                keyed(root.objects("grounds"), CircuitReader::ground, Joints.Ground::id),
                keyed(root.objects("fuses"), CircuitReader::fuse, Joints.Fuse::id),
                keyed(root.some("devices"), DeviceReader::device, Device::id),
                ControlUnitReader.controlUnit(root.object("controlUnit")),
                keyed(root.some("wires"), CircuitReader::wire, Wire::id),
                watches(),
                keyed(root.objects("access"), CircuitReader::step, AccessStep::id),
                costs(root.object("costs")));
    }

    /** Reads a list of entries whose ids must differ. */
    static <T> Map<String, T> keyed(List<Cursor> list, Function<Cursor, T> read, Function<T, String> id) {
        Map<String, T> out = new LinkedHashMap<>();
        for (Cursor c : list) {
            T value = read.apply(c);
            c.done();
            if (out.put(id.apply(value), value) != null)
                throw c.problem("id", "'" + id.apply(value) + "' is used twice in this list");
        }
        return out;
    }

    private List<Watch> watches() {
        List<Watch> out = new ArrayList<>();
        for (Cursor c : root.some("watches")) {
            out.add(WatchReader.watch(c));
            c.done();
        }
        return out;
    }

    private static Zone zone(Cursor c) {
        return new Zone(
                c.name("id"),
                c.number("celsius", -60, 400),
                c.word("vibration", Zone.Vibration.class),
                c.word("fluid", Zone.Fluid.class));
    }

    private static OperatingPoint operatingPoint(Cursor c) {
        Map<String, OperatingPoint.Phase> phases = keyed(
                c.some("phases"), p -> new OperatingPoint.Phase(p.name("id"), p.texts("on")), OperatingPoint.Phase::id);
        String id = c.name("id");
        if (id.equals(DeviceReader.USUAL))
            throw c.problem("id", "'" + id + "' is the word for every operating point without a value of its own");
        return new OperatingPoint(
                id,
                c.text("label"),
                c.number("batteryVolts", 0, 60),
                c.flag("engineRunning", false),
                c.number("wireCelsius", -60, 200, 20),
                List.copyOf(phases.values()));
    }

    private Zone zoneOf(Cursor c) {
        Zone zone = zones.get(c.text("zone"));
        if (zone == null) throw c.problem("zone", "'" + c.text("zone") + "' is not one of " + zones.keySet());
        return zone;
    }

    private Branch branch(Cursor c) {
        double metres = c.number("metres", 0.01, 100);
        Map<String, Branch.RubPoint> rubs = keyed(
                c.objects("rubPoints"),
                r -> new Branch.RubPoint(r.name("id"), r.text("label"), r.number("metresAlong", 0, metres)),
                Branch.RubPoint::id);
        return new Branch(
                c.name("id"),
                c.text("label"),
                c.name("from"),
                c.name("to"),
                metres,
                zoneOf(c),
                c.has("clips") ? c.whole("clips", 0, 1000) : 0,
                List.copyOf(rubs.values()),
                c.texts("access"),
                build(c));
    }

    private static Branch.Build build(Cursor c) {
        return new Branch.Build(
                c.has("cover") ? c.word("cover", Branch.Cover.class) : Branch.Build.USUAL.cover(),
                c.flag("flexes", false),
                c.texts("brackets"));
    }

    private Connector connector(Cursor c) {
        List<List<String>> rows = new ArrayList<>();
        for (String row : c.someTexts("rows")) rows.add(List.of(row.trim().split("\\s+")));
        List<String> cavities = rows.stream().flatMap(List::stream).toList();
        for (String cavity : cavities)
            if (!Cursor.isName(cavity))
                throw c.problem("rows", "'" + cavity + "' is no cavity name; write a row as \"1 2 3\"");
        if (cavities.stream().distinct().count() != cavities.size()) throw c.problem("rows", "names a cavity twice");
        return new Connector(
                c.name("id"),
                c.text("label"),
                c.name("at"),
                c.name("mates"),
                rows,
                c.text("terminal", ""),
                c.flag("sealed", false),
                zoneOf(c),
                c.texts("access"),
                c.has("shell") ? Optional.of(shell(c.object("shell"))) : Optional.empty());
    }

    private static Connector.Shell shell(Cursor c) {
        Connector.Shell shell = new Connector.Shell(
                c.text("keying", ""),
                c.text("colour", ""),
                c.text("latch", ""),
                c.text("seal", ""),
                c.flag("secondaryLock", false));
        c.done();
        return shell;
    }

    private static Joints.Splice splice(Cursor c) {
        return new Joints.Splice(c.name("id"), c.text("label"), c.name("branch"), c.number("metresAlong", 0, 100));
    }

    private static Joints.Ground ground(Cursor c) {
        return new Joints.Ground(
                c.name("id"), c.text("label"), c.name("at"), c.number("ohms", 1e-6, 1000, 0.001), c.texts("access"));
    }

    private static Joints.Fuse fuse(Cursor c) {
        return new Joints.Fuse(
                c.name("id"),
                c.text("label"),
                c.name("at"),
                c.number("amperes", 0.1, 1000),
                c.number("ohms", 1e-5, 10, 0.005),
                c.texts("access"));
    }

    private static Wire wire(Cursor c) {
        String from = c.id("from");
        String to = c.id("to");
        if (from.equals(to)) throw c.problem("to", "'" + to + "' is where the wire starts; a wire joins two points");
        return new Wire(
                c.name("id"),
                c.text("circuit"),
                from,
                to,
                size(c),
                c.text("colour", ""),
                c.text("insulation", ""),
                c.has("metres") ? OptionalDouble.of(c.number("metres", 0.001, 100)) : OptionalDouble.empty(),
                new Wire.Lay(
                        c.has("twistedWith") ? Optional.of(c.name("twistedWith")) : Optional.empty(),
                        c.flag("shielded", false),
                        maybeText(c, "noSplice")));
    }

    private static Optional<String> maybeText(Cursor c, String field) {
        return c.has(field) ? Optional.of(c.text(field)) : Optional.empty();
    }

    private static Conductor size(Cursor c) {
        String size = c.text("size");
        if (!SIZE.matcher(size).matches())
            throw c.problem("size", "'" + size + "' is not a size; write it as AWG18 (0 to 40) or 1.5mm2");
        try {
            return Conductor.parse(size);
        } catch (IllegalArgumentException e) {
            throw c.problem("size", e.getMessage());
        }
    }

    private static AccessStep step(Cursor c) {
        return new AccessStep(
                c.name("id"),
                c.text("label"),
                c.number("minutes", 0, 10000),
                c.text("caution", ""),
                c.texts("needs"),
                c.texts("after"),
                c.texts("tools"));
    }

    private static Costs costs(Cursor c) {
        Map<String, Costs.Section> sections = keyed(
                c.objects("sections"),
                s -> new Costs.Section(
                        s.name("id"), s.texts("branches"), money(s, "part"), s.number("minutes", 0, 100000)),
                Costs.Section::id);
        Costs costs = new Costs(
                c.text("currency"),
                money(c, "labourPerHour"),
                money(c, "harnessPart"),
                c.number("harnessMinutes", 0, 100000),
                List.copyOf(sections.values()),
                repairParts(c),
                prices(c, "deviceParts"),
                money(c, "controlUnitPart"),
                c.has("downtimePerHour") ? money(c, "downtimePerHour") : BigDecimal.ZERO);
        c.done();
        return costs;
    }

    private static Map<String, BigDecimal> repairParts(Cursor c) {
        Map<String, BigDecimal> out = new LinkedHashMap<>();
        if (!c.has("repairParts")) return out;
        Cursor list = c.object("repairParts");
        for (String part : REPAIR_PARTS) if (list.has(part)) out.put(part, money(list, part));
        list.done();
        return out;
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
        if (!AMOUNT.matcher(text).matches())
            throw c.problem(field, "'" + text + "' is not an amount such as \"120.00\", 0 or more");
        return new BigDecimal(text);
    }
}
