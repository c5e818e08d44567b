package loomcase.faults;

import java.util.ArrayList;
import java.util.List;
import loomcase.faults.FaultGenerator.Context;
import loomcase.model.Branch;
import loomcase.model.Connector;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/** One event that hits several circuits: wear, heat, a crushed clip, fluid, a plug not home, a cut, a mix-up. */
final class CommonCauses {
    private static final double FLOODED_OHMS = 5_000;

    private final Context c;

    CommonCauses(Context context) {
        this.c = context;
    }

    List<Hypothesis> generate() {
        List<Hypothesis> out = new ArrayList<>();
        for (Branch b : c.circuit().branches().values()) branch(out, b);
        for (Connector connector : JointFaults.connectors(c)) connector(out, connector);
        return out;
    }

    private void branch(List<Hypothesis> out, Branch b) {
        PlaceId place = FaultGenerator.place(PlaceId.Kind.BRANCH, b.id());
        double factor = c.exposure().factor(b.zone());
        String name = "branch " + b.id() + " (" + b.label() + ")";
        for (Branch.RubPoint r : b.rubPoints()) {
            List<Wire> here = c.layout().passing(b.id(), r.metresAlong());
            String where = name + " worn through at " + r.id() + " (" + r.label() + ")";
            double share = c.priors().get("observe.hit-share.rub-point");
            anyOf(
                    out,
                    "common.rub-point.ground",
                    place,
                    r.id(),
                    where + ", wires to ground",
                    factor,
                    toGround(here),
                    share,
                    false);
            anyOf(
                    out,
                    "common.rub-point.neighbour",
                    place,
                    r.id(),
                    where + ", wires to each other",
                    factor,
                    touching(here),
                    share,
                    true);
            anyOf(
                    out,
                    "common.rub-point.open",
                    place,
                    r.id(),
                    where + ", wires broken",
                    factor,
                    broken(here),
                    share,
                    false);
        }
        List<Wire> all = c.layout().in(b.id());
        anyOf(
                out,
                "common.hot-spot",
                place,
                "",
                name + " melted, wires to each other",
                factor,
                touching(all),
                c.priors().get("observe.hit-share.hot-spot"),
                true);
        double clips = factor * b.clips();
        anyOf(
                out,
                "common.crushed-clip",
                place,
                "ground",
                name + " crushed at a clip, wires to ground",
                clips / 2,
                toGround(all),
                c.priors().get("observe.hit-share.crushed-clip"),
                false);
        anyOf(
                out,
                "common.crushed-clip",
                place,
                "broken",
                name + " crushed at a clip, wires broken",
                clips / 2,
                broken(all),
                c.priors().get("observe.hit-share.crushed-clip"),
                false);
        List<Edit> cut = all.stream()
                .<Edit>map(w -> new Edit.Series(Names.wire(w.id()), Edit.OPEN_OHMS))
                .toList();
        if (all.size() > 1)
            out.add(c.fixed("common.branch-cut", List.of(place), "", name + " cut through", factor, false, cut));
    }

    private void anyOf(
            List<Hypothesis> out,
            String family,
            PlaceId place,
            String size,
            String words,
            double exposure,
            List<Hypothesis.Hit> hits,
            double share,
            boolean together) {
        int least = together ? 2 : 1;
        if (hits.size() < 2) return;
        String id = family + " " + place.id() + (size.isEmpty() ? "" : " " + size);
        out.add(new Hypothesis(
                id,
                family,
                List.of(place),
                words,
                new Hypothesis.AnyOf(hits, share, least, together),
                c.priors().probability(family, exposure),
                false));
    }

    private List<Hypothesis.Hit> toGround(List<Wire> wires) {
        return wires.stream()
                .filter(w -> c.nets().kind(c.nets().of(w)) != Nets.Kind.GROUND)
                .map(w -> hit(w, List.of(new Edit.Bridge(WireFaults.point(w), Names.CHASSIS, Edit.SHORT_OHMS))))
                .toList();
    }

    private List<Hypothesis.Hit> touching(List<Wire> wires) {
        return wires.stream().map(w -> hit(w, List.of())).toList();
    }

    private List<Hypothesis.Hit> broken(List<Wire> wires) {
        return wires.stream()
                .map(w -> hit(w, List.of(new Edit.Series(Names.wire(w.id()), Edit.OPEN_OHMS))))
                .toList();
    }

    private Hypothesis.Hit hit(Wire w, List<Edit> edits) {
        return hit(FaultGenerator.place(PlaceId.Kind.WIRE, w.id()), WireFaults.point(w), edits);
    }

    private Hypothesis.Hit hit(PlaceId place, String point, List<Edit> edits) {
        String net = c.nets().of(point);
        return new Hypothesis.Hit(place, point, net, c.nets().isHeld(net), edits, 1);
    }

    private void connector(List<Hypothesis> out, Connector connector) {
        List<String> cavities = JointFaults.usedCavities(c, connector);
        if (cavities.isEmpty()) return;
        PlaceId place = FaultGenerator.place(PlaceId.Kind.CONNECTOR, connector.id());
        double factor = c.exposure().factor(connector.zone());
        String name = connector.label() + " (" + connector.id() + ")";
        List<Edit> open = cavities.stream().<Edit>map(TerminalSlips::open).toList();
        if (cavities.size() > 1) {
            out.add(c.fixed("common.unplugged", List.of(place), "", name + " unplugged", factor, false, open));
            List<Hypothesis.Hit> hits = cavities.stream()
                    .map(x -> hit(FaultGenerator.place(PlaceId.Kind.CAVITY, x), x, List.of(TerminalSlips.open(x))))
                    .toList();
            anyOf(
                    out,
                    "common.half-latched",
                    place,
                    "",
                    name + " not fully latched, some contacts open",
                    factor,
                    hits,
                    c.priors().get("observe.hit-share.half-latched"),
                    false);
        }
        List<String[]> adjacent = JointFaults.adjacent(c, connector);
        if (adjacent.isEmpty()) return;
        List<Edit> flooded = adjacent.stream()
                .<Edit>map(p -> new Edit.Bridge(p[0], p[1], FLOODED_OHMS))
                .toList();
        out.add(c.fixed("common.wet-connector", List.of(place), "", name + " full of water", factor, false, flooded));
        for (String[] pair : adjacent) swapped(out, connector, pair);
    }

    private void swapped(List<Hypothesis> out, Connector connector, String[] pair) {
        out.add(c.fixed(
                "common.swapped-cavities",
                List.of(
                        FaultGenerator.place(PlaceId.Kind.CAVITY, pair[0]),
                        FaultGenerator.place(PlaceId.Kind.CAVITY, pair[1])),
                Names.cavityOf(pair[1]),
                "terminals of cavities " + pair[0] + " and " + Names.cavityOf(pair[1]) + " swapped in the "
                        + connector.label(),
                1,
                false,
                TerminalSlips.swapped(c.circuit(), pair[0], pair[1])));
    }
}
