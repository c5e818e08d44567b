package loomcase.verdict;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.meter.Subject;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;

/** Remedies for wires: a splice at the damage, a new wire beside the loom, a factory splice made anew. */
final class WireWork {
    /** Most circuits for which the loom's own slack lets staggered single splices do; beyond, pieces are let in. */
    private static final int SLACK_DOES = 3;

    /** Length in metres of a piece let in where damage spreads (judgement; a finding of more than 150 mm takes the wire). */
    private static final double PIECE_METRES = 0.3;

    /** Length in metres cut out at a spot: to bright copper on both sides (judgement). */
    private static final double SPOT_METRES = 0.02;

    private final Loom loom;
    private final List<Cause> causes;

    WireWork(Loom loom, List<Cause> causes) {
        this.loom = loom;
        this.causes = causes;
    }

    /** Splices at the damage of some wires; empty for wires that lie in no branch. */
    Optional<Remedy> spliceRepair(PlaceId place, List<String> wires) {
        Optional<String> branch =
                place.kind() == PlaceId.Kind.BRANCH ? Optional.of(place.id()) : loom.likeliestBranch(wires.get(0));
        return branch.map(
                b -> spliceRepair(place, wires, loom.circuit.branches().get(b)));
    }

    private Remedy spliceRepair(PlaceId place, List<String> wires, Branch branch) {
        boolean seen = loom.damageSeen(branch.id()) || loom.damageSeen(new PlaceId(PlaceId.Kind.WIRE, wires.get(0)));
        boolean piece = loom.spreads(branch.id()) || wires.size() > SLACK_DOES;
        int each = piece ? 2 : 1;
        List<Remedy.Task> tasks = new ArrayList<>();
        tasks.add(new Remedy.Task("minutes.loom", 1, false, "open the covering, free the wires, close and clip"));
        if (!seen) tasks.add(new Remedy.Task("minutes.locate", 1, false, "find the very spot"));
        tasks.add(new Remedy.Task("minutes.splice", each, true, "splice, staggered"));
        return new Remedy(
                "splice-repair " + place.id(),
                "splice-repair",
                place,
                "cut out the damage of " + wires.size() + (wires.size() == 1 ? " wire" : " wires") + " in branch "
                        + branch.id() + " (" + branch.label() + ") and splice",
                tasks,
                List.of(
                        new Remedy.Part("splice", each, loom.price("splice"), true),
                        new Remedy.Part("sealing", 1, loom.price("sealing"), false)),
                loom.steps(List.of(new PlaceId(PlaceId.Kind.BRANCH, branch.id()))),
                wires.size(),
                spliceCovers(place, wires, branch),
                List.of(),
                new Remedy.Detail(
                        List.of(
                                piece
                                        ? "cut out " + LocalRemedies.metres(PIECE_METRES)
                                                + " of each wire and let a new piece in; cut on until the copper is bright"
                                        : "cut out " + LocalRemedies.metres(SPOT_METRES)
                                                + " of each wire; the loom's slack closes the gap",
                                "mend every wire that is hurt there, also one that shows no code",
                                "remove the cause first: edge, clip, route"),
                        List.of(
                                "sealed crimps with adhesive heat-shrink, bead at both ends",
                                "covering as before, clip within reach on both sides"),
                        loom.sites.of(wires, branch.id(), spot(place, wires, branch)),
                        keepTo(wires),
                        loom.beside(branch.id(), wires, 6),
                        loads(
                                wires,
                                piece ? PIECE_METRES : SPOT_METRES,
                                each,
                                branch.zone().celsius())));
    }

    /** The spot seen, or the rub point that the hypothesis names. */
    private OptionalDouble spot(PlaceId place, List<String> wires, Branch branch) {
        OptionalDouble seen = loom.spot(branch.id());
        if (seen.isPresent()) return seen;
        Optional<Cause> cause = causes.stream()
                .filter(c -> c.place().equals(Optional.of(place)) && c.wires().equals(wires))
                .findFirst();
        Optional<String> named = cause.flatMap(Cause::subject).flatMap(Subject::rubPoint);
        return branch.rubPoints().stream()
                .filter(r -> named.equals(Optional.of(r.id())))
                .mapToDouble(Branch.RubPoint::metresAlong)
                .findFirst();
    }

