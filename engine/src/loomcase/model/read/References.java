package loomcase.model.read;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.model.AccessStep;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Costs;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.model.Wire;

/**
 * Proves that every name in a circuit leads somewhere and that the loom is a tree.
 *
 * <p>Each problem is one sentence that names the place, what is wrong and the likely remedy.
 */
public final class References {
    private final Circuit circuit;
    private final List<String> problems = new ArrayList<>();

    private References(Circuit circuit) {
        this.circuit = circuit;
    }

    /** Refuses a circuit with unresolved names, naming the first and counting the rest. */
    static void check(Path file, Circuit circuit) {
        List<String> problems = problems(circuit);
        if (problems.isEmpty()) return;
        String more = problems.size() == 1 ? "" : " (and " + (problems.size() - 1) + " more of this sort)";
        throw new InputProblem(file + ": " + Cursor.oneLine(problems.get(0)) + more);
    }

    /** All problems, in file order. */
    public static List<String> problems(Circuit circuit) {
        References r = new References(circuit);
        r.places();
        r.controlUnit();
        r.devices();
        r.wires();
        r.twists();
        r.watches();
        r.access();
        r.costs();
        if (r.problems.isEmpty()) r.problems.addAll(new Layout(circuit).problems());
        return List.copyOf(r.problems);
    }

    private void require(boolean holds, String sentence) {
        if (!holds) problems.add(sentence);
    }

    private void places() {
        Set<String> ids = new HashSet<>();
        Map<String, Set<String>> kinds = new LinkedHashMap<>();
        kinds.put("branch", circuit.branches().keySet());
        kinds.put("connector", circuit.connectors().keySet());
        kinds.put("splice", circuit.splices().keySet());
        kinds.put("ground", circuit.grounds().keySet());
        kinds.put("fuse", circuit.fuses().keySet());
        kinds.put("device", circuit.devices().keySet());
        kinds.put("wire", circuit.wires().keySet());
        kinds.put("control unit", Set.of(circuit.controlUnit().id()));
        kinds.put("rail", circuit.controlUnit().rails().keySet());
        kinds.forEach((kind, names) -> names.forEach(
                id -> require(ids.add(id), kind + " " + id + ": the id is used by another part; give it its own")));
        Set<String> junctions = new HashSet<>();
        for (Branch b : circuit.branches().values()) {
            junctions.add(b.from());
            junctions.add(b.to());
        }
        for (Connector c : circuit.connectors().values()) {
            junction("connector " + c.id(), c.at(), junctions);
            mate(c);
        }
        circuit.grounds().values().forEach(g -> junction("ground " + g.id(), g.at(), junctions));
        circuit.fuses().values().forEach(f -> junction("fuse " + f.id(), f.at(), junctions));
        for (Joints.Splice s : circuit.splices().values()) {
            Branch b = circuit.branches().get(s.branch());
            require(b != null, "splice " + s.id() + ": branch '" + s.branch() + "' does not exist");
            require(
                    b == null || s.metresAlong() <= b.metres(),
                    "splice " + s.id() + ": lies at " + s.metresAlong() + " m, past the end of branch " + s.branch());
        }
    }

    private void junction(String what, String at, Set<String> junctions) {
        require(junctions.contains(at), what + ": hangs at '" + at + "', which is the end of no branch");
    }

    private void mate(Connector c) {
        Connector other = circuit.connectors().get(c.mates());
        if (other != null) {
            require(
                    other.mates().equals(c.id()),
                    "connector " + c.id() + ": mates " + other.id() + ", which mates " + other.mates()
                            + "; the two halves must name each other");
            return;
        }
        boolean unit = c.mates().equals(circuit.controlUnit().id())
                && circuit.controlUnit().connectors().contains(c.id());
        require(
                unit || circuit.devices().containsKey(c.mates()),
                "connector " + c.id() + ": mates '" + c.mates()
                        + "', which is no device, no other connector and no control unit that lists it");
    }

    private boolean cavityExists(String cavity) {
        Connector c = circuit.connectors().get(Names.connectorOf(cavity));
        return c != null && cavity.contains("/") && c.has(Names.cavityOf(cavity));
    }

    private void controlUnit() {
        ControlUnit unit = circuit.controlUnit();
        boolean ground = false;
        boolean power = false;
        for (ControlUnit.Pin pin : unit.pins().values()) {
            require(
                    cavityExists(pin.cavity()) && unit.connectors().contains(Names.connectorOf(pin.cavity())),
                    "control-unit pin " + pin.cavity() + ": is not a cavity of the unit's connectors "
                            + unit.connectors());
            if (pin.function() instanceof ControlUnit.Supply s)
                require(
                        unit.rails().containsKey(s.rail()),
                        "control-unit pin " + pin.cavity() + ": rail '" + s.rail() + "' does not exist");
            ground |= pin.function() instanceof ControlUnit.GroundPin;
            power |= pin.function() instanceof ControlUnit.Power;
        }
        for (String plug : unit.connectors())
            require(
                    circuit.connectors().containsKey(plug)
                            && circuit.connectors().get(plug).mates().equals(unit.id()),
                    "control unit " + unit.id() + ": lists connector '" + plug
                            + "', which is no connector that mates the unit");
        for (String rail : unit.rails().keySet())
            require(
                    !Set.of("ground", "power").contains(rail),
                    "rail " + rail + ": the id is the name of an inside point of every unit; give it another");
        require(ground, "control unit " + unit.id() + ": has no pin with function ground");
        require(power, "control unit " + unit.id() + ": has no pin with function power");
    }

