package loomcase.verdict;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import loomcase.model.Names;
import loomcase.model.PlaceId;

/** Remedies that mend one place and leave the rest of the harness as it is: plugs, terminals, leads, wires, splices. */
final class LocalRemedies {
    /** Most circuits of a plug that is still replaced whole with its leads. */
    private static final int MOST_LEADS = 8;

    /** Distance in metres from a plug to the splices of its new leads (common practice, no source: outside the shaken end). */
    private static final double LEAD_METRES = 0.15;

    /** Findings after which a plug is dried, cleaned and sealed anew. */
    private static final Set<String> WET =
            Set.of("water-in-plug", "oil-in-plug", "coolant-in-plug", "green-copper", "missing-seal");

    private static final String SEAL = "a sealed crimp with adhesive heat-shrink over both insulations";

    private final Loom loom;
    private final List<Cause> causes;
    private final WireWork wires;

    LocalRemedies(Loom loom, List<Cause> causes) {
        this.loom = loom;
        this.causes = causes;
        this.wires = new WireWork(loom, causes);
    }

    /** Remedies for a place; none where only a part at the end of the harness can be replaced. */
    List<Remedy> at(PlaceId place) {
        List<Remedy> out = new ArrayList<>();
        switch (place.kind()) {
            case CAVITY -> {
                String plug = Names.connectorOf(place.id());
                out.add(reseat(plug));
                out.add(terminal(place.id()));
                out.add(lead(place.id()));
                if (wholePigtail(plug)) out.add(pigtail(plug));
            }
            case CONNECTOR -> {
                out.add(reseat(place.id()));
                if (wholePigtail(place.id())) out.add(pigtail(place.id()));
            }
            case WIRE -> {
                wires.spliceRepair(place, List.of(place.id())).ifPresent(out::add);
                out.add(wires.overlay(place, List.of(place.id())));
            }
            case SPLICE -> out.add(wires.remake(place.id()));
            case BRANCH -> atBranch(place, out);
            case GROUND -> {
                out.add(cleanStud(place.id()));
                out.add(ring(place.id()));
            }
            case FUSE, DEVICE, CONTROL_UNIT, ENGINE -> {}
        }
        return out;
    }

    private void atBranch(PlaceId place, List<Remedy> out) {
        causes.stream()
                .filter(c -> c.place().equals(Optional.of(place)) && !c.wires().isEmpty())
                .findFirst()
                .ifPresent(c -> {
                    wires.spliceRepair(place, c.wires()).ifPresent(out::add);
                    if (c.wires().size() == 2) out.add(wires.overlay(place, c.wires()));
                    if (c.wires().size() == 1)
                        out.add(wires.overlay(
                                new PlaceId(PlaceId.Kind.WIRE, c.wires().get(0)), c.wires()));
                });
    }

    private Map<String, Double> covering(Predicate<PlaceId> where) {
        return covering(causes, where);
    }

    /** Share of each cause at the places where this works. */
    static Map<String, Double> covering(List<Cause> causes, Predicate<PlaceId> where) {
        return coveringWhere(causes, c -> true, c -> where);
    }

    /** The same of some causes only, and where the places depend on the cause. */
    static Map<String, Double> coveringWhere(
            List<Cause> causes, Predicate<Cause> of, Function<Cause, Predicate<PlaceId>> where) {
        Map<String, Double> out = new LinkedHashMap<>();
        for (Cause c : causes) {
            if (!of.test(c)) continue;
            double share = c.places().entrySet().stream()
                    .filter(e -> where.apply(c).test(e.getKey()))
                    .mapToDouble(Map.Entry::getValue)
                    .sum();
            if (share > 0) out.put(c.id(), share);
        }
        return out;
    }

