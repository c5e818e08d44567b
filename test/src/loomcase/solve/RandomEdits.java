package loomcase.solve;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.read.CircuitReader;

/** Draws edits of every kind on random elements and points of a circuit, from a seed. */
final class RandomEdits {
    final Circuit circuit;
    final Layout layout;
    private final Random random;
    private final List<String> elements;
    private final List<String> points;
    private final List<String> supplies = new ArrayList<>();
    private final List<String> dead = new ArrayList<>();

    RandomEdits(Circuit circuit, long seed) {
        this.circuit = circuit;
        this.layout = new Layout(circuit);
        this.random = new Random(seed);
        OperatingPoint op = circuit.operatingPoints().values().iterator().next();
        Netlist net = NetlistBuilder.build(circuit, layout, op, op.phases().get(0));
        this.elements = net.elements().stream().map(Netlist.Element::name).toList();
        this.points = net.nodeNames();
        supplies.add(Names.CHASSIS);
        for (Device d : circuit.devices().values())
            if (d.nature() instanceof Device.Battery)
                supplies.add(Names.mating(d.terminals().get("positive")));
        circuit.controlUnit().rails().keySet().stream().sorted().forEach(r -> {
            supplies.add(Names.inside(circuit.controlUnit().id(), r));
            dead.add(r);
        });
        dead.addAll(circuit.devices().keySet());
    }

    static Circuit circuit(String name) {
        return CircuitReader.read(Path.of("circuits", name + ".json"));
    }

    /** One operating point and phase. */
    record When(String operatingPoint, String phase) {}

    When when() {
        OperatingPoint op = pick(List.copyOf(circuit.operatingPoints().values()));
        return new When(op.id(), pick(op.phases()).id());
    }

    /** One to three edits, or all wires of a branch open. */
    List<Edit> edits() {
        if (random.nextInt(25) == 0) return branchCut();
        List<Edit> out = new ArrayList<>();
        int count = 1 + random.nextInt(3);
        for (int i = 0; i < count; i++) out.add(edit());
        return out;
    }

    private Edit edit() {
        return switch (random.nextInt(9)) {
            case 0, 1 -> new Edit.Series(pick(elements), Edit.OPEN_OHMS);
            case 2 -> new Edit.Series(pick(elements), logUniform(0.2, 1e5));
            case 3 -> new Edit.Bridge(pick(points), Names.CHASSIS, Edit.SHORT_OHMS);
            case 4 -> new Edit.Bridge(pick(points), pick(supplies), Edit.SHORT_OHMS);
            case 5 -> new Edit.Bridge(pick(points), pick(supplies), logUniform(1, 1e5));
            case 6 -> new Edit.Bridge(pick(points), pick(points), logUniform(0.5, 1e4));
            case 7 -> new Edit.Dead(pick(dead));
            default -> value();
        };
    }

    private Edit value() {
        Device d = pick(List.copyOf(circuit.devices().values()));
        if (d.nature() instanceof Device.Ntc)
            return new Edit.Value(d.id(), Edit.Quantity.CELSIUS, -40 + 160 * random.nextDouble());
        if (d.nature() instanceof Device.Ratiometric || d.nature() instanceof Device.MotorWithPosition)
            return new Edit.Value(d.id(), Edit.Quantity.FRACTION, random.nextDouble());
        if (d.nature() instanceof Device.Battery)
            return new Edit.Value(d.id(), Edit.Quantity.VOLTS, 6 + 8 * random.nextDouble());
        return new Edit.Value(d.id(), Edit.Quantity.OHMS_FACTOR, logUniform(0.1, 10));
    }

    private List<Edit> branchCut() {
        String branch = pick(List.copyOf(circuit.branches().keySet()));
        List<Edit> out = new ArrayList<>();
        layout.in(branch).forEach(w -> out.add(new Edit.Series(Names.wire(w.id()), Edit.OPEN_OHMS)));
        return out;
    }

    private double logUniform(double low, double high) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    private <T> T pick(List<T> from) {
        return from.get(random.nextInt(from.size()));
    }

    /** Elements changed by edits, in words, for a failure message. */
    static String words(When when, List<Edit> edits) {
        return Map.entry(when, edits.size() > 5 ? edits.subList(0, 5) + " and more" : edits)
                .toString();
    }
}
