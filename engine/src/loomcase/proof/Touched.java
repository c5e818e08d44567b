package loomcase.proof;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import loomcase.journal.Fact;
import loomcase.journal.Spot;
import loomcase.model.Circuit;
import loomcase.model.Copper;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Plugs;
import loomcase.model.Watch;
import loomcase.model.Wire;

/** What the work in a case touched: wires to measure, plugs to look at, watches that could show a slip. */
final class Touched {
    private final Circuit circuit;
    private final Layout layout;
    private final Copper copper;
    private final CaseLines lines;

    Touched(Circuit circuit, Layout layout, CaseLines lines) {
        this.circuit = circuit;
        this.layout = layout;
        this.copper = Copper.of(circuit);
        this.lines = lines;
    }

    /** Wires that the work may have changed, in file order within each place. */
    List<Wire> wires() {
        Set<Wire> out = new LinkedHashSet<>();
        for (var s : lines.work()) {
            Fact.Work w = (Fact.Work) s.fact();
            w.spot().ifPresent(spot -> out.addAll(wires(w.deed(), spot)));
        }
        return List.copyOf(out);
    }

    /** All at a splice, stud or fuse, on a branch or at its rub point; those of a plug only where its terminals were worked at. */
    private List<Wire> wires(Fact.Deed deed, Spot spot) {
        String id = spot.place().id();
        PlaceId.Kind kind = spot.place().kind();
        boolean terminals = deed == Fact.Deed.REPAIRED || deed == Fact.Deed.REPLACED;
        if (kind == PlaceId.Kind.BRANCH)
            return spot.rubPoint()
                    .flatMap(r -> circuit.branches().get(id).rubPoints().stream()
                            .filter(p -> p.id().equals(r))
                            .findFirst())
                    .map(p -> layout.passing(id, p.metresAlong()))
                    .orElseGet(() -> layout.in(id));
        return circuit.wires().values().stream()
                .filter(w -> switch (kind) {
                    case WIRE -> w.id().equals(id);
                    case CAVITY -> w.from().equals(id) || w.to().equals(id);
                    case SPLICE, GROUND -> w.from().equals(id) || w.to().equals(id);
                    case FUSE -> w.endsIn(id);
                    case CONNECTOR -> terminals && w.endsIn(id);
                    default -> false;
                })
                .toList();
    }

    /** Stretches to measure, each once, and a sentence for each wire that no meter reaches on both sides. */
    List<Stretch> stretches(List<String> notes) {
        Stretch.Finder finder = new Stretch.Finder(circuit, opened());
        Map<String, Stretch> out = new LinkedHashMap<>();
        for (Wire w : wires())
            finder.through(w)
                    .ifPresentOrElse(
                            s -> out.putIfAbsent(
                                    s.from().compareTo(s.to()) < 0 ? s.from() + " " + s.to() : s.to() + " " + s.from(),
                                    s),
                            () -> notes.add("wire " + w.id() + " has a side that no meter reaches; look and tug"));
        return List.copyOf(out.values());
    }

    private Set<String> opened() {
        Set<String> out = new LinkedHashSet<>();
        for (var s : lines.all()) if (s.fact() instanceof Fact.OpenedAccess o) out.add(o.step());
        return out;
    }

    /** Plugs that were apart or worked at, of an inline pair the half that was named. */
    List<String> plugs() {
        Set<String> out = new LinkedHashSet<>();
        // A wire repaired in its middle leaves its plugs alone; where they were apart, the journal says so.
        lines.spots().stream()
                .map(Spot::place)
                .filter(p -> p.kind() != PlaceId.Kind.WIRE)
                .forEach(p -> Plugs.at(circuit, p).forEach(out::add));
        lines.lastApart().keySet().forEach(p -> {
            if (!out.contains(circuit.connectors().get(p).mates())) out.add(p);
        });
        return List.copyOf(out);
    }

    /** Nets of the wires worked at and of every cavity of the plugs. */
    private Set<String> nets() {
        Set<String> out = new LinkedHashSet<>();
        wires().forEach(w -> out.add(copper.net(w.from())));
        for (String plug : plugs())
            circuit.connectors().get(plug).rows().forEach(row -> row.forEach(c -> out.add(copper.net(plug + "/" + c))));
        return out;
    }

    /** Watches that measure a pin on a net the work touched. */
    List<Watch> watches() {
        Set<String> nets = nets();
        return circuit.watches().stream()
                .filter(w -> w.measure().pins().stream().anyMatch(p -> nets.contains(copper.net(p))))
                .toList();
    }

    /** True when a healthy harness ties the point to the chassis. */
    boolean grounded(String point) {
        return circuit.grounds().keySet().stream().anyMatch(g -> copper.net(g).equals(copper.net(point)));
    }

    /** True when two points are one piece of copper. */
    boolean same(String a, String b) {
        return copper.net(a).equals(copper.net(b));
    }

    /** Plugs on parts that hang on the net of a point; with these apart nothing but wire is left. */
    List<String> ends(String point) {
        String net = copper.net(point);
        List<String> out = new ArrayList<>();
        for (Wire w : circuit.wires().values())
            for (String end : List.of(w.from(), w.to())) {
                String plug = Names.connectorOf(end);
                if (!copper.net(end).equals(net) || !circuit.connectors().containsKey(plug)) continue;
                boolean inline = circuit.connectors()
                        .containsKey(circuit.connectors().get(plug).mates());
                if (!inline && !out.contains(plug)) out.add(plug);
            }
        return out;
    }
}