    private void devices() {
        Set<String> taken = new HashSet<>();
        for (Device d : circuit.devices().values())
            d.terminals().forEach((role, cavity) -> {
                Connector c = circuit.connectors().get(Names.connectorOf(cavity));
                require(
                        cavityExists(cavity) && c.mates().equals(d.id()),
                        "device " + d.id() + ": terminal " + role + " lands on '" + cavity
                                + "', which is not a cavity of a connector that mates the device");
                require(taken.add(cavity), "device " + d.id() + ": cavity " + cavity + " carries two terminals");
            });
        for (Device d : circuit.devices().values())
            for (String at : points(d.nature()))
                require(
                        circuit.operatingPoints().containsKey(at),
                        "device " + d.id() + ": has a value for operating point '" + at + "', which does not exist");
    }

    private static Set<String> points(Device.Nature nature) {
        if (nature instanceof Device.Ntc n) return n.celsius().at().keySet();
        if (nature instanceof Device.Ratiometric r) return r.fraction().at().keySet();
        if (nature instanceof Device.MotorWithPosition m)
            return m.position().fraction().at().keySet();
        if (nature instanceof Device.VariableReluctance v)
            return v.peakVolts().at().keySet();
        return Set.of();
    }

    private void costs() {
        for (Costs.Section s : circuit.costs().sections())
            for (String branch : s.branches())
                require(
                        circuit.branches().containsKey(branch),
                        "section " + s.id() + ": branch '" + branch + "' does not exist");
        for (String device : circuit.costs().deviceParts().keySet())
            require(
                    circuit.devices().containsKey(device),
                    "price of a device part: device '" + device + "' does not exist");
    }

    private void wires() {
        for (Wire w : circuit.wires().values())
            for (String end : List.of(w.from(), w.to())) {
                boolean fuse = circuit.fuses().containsKey(Names.connectorOf(end))
                        && Set.of("in", "out").contains(Names.cavityOf(end));
                require(
                        cavityExists(end)
                                || circuit.splices().containsKey(end)
                                || circuit.grounds().containsKey(end)
                                || fuse,
                        "wire " + w.id() + ": end '" + end
                                + "' goes nowhere; use CONNECTOR/CAVITY, a splice, a ground, FUSE/in or FUSE/out");
            }
    }

    private void twists() {
        for (Wire w : circuit.wires().values()) {
            if (w.lay().twistedWith().isEmpty()) continue;
            Wire other = circuit.wires().get(w.lay().twistedWith().get());
            require(
                    other != null
                            && !other.id().equals(w.id())
                            && other.lay().twistedWith().equals(Optional.of(w.id())),
                    "wire " + w.id() + ": twistedWith '" + w.lay().twistedWith().get()
                            + "' must be another wire that names this one in its twistedWith");
        }
    }

    private void watches() {
        Set<String> switchable = new HashSet<>(circuit.devices().keySet());
        switchable.addAll(circuit.controlUnit().pins().keySet());
        for (OperatingPoint op : circuit.operatingPoints().values())
            for (OperatingPoint.Phase phase : op.phases())
                for (String on : phase.on())
                    require(
                            switchable.contains(on),
                            "operating point " + op.id() + ": phase " + phase.id() + " switches on '" + on
                                    + "', which is no device and no control-unit pin");
        for (Watch w : circuit.watches()) {
            for (String pin : w.measure().pins())
                require(
                        circuit.controlUnit().pins().containsKey(pin),
                        "watch " + w.code() + ": measures '" + pin + "', which is no control-unit pin");
            require(!w.operatingPoints().isEmpty(), "watch " + w.code() + ": runs at no operating point; fill 'at'");
            for (String at : w.operatingPoints()) watchPhases(w, at);
            require(
                    w.device().isEmpty() || circuit.devices().containsKey(w.device()),
                    "watch " + w.code() + ": device '" + w.device() + "' does not exist");
            require(
                    w.rail().isEmpty() || circuit.controlUnit().rails().containsKey(w.rail()),
                    "watch " + w.code() + ": rail '" + w.rail() + "' does not exist");
        }
    }

    private void watchPhases(Watch w, String at) {
        OperatingPoint op = circuit.operatingPoints().get(at);
        require(op != null, "watch " + w.code() + ": operating point '" + at + "' does not exist");
        if (op == null) return;
        for (String phase : w.measure().phases())
            require(op.has(phase), "watch " + w.code() + ": operating point " + at + " has no phase '" + phase + "'");
    }

    private void access() {
        Map<String, List<String>> users = new LinkedHashMap<>();
        circuit.branches().values().forEach(b -> users.put("branch " + b.id(), b.access()));
        circuit.connectors().values().forEach(c -> users.put("connector " + c.id(), c.access()));
        circuit.grounds().values().forEach(g -> users.put("ground " + g.id(), g.access()));
        circuit.fuses().values().forEach(f -> users.put("fuse " + f.id(), f.access()));
        circuit.access().values().forEach(s -> users.put("access step " + s.id(), s.needs()));
        users.forEach((who, steps) -> steps.forEach(step ->
                require(circuit.access().containsKey(step), who + ": access step '" + step + "' does not exist")));
        for (AccessStep s : circuit.access().values())
            require(!needs(s.id(), s.id(), new HashSet<>()), "access step " + s.id() + ": needs itself in a circle");
    }

    private boolean needs(String from, String target, Set<String> seen) {
        AccessStep step = circuit.access().get(from);
        if (step == null || !seen.add(from)) return false;
        return step.needs().contains(target) || step.needs().stream().anyMatch(n -> needs(n, target, seen));
    }
}