    private Remedy reseat(String plug) {
        Set<PlaceId> places = new LinkedHashSet<>();
        for (String half : loom.halves(plug)) {
            places.add(new PlaceId(PlaceId.Kind.CONNECTOR, half));
            loom.used(half).forEach(c -> places.add(new PlaceId(PlaceId.Kind.CAVITY, c)));
        }
        boolean wet = causes.stream()
                        .anyMatch(c -> Set.of("moisture", "corrosion").contains(c.group())
                                && places.containsAll(c.places().keySet()))
                || loom.findings(List.of(), List.copyOf(places)).stream().anyMatch(WET::contains);
        PlaceId place = new PlaceId(PlaceId.Kind.CONNECTOR, plug);
        List<Remedy.Task> tasks = new ArrayList<>(List.of(
                new Remedy.Task("minutes.reseat", 1, false, "unplug, look at every terminal, push home, lock, tug")));
        List<Remedy.Part> parts = new ArrayList<>();
        if (wet) {
            tasks.add(new Remedy.Task("minutes.clean", 1, false, "dry and clean, fit a new seal"));
            parts.add(new Remedy.Part("sealing", 1, loom.price("sealing"), false));
        }
        return new Remedy(
                "reseat " + plug,
                "reseat",
                place,
                "unplug the " + loom.name(plug) + ", look, " + (wet ? "dry and clean it, " : "") + "push home and lock",
                tasks,
                parts,
                loom.steps(List.of(place)),
                0,
                covering(places::contains),
                List.of(),
                new Remedy.Detail(
                        List.of(),
                        List.of(wet ? "new interface seal; no grease unless the maker names one" : "nothing new"),
                        List.of(),
                        List.of(),
                        loom.used(plug).stream()
                                .flatMap(c -> loom.at(c).stream())
                                .map(w -> w + " " + loom.wire(w).circuit())
                                .limit(8)
                                .toList(),
                        List.of()));
    }

    private Remedy terminal(String cavity) {
        PlaceId place = new PlaceId(PlaceId.Kind.CAVITY, cavity);
        String plug = Names.connectorOf(cavity);
        List<String> here = loom.at(cavity);
        return new Remedy(
                "terminal " + cavity,
                "terminal",
                place,
                "crimp a new terminal into cavity " + cavity + " of the " + loom.name(plug),
                List.of(new Remedy.Task("minutes.terminal", 1, true, "take out, cut back, crimp, push home, tug")),
                List.of(
                        new Remedy.Part("terminal", 1, loom.price("terminal"), true),
                        new Remedy.Part("sealing", 1, loom.price("sealing"), false)),
                loom.steps(List.of(place)),
                1,
                covering(place::equals),
                List.of(),
                new Remedy.Detail(
                        List.of("cut back to bright copper, at most the slack of "
                                + metres(here.stream()
                                        .mapToDouble(loom::slack)
                                        .min()
                                        .orElse(0))),
                        List.of(
                                "terminal "
                                        + loom.circuit.connectors().get(plug).terminal() + " with its wire seal",
                                "look at the terminal it mates with; a worn pair is replaced as a pair"),
                        List.of(),
                        wires.keepTo(here),
                        neighbours(plug, cavity),
                        List.of()));
    }

    private List<String> neighbours(String plug, String cavity) {
        return loom.used(plug).stream()
                .filter(c -> !c.equals(cavity))
                .map(c -> "cavity " + c)
                .limit(6)
                .toList();
    }

    private boolean wholePigtail(String plug) {
        return loom.used(plug).size() <= MOST_LEADS
                && !loom.isControlUnitPlug(plug)
                && loom.halves(plug).size() == 1;
    }

    /** One new lead with its terminal. */
    private Remedy lead(String cavity) {
        return spliced(
                new PlaceId(PlaceId.Kind.CAVITY, cavity),
                "splice a new lead with its terminal into cavity " + cavity + " of the "
                        + loom.name(Names.connectorOf(cavity)),
                List.of(cavity),
                "terminal");
    }

    /** A new plug with all its leads. */
    private Remedy pigtail(String plug) {
        return spliced(
                new PlaceId(PlaceId.Kind.CONNECTOR, plug),
                "splice on a new " + loom.name(plug) + " with its leads",
                loom.used(plug),
                "pigtail");
    }