    /**
     * Faults of these wires; in a branch all that common causes have done there, and faults of each wire by itself once damage
     * was seen there. The codes name some of the wires that were hurt, the open loom shows them all.
     */
    private Map<String, Double> spliceCovers(PlaceId place, List<String> wires, Branch branch) {
        boolean seen = loom.damageSeen(branch.id());
        Set<PlaceId> places = new LinkedHashSet<>(Set.of(place));
        if (seen) wires.forEach(w -> places.add(new PlaceId(PlaceId.Kind.WIRE, w)));
        return LocalRemedies.covering(causes, places::contains);
    }

    /**
     * What new wires beside the loom need.
     *
     * @param metres of wire
     * @param terminals at plugs, studs and fuses
     * @param splices at old splices
     * @param covers places whose faults they cure
     * @param reach places that have to be reached
     */
    private record Overlay(double metres, int terminals, int splices, Set<PlaceId> covers, Set<PlaceId> reach) {}

    private Overlay overlayOf(PlaceId place, List<String> wires) {
        double metres = 0;
        int terminals = 0;
        int splices = 0;
        Set<PlaceId> covers = new LinkedHashSet<>(Set.of(place));
        Set<PlaceId> reach = new LinkedHashSet<>();
        for (String id : wires) {
            Wire w = loom.wire(id);
            metres += loom.layout.metres(w);
            covers.add(new PlaceId(PlaceId.Kind.WIRE, id));
            for (String end : List.of(w.from(), w.to())) {
                boolean plug = loom.circuit.connectors().containsKey(Names.connectorOf(end));
                if (loom.circuit.splices().containsKey(end)) splices++;
                else terminals++;
                if (plug) covers.add(new PlaceId(PlaceId.Kind.CAVITY, end));
                endPlace(end).ifPresent(reach::add);
            }
            loom.likeliestBranch(id).ifPresent(b -> reach.add(new PlaceId(PlaceId.Kind.BRANCH, b)));
        }
        return new Overlay(metres, terminals, splices, covers, reach);
    }

    private static List<Remedy.Task> overlayTasks(Overlay o, double wires) {
        List<Remedy.Task> tasks = new ArrayList<>();
        tasks.add(new Remedy.Task("minutes.overlay-metre", o.metres() / wires, true, "lay and tie along the loom"));
        if (o.terminals() > 0)
            tasks.add(new Remedy.Task("minutes.terminal", o.terminals() / wires, true, "terminate at the ends"));
        if (o.splices() > 0)
            tasks.add(new Remedy.Task("minutes.splice", o.splices() / wires, true, "join at the old splices"));
        return tasks;
    }

    /** A new wire for each of some wires, laid beside the loom, the old ones cut and capped. */
    Remedy overlay(PlaceId place, List<String> wires) {
        Overlay o = overlayOf(place, wires);
        double n = wires.size();
        return new Remedy(
                "overlay-wire " + place.id(),
                "overlay-wire",
                place,
                "lay " + (wires.size() == 1 ? "a new wire" : wires.size() + " new wires") + " beside the loom for "
                        + String.join(", ", wires),
                overlayTasks(o, n),
                List.of(
                        new Remedy.Part("terminal", o.terminals() / n, loom.price("terminal"), true),
                        new Remedy.Part("splice", o.splices() / n, loom.price("splice"), true),
                        new Remedy.Part("sealing", 1, loom.price("sealing"), false)),
                loom.steps(List.copyOf(o.reach())),
                wires.size(),
                LocalRemedies.coveringWhere(
                        causes,
                        c -> c.wires().isEmpty() || wires.containsAll(c.wires()),
                        c -> p -> o.covers().contains(p)
                                || p.kind() == PlaceId.Kind.BRANCH && !c.wires().isEmpty()),
                List.of(),
                new Remedy.Detail(
                        List.of("cut the old wire at both ends and cap it"),
                        List.of(
                                "same route as the loom, tied at least every 300 mm (US Army TM 5-4210-220-12)",
                                "terminals, with their seals where the old ones have seals, at plugs, studs and fuses"),
                        List.of(),
                        keepTo(wires),
                        List.of(),
                        wires.stream()
                                .map(w -> load(w, loom.layout.metres(loom.wire(w)), 1, celsius(w)))
                                .toList()));
    }

