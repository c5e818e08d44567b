package loomcase.verdict;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.model.Access;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Device;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.model.Zone;

/** The harness as somebody about to repair it asks: which wires, which branch, how much slack, what price, what beside it. */
final class Loom {
    /** Findings that are damage to the wires of a branch at one spot. */
    private static final Set<String> DAMAGE =
            Set.of("chafe", "cut", "pinched", "broken-strands", "melted", "green-copper", "burnt-terminal");

    /** Findings that spread along a wire, so that a stretch has to be let in. */
    private static final Set<String> SPREADING =
            Set.of("melted", "green-copper", "oil-in-plug", "coolant-in-plug", "burnt-terminal");

    final Circuit circuit;
    final Layout layout;
    final Carried carried;
    final SpliceSites sites;
    private final Access access;
    private final Situation situation;

    Loom(Circuit circuit, Layout layout, Situation situation) {
        this.circuit = circuit;
        this.layout = layout;
        this.situation = situation;
        this.carried = new Carried(circuit);
        this.sites = new SpliceSites(circuit, layout);
        this.access = new Access(circuit);
    }

    Wire wire(String id) {
        return circuit.wires().get(id);
    }

    /** Ids of the wires that end at a point. */
    List<String> at(String point) {
        return circuit.wires().values().stream()
                .filter(w -> w.from().equals(point) || w.to().equals(point))
                .map(Wire::id)
                .toList();
    }

    /** Cavities of a connector in which a wire ends, in file order. */
    List<String> used(String connector) {
        return circuit.connectors().get(connector).rows().stream()
                .flatMap(List::stream)
                .map(c -> connector + "/" + c)
                .filter(c -> !at(c).isEmpty())
                .toList();
    }

    /** A connector and, of an inline pair, its other half. */
    List<String> halves(String connector) {
        String mate = circuit.connectors().get(connector).mates();
        return circuit.connectors().containsKey(mate) ? List.of(connector, mate) : List.of(connector);
    }

    boolean isControlUnitPlug(String connector) {
        return circuit.controlUnit().connectors().contains(connector);
    }

    /** Access steps of several places, each once. */
    List<String> steps(List<PlaceId> places) {
        Set<String> out = new LinkedHashSet<>();
        places.forEach(p -> out.addAll(access.steps(p)));
        return List.copyOf(out);
    }

    double minutes(List<String> steps) {
        return access.minutes(steps, Set.of());
    }

    /** Minutes of the steps that are still closed. */
    double closedMinutes(List<String> steps, Set<String> open) {
        return access.minutes(steps, open);
    }

    /** Where somebody saw damage to wires on this branch; empty when nobody did or the spot is not known. */
    OptionalDouble spot(String branch) {
        return situation.seen().stream()
                .filter(s -> s.place().equals(new PlaceId(PlaceId.Kind.BRANCH, branch)))
                .filter(s -> DAMAGE.contains(s.finding()))
                .map(Sighting::metresAlong)
                .filter(OptionalDouble::isPresent)
                .findFirst()
                .orElse(OptionalDouble.empty());
    }

    /** Whether damage to wires was seen at a place. */
    boolean damageSeen(PlaceId place) {
        return situation.seen().stream()
                .anyMatch(s -> DAMAGE.contains(s.finding()) && s.place().equals(place));
    }

    boolean damageSeen(String branch) {
        return damageSeen(new PlaceId(PlaceId.Kind.BRANCH, branch));
    }

    /** Whether what was seen on the branch spreads along the wires. */
    boolean spreads(String branch) {
        return findings(List.of(branch), List.of()).stream().anyMatch(SPREADING::contains);
    }

    /** Findings on branches and at other places, each once, in the order in which they were seen. */
    List<String> findings(List<String> branches, List<PlaceId> places) {
        Set<String> out = new LinkedHashSet<>();
        for (Sighting s : situation.seen()) {
            boolean here = places.contains(s.place())
                    || s.place().kind() == PlaceId.Kind.BRANCH
                            && branches.contains(s.place().id());
            if (here) out.add(s.finding());
        }
        return List.copyOf(out);
    }