    private Remedy spliced(PlaceId place, String words, List<String> cavities, String part) {
        List<String> leads =
                cavities.stream().flatMap(c -> loom.at(c).stream()).distinct().toList();
        Map<String, List<String>> byBranch = new LinkedHashMap<>();
        for (String c : cavities)
            for (String w : loom.at(c))
                loom.branchFrom(w, c).ifPresent(b -> byBranch.computeIfAbsent(b, k -> new ArrayList<>())
                        .add(w));
        List<Remedy.SpliceSite> sites = new ArrayList<>();
        byBranch.forEach((b, on) -> sites.addAll(loom.sites.of(on, b, fromPlug(b, place))));
        boolean single = place.kind() == PlaceId.Kind.CAVITY;
        Set<PlaceId> places = new LinkedHashSet<>(Set.of(place));
        cavities.forEach(c -> places.add(new PlaceId(PlaceId.Kind.CAVITY, c)));
        return new Remedy(
                "pigtail " + place.id(),
                "pigtail",
                place,
                words,
                List.of(
                        new Remedy.Task("minutes.loom", 1, false, "open and close the covering behind the plug"),
                        new Remedy.Task(
                                "minutes.pigtail-lead", leads.size(), false, "splice each lead, one at a time")),
                List.of(
                        new Remedy.Part(part, 1, loom.price(part), false),
                        new Remedy.Part("splice", leads.size(), loom.price("splice"), false),
                        new Remedy.Part("sealing", 1, loom.price("sealing"), false)),
                loom.steps(List.of(place)),
                leads.size(),
                covering(places::contains),
                List.of(),
                new Remedy.Detail(
                        List.of("cut each wire " + metres(LEAD_METRES) + " and more from the plug, staggered by "
                                + metres(SpliceSites.STAGGER)),
                        List.of(SEAL, "keep the cavity map: move one lead at a time"),
                        sites,
                        wires.keepTo(leads),
                        List.of(),
                        wires.loads(leads, LEAD_METRES, 1, loom.zone(place).celsius())));
    }

    /** Metres along the branch at which the lead of a plug is spliced. */
    private OptionalDouble fromPlug(String branch, PlaceId place) {
        String plug = place.kind() == PlaceId.Kind.CAVITY ? Names.connectorOf(place.id()) : place.id();
        var b = loom.circuit.branches().get(branch);
        boolean atStart = loom.circuit.connectors().get(plug).at().equals(b.from());
        return OptionalDouble.of(atStart ? Math.min(LEAD_METRES, b.metres()) : Math.max(0, b.metres() - LEAD_METRES));
    }

    private Remedy cleanStud(String ground) {
        PlaceId place = new PlaceId(PlaceId.Kind.GROUND, ground);
        return new Remedy(
                "reseat " + ground,
                "reseat",
                place,
                "clean ground " + ground + " ("
                        + loom.circuit.grounds().get(ground).label() + ") to bright metal and tighten",
                List.of(new Remedy.Task("minutes.clean", 1, false, "undo, clean to bright metal, tighten, protect")),
                List.of(),
                loom.steps(List.of(place)),
                0,
                covering(place::equals),
                List.of(),
                new Remedy.Detail(
                        List.of(),
                        List.of("torque as the maker says; protect against water"),
                        List.of(),
                        List.of(),
                        loom.at(ground).stream()
                                .map(w -> w + " " + loom.wire(w).circuit())
                                .toList(),
                        List.of()));
    }

    private Remedy ring(String ground) {
        PlaceId place = new PlaceId(PlaceId.Kind.GROUND, ground);
        int rings = loom.at(ground).size();
        return new Remedy(
                "terminal " + ground,
                "terminal",
                place,
                "crimp new ring terminals at ground " + ground,
                List.of(
                        new Remedy.Task("minutes.clean", 1, false, "undo, clean to bright metal, tighten, protect"),
                        new Remedy.Task("minutes.terminal", rings, false, "crimp a ring terminal")),
                List.of(new Remedy.Part("terminal", rings, loom.price("terminal"), false)),
                loom.steps(List.of(place)),
                rings,
                covering(place::equals),
                List.of(),
                new Remedy.Detail(
                        List.of("cut back to bright copper"),
                        List.of("ring terminals of the stud's size, sealed crimps"),
                        List.of(),
                        wires.keepTo(loom.at(ground)),
                        List.of(),
                        List.of()));
    }

    static String metres(double metres) {
        return Math.round(metres * 1000) + " mm";
    }
}
