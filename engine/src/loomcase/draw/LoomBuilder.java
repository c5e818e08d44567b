package loomcase.draw;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.draw.Loom.Junction;
import loomcase.draw.Loom.Leaf;
import loomcase.draw.Loom.Limb;
import loomcase.draw.Loom.Part;
import loomcase.draw.Loom.Shape;
import loomcase.draw.Loom.Stop;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Joints;
import loomcase.model.Layout;
import loomcase.model.PlaceId;

/**
 * Turns a circuit into a {@link Loom}: walks the branches outward from the control unit's first plug.
 *
 * <p>A branch that closes a loop becomes a leaf that names where it leads; junctions that no branch joins to the rest
 * become trees of their own, so a circuit that fails its check can still be looked at.
 */
final class LoomBuilder {
    private final Circuit circuit;
    private final Layout layout;
    private final Suspicion suspicion;
    private final LeafBuilder leaves;
    private final Map<String, List<Branch>> at = new LinkedHashMap<>();
    private final Map<String, List<Stop>> stops = new LinkedHashMap<>();
    private final Set<String> reached = new HashSet<>();
    private final Set<String> walked = new HashSet<>();

    private LoomBuilder(Circuit circuit, Layout layout, Suspicion suspicion) {
        this.circuit = circuit;
        this.layout = layout;
        this.suspicion = suspicion;
        this.leaves = new LeafBuilder(circuit, suspicion);
    }

    /** The tree of a circuit, with the suspected wires and cavities in it. */
    static Loom build(Circuit circuit, Layout layout, Suspicion suspicion) {
        suspicion.check(circuit);
        return new LoomBuilder(circuit, layout, suspicion).loom();
    }

    private Loom loom() {
        for (Branch b : circuit.branches().values()) {
            at.computeIfAbsent(b.from(), k -> new ArrayList<>()).add(b);
            if (!b.to().equals(b.from()))
                at.computeIfAbsent(b.to(), k -> new ArrayList<>()).add(b);
        }
        placeStops();
        String root = root();
        List<List<Part>> unitPlugs = leaves.unitPlugs(root);
        List<Junction> trees = new ArrayList<>(List.of(grow(root)));
        for (String junction : junctions()) if (!reached.contains(junction)) trees.add(grow(junction));
        List<Part> engine = new ArrayList<>();
        for (PlaceId p : named())
            if (p.kind() == PlaceId.Kind.ENGINE && suspicion.shows(p))
                engine.add(new Part(Optional.of(p), Shape.ENGINE, p.id(), leaves.conditionLabel(p.id())));
        return new Loom(unitPlugs, trees, engine);
    }

    private String root() {
        for (String plug : circuit.controlUnit().connectors())
            if (circuit.connectors().containsKey(plug))
                return circuit.connectors().get(plug).at();
        Set<String> all = junctions();
        return all.isEmpty() ? circuit.controlUnit().id() : all.iterator().next();
    }

    private Set<String> junctions() {
        Set<String> all = new LinkedHashSet<>(at.keySet());
        circuit.connectors().values().forEach(c -> all.add(c.at()));
        circuit.fuses().values().forEach(f -> all.add(f.at()));
        circuit.grounds().values().forEach(g -> all.add(g.at()));
        return all;
    }

    /** Places that the suspicion names, in its order. */
    private Set<PlaceId> named() {
        Set<PlaceId> out = new LinkedHashSet<>(suspicion.shares().keySet());
        suspicion.marks().forEach(m -> out.add(m.place()));
        return out;
    }

    private void placeStops() {
        circuit.splices()
                .values()
                .forEach(s -> stop(
                        s.branch(), Part.of(PlaceId.Kind.SPLICE, Shape.SPLICE, s.id(), s.label()), s.metresAlong()));
        for (Branch b : circuit.branches().values())
            for (Branch.RubPoint r : b.rubPoints())
                stop(b.id(), new Part(Optional.empty(), Shape.RUB, r.id(), r.label()), r.metresAlong());
        for (PlaceId p : named()) if (p.kind() == PlaceId.Kind.WIRE && suspicion.shows(p)) placeWire(p.id());
    }

    private void stop(String branch, Part part, double metresAlong) {
        stops.computeIfAbsent(branch, k -> new ArrayList<>()).add(new Stop(part, metresAlong));
    }

    /** A suspected wire is called out in the middle of its longest run, or at its junction when it has none. */
    private void placeWire(String wire) {
        Part part = Part.of(
                PlaceId.Kind.WIRE, Shape.WIRE, wire, circuit.wires().get(wire).circuit());
        Optional<Layout.Run> longest = Optional.empty();
        for (Layout.Run r : layout.runs(wire))
            if (longest.isEmpty() || r.metres() > longest.get().metres()) longest = Optional.of(r);
        if (longest.isPresent())
            stop(
                    longest.get().branch(),
                    part,
                    (longest.get().fromMetres() + longest.get().toMetres()) / 2);
        else placeShort(circuit.wires().get(wire).from(), part);
    }

    private void placeShort(String end, Part part) {
        Joints.Splice splice = circuit.splices().get(end);
        if (splice != null && circuit.branches().containsKey(splice.branch()))
            stop(splice.branch(), part, splice.metresAlong());
        else leaves.add(splice == null ? layout.whereIs(end).orElse(root()) : root(), part);
    }

    private Junction grow(String junction) {
        reached.add(junction);
        List<Limb> limbs = new ArrayList<>();
        List<Leaf> loops = new ArrayList<>();
        for (Branch b : at.getOrDefault(junction, List.of())) {
            if (!walked.add(b.id())) continue;
            String next = b.from().equals(junction) ? b.to() : b.from();
            Part part = Part.of(PlaceId.Kind.BRANCH, Shape.BRANCH, b.id(), b.label());
            if (reached.contains(next)) {
                List<Part> inLine = new ArrayList<>(List.of(part));
                outward(b, false).forEach(s -> inLine.add(s.part()));
                loops.add(new Leaf(inLine, b.label() + ": closes a loop at " + next));
            } else {
                boolean reversed = !b.from().equals(junction);
                int wires = layout.in(b.id()).size();
                limbs.add(new Limb(b, reversed, wires, outward(b, reversed), grow(next)));
            }
        }
        List<Leaf> rows = new ArrayList<>(leaves.at(junction));
        rows.addAll(loops);
        return new Junction(junction, List.copyOf(rows), List.copyOf(limbs));
    }

    private List<Stop> outward(Branch b, boolean reversed) {
        return stops.getOrDefault(b.id(), List.of()).stream()
                .map(s -> reversed ? new Stop(s.part(), b.metres() - s.metres()) : s)
                .sorted(Comparator.comparingDouble(Stop::metres)
                        .thenComparing(s -> s.part().id()))
                .toList();
    }
}