    Situation situation() {
        return situation;
    }

    /** The branch in which a wire is most likely to be hurt: where damage was seen, else a rub point, else the longest run. */
    Optional<String> likeliestBranch(String wire) {
        List<Layout.Run> runs = layout.runs(wire);
        return runs.stream()
                .max(Comparator.comparingDouble((Layout.Run r) -> damageSeen(r.branch())
                                ? 2
                                : circuit.branches().get(r.branch()).rubPoints().stream()
                                                .anyMatch(p -> r.passes(p.metresAlong()))
                                        ? 1
                                        : 0)
                        .thenComparingDouble(Layout.Run::metres))
                .map(Layout.Run::branch);
    }

    /** The branch that a wire takes from a plug; empty when the wire stays at one junction. */
    Optional<String> branchFrom(String wire, String cavity) {
        List<Layout.Run> runs = layout.runs(wire);
        if (runs.isEmpty()) return Optional.empty();
        boolean first = wire(wire).from().equals(cavity);
        return Optional.of(runs.get(first ? 0 : runs.size() - 1).branch());
    }

    /** Wire in metres that can be given away at a plug: what the stated length has over the route, or the usual tail. */
    double slack(String wire) {
        double route =
                layout.runs(wire).stream().mapToDouble(Layout.Run::metres).sum();
        OptionalDouble given = wire(wire).givenMetres();
        return Math.max(Layout.TAIL_METRES, given.isPresent() ? given.getAsDouble() - route : 0);
    }

    /** Price of a small part; zero where the circuit file has none. */
    BigDecimal price(String part) {
        return circuit.costs().repairParts().getOrDefault(part, BigDecimal.ZERO);
    }

    /** Zone of a place; of several branches the one named first. */
    Zone zone(PlaceId p) {
        return switch (p.kind()) {
            case BRANCH -> circuit.branches().get(p.id()).zone();
            case SPLICE ->
                circuit.branches().get(circuit.splices().get(p.id()).branch()).zone();
            case CAVITY -> circuit.connectors().get(Names.connectorOf(p.id())).zone();
            case CONNECTOR -> circuit.connectors().get(p.id()).zone();
            case WIRE ->
                likeliestBranch(p.id())
                        .map(b -> circuit.branches().get(b).zone())
                        .orElseGet(this::anyZone);
            case DEVICE -> {
                Device d = circuit.devices().get(p.id());
                yield d.terminals().values().stream()
                        .findFirst()
                        .map(t -> circuit.connectors().get(Names.connectorOf(t)).zone())
                        .orElseGet(this::anyZone);
            }
            case CONTROL_UNIT -> {
                List<String> plugs = circuit.controlUnit().connectors();
                yield plugs.isEmpty()
                        ? anyZone()
                        : circuit.connectors().get(plugs.get(0)).zone();
            }
            case GROUND, FUSE, ENGINE -> anyZone();
        };
    }

    private Zone anyZone() {
        return new Zone("reference", 75, Zone.Vibration.MEDIUM, Zone.Fluid.DRY);
    }

    /** Other circuits in a branch, in words, at most so many named. */
    List<String> beside(String branch, List<String> wires, int most) {
        List<String> all = layout.in(branch).stream()
                .filter(w -> !wires.contains(w.id()))
                .map(w -> w.id() + " " + w.circuit())
                .toList();
        List<String> out = new ArrayList<>(all.subList(0, Math.min(most, all.size())));
        if (all.size() > most) out.add((all.size() - most) + " more in branch " + branch);
        return out;
    }

    /** Branches that meet at a junction. */
    List<String> meetingAt(String junction) {
        return circuit.branches().values().stream()
                .filter(b -> b.from().equals(junction) || b.to().equals(junction))
                .map(Branch::id)
                .toList();
    }

    /** Label of a connector with its id. */
    String name(String connector) {
        Connector c = circuit.connectors().get(connector);
        return c.label() + " (" + c.id() + ")";
    }
}
