package loomcase.journal;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.model.Branch;
import loomcase.model.Cavities;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.model.read.Spelling;

/** The names that a line of a case may use, taken from the circuit, and the nearest one to a name that is not there. */
public final class CircuitNames {
    private static final String POINTS =
            "a point is CONNECTOR/CAVITY, a splice, a ground stud, FUSE/in, FUSE/out or " + Names.CHASSIS;

    private final Circuit circuit;
    private final Set<String> points = new LinkedHashSet<>();
    private final Map<PlaceId.Kind, Set<String>> places = new LinkedHashMap<>();

    public CircuitNames(Circuit circuit) {
        this.circuit = circuit;
        collectPoints();
        collectPlaces();
    }

    private void collectPoints() {
        points.add(Names.CHASSIS);
        Set<String> filled = Cavities.filled(circuit);
        Set<String> facing = Cavities.facing(circuit);
        for (String cavity : cavities()) {
            if (filled.contains(cavity)) points.add(cavity);
            if (facing.contains(cavity)) points.add(Names.mating(cavity));
        }
        points.addAll(circuit.splices().keySet());
        points.addAll(circuit.grounds().keySet());
        for (String fuse : circuit.fuses().keySet()) points.addAll(List.of(fuse + "/in", fuse + "/out"));
        for (Wire w : circuit.wires().values()) {
            if (circuit.splices().containsKey(w.from())) points.add(Names.end(w.id(), true));
            if (circuit.splices().containsKey(w.to())) points.add(Names.end(w.id(), false));
        }
    }

    private Set<String> cavities() {
        Set<String> out = new LinkedHashSet<>();
        for (Connector c : circuit.connectors().values())
            c.rows().forEach(row -> row.forEach(cavity -> out.add(c.id() + "/" + cavity)));
        return out;
    }

    private void collectPlaces() {
        places.put(PlaceId.Kind.BRANCH, circuit.branches().keySet());
        places.put(PlaceId.Kind.CONNECTOR, circuit.connectors().keySet());
        places.put(PlaceId.Kind.CAVITY, cavities());
        places.put(PlaceId.Kind.SPLICE, circuit.splices().keySet());
        places.put(PlaceId.Kind.WIRE, circuit.wires().keySet());
        places.put(PlaceId.Kind.DEVICE, circuit.devices().keySet());
        places.put(PlaceId.Kind.CONTROL_UNIT, Set.of(circuit.controlUnit().id()));
        places.put(PlaceId.Kind.GROUND, circuit.grounds().keySet());
        places.put(PlaceId.Kind.FUSE, circuit.fuses().keySet());
    }

    /** Every point that a reading may name; a cavity that holds nothing is none. */
    public List<String> points() {
        return List.copyOf(points);
    }

    /** Every place that a look or a wiggle may name, as {@code KIND:ID}, without rub points. */
    public List<String> places() {
        List<String> out = new ArrayList<>();
        places.forEach((kind, ids) -> ids.forEach(id -> out.add(kind.word() + ":" + id)));
        return out;
    }

    /** What is wrong with a point, if anything. */
    Optional<String> point(String point) {
        if (points.contains(point)) return Optional.empty();
        Connector connector = circuit.connectors().get(Names.connectorOf(point));
        if (connector != null && point.contains("/") && connector.has(Names.cavityOf(point)))
            return Optional.of("cavity " + point + " holds no wire and no pin, so there is nothing to read; look at the"
                    + " number again, or write a note");
        if (connector != null && !point.endsWith("~")) {
            List<String> cavities =
                    connector.rows().stream().flatMap(List::stream).toList();
            return Optional.of("connector " + connector.id() + " has no cavity '"
                    + (point.contains("/") ? Names.cavityOf(point) : "") + "'; it has " + String.join(", ", cavities));
        }
        return Optional.of("point '" + point + "' is not in circuit " + circuit.id()
                + nearest(point, points).map(n -> "; did you mean '" + n + "'?").orElse("; " + POINTS));
    }

    /** What is wrong with a name out of a set, if anything. */
    Optional<String> known(String what, String name, Collection<String> allowed) {
        if (allowed.contains(name)) return Optional.empty();
        String help = nearest(name, allowed)
                .map(n -> "; did you mean '" + n + "'?")
                .orElse(
                        allowed.isEmpty()
                                ? "; it has none"
                                : allowed.size() > 30 ? "" : "; there are " + String.join(", ", allowed));
        return Optional.of(what + " '" + name + "' is not in circuit " + circuit.id() + help);
    }

    /** What is wrong with a place, if anything. */
    Optional<String> place(Spot spot) {
        PlaceId place = spot.place();
        Optional<String> bad = known(place.kind().word(), place.id(), places.getOrDefault(place.kind(), Set.of()));
        if (bad.isPresent() || spot.rubPoint().isEmpty()) return bad;
        Branch branch = circuit.branches().get(place.id());
        return known(
                "rub point on branch " + branch.id(),
                spot.rubPoint().get(),
                branch.rubPoints().stream().map(Branch.RubPoint::id).toList());
    }

    /**
     * The place that a person means: an id, or {@code KIND:ID} where an id is used twice; a rub point by its id or as
     * {@code BRANCH@RUBPOINT}.
     *
     * @throws InputProblem when no place, or more than one, is called so
     */
    public Spot spot(String text) {
        Map<String, Spot> named = named();
        List<String> fitting = named.keySet().stream()
                .filter(k -> k.equals(text) || k.substring(k.indexOf(':') + 1).equals(text))
                .toList();
        if (fitting.size() == 1) return named.get(fitting.get(0));
        if (!fitting.isEmpty())
            throw new InputProblem("place '" + text + "' may be " + String.join(" or ", fitting) + "; write it so");
        Set<String> bare = new LinkedHashSet<>();
        named.keySet().forEach(k -> bare.add(k.substring(k.indexOf(':') + 1)));
        throw new InputProblem("place '" + text + "' is not in circuit " + circuit.id()
                + nearest(text, bare)
                        .map(n -> "; did you mean '" + n + "'?")
                        .orElse("; a place is a branch, connector, cavity, splice, wire, device, ground, fuse, rub"
                                + " point or the control unit"));
    }

    /** All places by {@code KIND:ID}, rub points twice: alone and behind their branch. */
    private Map<String, Spot> named() {
        Map<String, Spot> out = new LinkedHashMap<>();
        places.forEach((kind, ids) -> ids.forEach(id -> {
            Spot spot = Spot.of(kind, id);
            out.put(spot.written(), spot);
        }));
        for (Branch b : circuit.branches().values())
            for (Branch.RubPoint r : b.rubPoints()) {
                Spot spot = new Spot(new PlaceId(PlaceId.Kind.BRANCH, b.id()), Optional.of(r.id()));
                out.put(spot.written(), spot);
                out.put("rub-point-on-" + b.id() + ":" + r.id(), spot);
            }
        return out;
    }

    /** The name that a slip of the finger is nearest to. */
    static Optional<String> nearest(String name, Collection<String> allowed) {
        List<String> all = new ArrayList<>(allowed);
        return all.stream()
                .filter(a -> {
                    int slips = Spelling.distance(a, name);
                    return slips <= 2 && slips < Math.max(a.length(), name.length()) - 1;
                })
                .min(Comparator.comparingInt((String a) -> Spelling.distance(a, name))
                        .thenComparing(Comparator.naturalOrder()));
    }
}
