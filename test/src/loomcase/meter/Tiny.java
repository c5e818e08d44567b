package loomcase.meter;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Conductor;
import loomcase.model.Connector;
import loomcase.model.ControlUnit;
import loomcase.model.Costs;
import loomcase.model.Device;
import loomcase.model.Joints;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;
import loomcase.model.Wire;
import loomcase.model.Zone;
import loomcase.policy.Policy;
import loomcase.predict.CodeTable;
import loomcase.solve.NetworkSolver;

/**
 * A circuit of a few parts, for closed forms. Control unit with plug J; battery BAT; every device is on its own plug.
 *
 * <pre>
 * BAT ── B/1 ═══ J/1 power      J/2 ground ═══ G      J/3 …  inputs as asked for
 * </pre>
 */
final class Tiny {
    private static final Zone DRY = new Zone("z", 20, Zone.Vibration.LOW, Zone.Fluid.DRY);

    private final Map<String, Connector> connectors = new LinkedHashMap<>();
    private final Map<String, Device> devices = new LinkedHashMap<>();
    private final Map<String, ControlUnit.Pin> pins = new LinkedHashMap<>();
    private final Map<String, Wire> wires = new LinkedHashMap<>();
    private final Map<String, Joints.Splice> splices = new LinkedHashMap<>();
    private final List<String> cavities = new ArrayList<>(List.of("1", "2"));

    Tiny() {
        device("BAT", new Device.Battery(0.001), "positive");
        wire("WB", "C-BAT/1", "J/1", "16mm2", 0.1);
        wire("WG", "J/2", "G", "16mm2", 0.1);
        pins.put("J/1", new ControlUnit.Pin("J/1", "power", new ControlUnit.Power(100), Optional.empty()));
        pins.put("J/2", new ControlUnit.Pin("J/2", "ground", new ControlUnit.GroundPin(), Optional.empty()));
    }

    /** A device on plug {@code C-id}, its roles on cavities 1, 2, … */
    Tiny device(String id, Device.Nature nature, String... roles) {
        Map<String, String> terminals = new LinkedHashMap<>();
        List<String> row = new ArrayList<>();
        for (int i = 0; i < roles.length; i++) {
            terminals.put(roles[i], "C-" + id + "/" + (i + 1));
            row.add(Integer.toString(i + 1));
        }
        devices.put(id, new Device(id, id, nature, terminals, 1, List.of(), List.of()));
        connector("C-" + id, id, row);
        return this;
    }

    private void connector(String id, String mates, List<String> row) {
        connectors.put(id, new Connector(id, id, "N0", mates, List.of(row), "blade", true, DRY, List.of()));
    }

    Tiny pin(String cavity, ControlUnit.PinFunction function) {
        pins.put("J/" + cavity, new ControlUnit.Pin("J/" + cavity, cavity, function, Optional.empty()));
        cavities.add(cavity);
        return this;
    }

    Tiny wire(String id, String from, String to, String size, double metres) {
        wires.put(id, new Wire(id, id, from, to, Conductor.parse(size), "red", "GXL", OptionalDouble.of(metres)));
        return this;
    }

    Tiny splice(String id) {
        splices.put(id, new Joints.Splice(id, id, "B", 0.5));
        return this;
    }

    Circuit circuit() {
        connector("J", "ECM", cavities);
        ControlUnit.Rail rail = new ControlUnit.Rail("5V", 5, 0.001, 1);
        return new Circuit(
                "tiny",
                "tiny",
                "invented for closed forms",
                Map.of(
                        "on",
                        new OperatingPoint(
                                "on", "on", 12, false, 20, List.of(new OperatingPoint.Phase("rest", List.of())))),
                Map.of("B", new Branch("B", "B", "N0", "N1", 1, DRY, 0, List.of(), List.of())),
                connectors,
                splices,
                Map.of("G", new Joints.Ground("G", "G", "N0", 0.0001, List.of())),
                Map.of(),
                devices,
                new ControlUnit("ECM", "ECM", 0, List.of("J"), Map.of("5V", rail), pins, 6),
                wires,
                List.of(),
                Map.of(),
                new Costs("CU", BigDecimal.ONE, BigDecimal.ONE, 1, List.of(), Map.of(), Map.of(), BigDecimal.ONE));
    }

    MeterPrediction meter() {
        return meter(circuit());
    }

    static MeterPrediction meter(Circuit circuit) {
        Layout layout = new Layout(circuit);
        return new MeterPrediction(
                circuit,
                layout,
                new NetworkSolver(circuit, layout),
                new CodeTable(circuit.watches(), Policy.builtIn().decide(List.of(), List.of()), List.of(), 0),
                Observations.builtIn(),
                0.3);
    }
}