    private double celsius(String wire) {
        return loom.layout.runs(wire).stream()
                .mapToDouble(r -> loom.circuit.branches().get(r.branch()).zone().celsius())
                .max()
                .orElse(20);
    }

    private Optional<PlaceId> endPlace(String end) {
        Circuit c = loom.circuit;
        if (c.splices().containsKey(end)) return Optional.of(new PlaceId(PlaceId.Kind.SPLICE, end));
        if (c.grounds().containsKey(end)) return Optional.of(new PlaceId(PlaceId.Kind.GROUND, end));
        String owner = Names.connectorOf(end);
        if (c.fuses().containsKey(owner)) return Optional.of(new PlaceId(PlaceId.Kind.FUSE, owner));
        if (c.connectors().containsKey(owner)) return Optional.of(new PlaceId(PlaceId.Kind.CAVITY, end));
        return Optional.empty();
    }

    /** A factory splice cut out and made anew. */
    Remedy remake(String splice) {
        PlaceId place = new PlaceId(PlaceId.Kind.SPLICE, splice);
        var s = loom.circuit.splices().get(splice);
        Branch branch = loom.circuit.branches().get(s.branch());
        List<String> legs = loom.at(splice);
        return new Remedy(
                "splice-repair " + splice,
                "splice-repair",
                place,
                "cut out splice " + splice + " (" + s.label() + ") in branch " + branch.id() + " and join its "
                        + legs.size() + " wires anew",
                List.of(
                        new Remedy.Task("minutes.loom", 1, false, "open the covering, free the wires, close and clip"),
                        new Remedy.Task("minutes.splice", Math.max(1, legs.size() - 1), true, "join all legs")),
                List.of(
                        new Remedy.Part("splice", 1, loom.price("splice"), true),
                        new Remedy.Part("sealing", 1, loom.price("sealing"), false)),
                loom.steps(List.of(place)),
                1,
                LocalRemedies.covering(causes, place::equals),
                List.of(),
                new Remedy.Detail(
                        List.of("cut each leg back to bright copper; where one gets too short, let a piece in"),
                        List.of("one sealed crimp for all legs, adhesive heat-shrink over the insulations"),
                        loom.sites.replacing(s, legs),
                        keepTo(legs),
                        loom.beside(branch.id(), legs, 6),
                        loads(legs, SPOT_METRES, 1, branch.zone().celsius())));
    }

    /** What the new copper must be: size, insulation, pair, shield. */
    List<String> keepTo(List<String> wires) {
        Set<String> out = new LinkedHashSet<>();
        for (String id : wires) {
            Wire w = loom.wire(id);
            double heat = celsius(id);
            double limit = WireLoad.limit(w.insulation());
            out.add(id + ": " + w.size().name() + " or larger, insulation " + w.insulation()
                    + " or better, colour " + w.colour()
                    + (heat > limit
                            ? "; the zone reaches " + Math.round(heat) + " °C, so a class above " + Math.round(limit)
                                    + " °C is needed"
                            : ""));
            w.lay()
                    .twistedWith()
                    .ifPresent(
                            o -> out.add(
                                    id + " is twisted with " + o
                                            + ": open at most 50 mm, cut both at staggered points, keep the lengths equal and the pitch"));
            if (w.lay().shielded()) out.add(id + " is shielded: carry the shield over, grounded at one end only");
            w.lay().noSplice().ifPresent(why -> out.add(id + " may not be spliced: " + why));
        }
        return List.copyOf(out);
    }

    List<WireLoad> loads(List<String> wires, double metres, int joints, double celsius) {
        return wires.stream().map(w -> load(w, metres, joints, celsius)).toList();
    }

    private WireLoad load(String id, double metres, int joints, double celsius) {
        Wire w = loom.wire(id);
        Carried.Load l = loom.carried.load(w);
        return WireLoad.of(id, w.size(), w.insulation(), l.amperes(), l.basis(), metres, joints, celsius);
    }
}
