package loomcase.verdict;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import loomcase.model.Branch;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.model.Zone;
import loomcase.policy.RemedyFact;

/** Every remedy worth weighing for a posterior, and what the rules see of each. */
final class Remedies {
    /** Places below this share of the posterior get no remedy of their own; section and harness still count them. */
    private static final double WORTH_A_REMEDY = 0.01;

    /**
     * Leaving it alone is offered from this probability that the wiring is healthy (judgement): a fault that stands does not
     * go away, and "wait until somebody else finds it" would always look cheap.
     */
    private static final double WORTH_WAITING = 0.2;

    private static final int MOST_PLACES = 14;

    private final Loom loom;
    private final List<Cause> causes;
    private final List<Cause> posterior;

    /**
     * @param posterior causes of the posterior
     * @param known causes known to be there beside it; their places get remedies too, and take none from the others
     */
    Remedies(Loom loom, List<Cause> posterior, List<Cause> known) {
        this.loom = loom;
        this.posterior = posterior;
        this.causes = Stream.concat(posterior.stream(), known.stream()).toList();
    }

    /** Remedies, those for the most probable place first; then sections, harness and leaving it alone. */
    List<Remedy> all() {
        LocalRemedies local = new LocalRemedies(loom, causes);
        PartRemedies parts = new PartRemedies(loom, causes);
        Map<String, Remedy> out = new LinkedHashMap<>();
        for (PlaceId p : places()) {
            local.at(p).forEach(r -> out.putIfAbsent(r.id(), r));
            parts.at(p).forEach(r -> out.putIfAbsent(r.id(), r));
        }
        parts.sections().forEach(r -> out.putIfAbsent(r.id(), r));
        out.put("harness", parts.harness());
        if (healthy() >= WORTH_WAITING) out.put("monitor", parts.monitor());
        return List.copyOf(out.values());
    }

    /** A single remedy with a condition of the engine seen to in the same visit. */
    Remedy andEngine(Remedy r, Cause condition) {
        return r.andEngine(condition.place().orElseThrow(), new PartRemedies(loom, causes).seeTo(condition));
    }

    /** Probability that nothing is wrong with the wiring now, true engine conditions among it, one or two at once. */
    private double healthy() {
        Set<String> none = posterior.stream()
                .filter(c -> c.group().equals("none"))
                .map(Cause::id)
                .collect(Collectors.toSet());
        double sum = 0;
        for (Cause c : posterior) {
            double share = c.isPair() || none.contains(c.id()) ? c.probability() : 0;
            for (Map<String, Double> half : c.halves())
                share *= half.entrySet().stream()
                        .filter(e -> none.contains(e.getKey()))
                        .mapToDouble(Map.Entry::getValue)
                        .sum();
            sum += share;
        }
        return sum;
    }

    private Set<PlaceId> places() {
        Set<PlaceId> out = new LinkedHashSet<>(likely());
        causes.subList(posterior.size(), causes.size())
                .forEach(known -> out.addAll(new TreeSet<>(known.places().keySet())));
        return out;
    }

    private List<PlaceId> likely() {
        Map<PlaceId, Double> mass = new LinkedHashMap<>();
        for (Cause c : posterior) c.places().forEach((p, share) -> mass.merge(p, share * c.probability(), Double::sum));
        return mass.entrySet().stream()
                .filter(e -> e.getValue() >= WORTH_A_REMEDY)
                .sorted(Map.Entry.<PlaceId, Double>comparingByValue()
                        .reversed()
                        .thenComparing(Map.Entry.comparingByKey()))
                .limit(MOST_PLACES)
                .map(Map.Entry::getKey)
                .toList();
    }

    /**
     * What the rules see of a remedy.
     *
     * @param circuits damaged circuits, the remedy's own number unless a sweep asks otherwise
     */
    RemedyFact fact(Remedy r, int circuits) {
        List<Wire> wires = wires(r);
        List<String> branches = branches(r);
        Zone zone = loom.zone(r.place());
        TreeSet<String> kinds = new TreeSet<>();
        wires.forEach(w -> kinds.addAll(loom.carried.kinds(w)));
        int splices = splices(r);
        return new RemedyFact(
                r.id(),
                r.option(),
                r.place().kind().word(),
                r.place().id(),
                probability(r),
                r.replaces() ? 0 : circuits,
                splices,
                splices == 0 ? 0 : splices + repairsOf(wires),
                (int) loom.situation().repaired().stream()
                        .filter(p -> branches.stream().anyMatch(b -> lies(p, b)))
                        .count(),
                r.detail().splices().stream()
                        // where clips stand is not in the circuit file, so no rule is held against a guess
                        // whole millimetres, as people are told them
                        .mapToDouble(s -> Math.round(s.metresToEnd() * 1000) / 1000.0)
                        .min()
                        .orElse(Double.POSITIVE_INFINITY),
                slack(r, wires),
                List.copyOf(kinds),
                wires.stream().anyMatch(w -> w.lay().twistedWith().isPresent()),
                wires.stream().anyMatch(w -> w.lay().shielded()),
                wires.stream().anyMatch(loom.carried::boosted),
                wires.stream().allMatch(w -> loom.carried.load(w).fused()),
                splices > 0 && wires.stream().anyMatch(w -> w.lay().noSplice().isPresent()),
                zone.vibration() == Zone.Vibration.HIGH,
                branches.stream().anyMatch(b -> branch(b).build().flexes()),
                zone.celsius(),
                plug(r).map(loom::isControlUnitPlug).orElse(false),
                corroded(r),
                loom.findings(branches, at(r)));
    }

    private Branch branch(String id) {
        return loom.circuit.branches().get(id);
    }

    double probability(Remedy r) {
        return Math.min(
                1,
                causes.stream().mapToDouble(c -> c.probability() * c.covered(r)).sum());
    }

    /** Wires that the remedy cuts, terminates, lays, replaces or leaves alone. */
    List<Wire> wires(Remedy r) {
        if (r.replaces())
            return r.replaced().stream()
                    .flatMap(b -> loom.layout.in(b).stream())
                    .distinct()
                    .toList();
        return switch (r.option()) {
            case "monitor" -> suspected(r.place());
            case "terminal", "pigtail" -> ends(r);
            case "splice-repair", "overlay-wire" -> hit(r);
            default -> List.of();
        };
    }

    /** Wires at the place that would be left alone. */
    private List<Wire> suspected(PlaceId p) {
        return switch (p.kind()) {
            case WIRE -> List.of(loom.wire(p.id()));
            case CAVITY, SPLICE, GROUND ->
                loom.at(p.id()).stream().map(loom::wire).toList();
            case CONNECTOR ->
                loom.used(p.id()).stream()
                        .flatMap(c -> loom.at(c).stream())
                        .distinct()
                        .map(loom::wire)
                        .toList();
            case BRANCH ->
                causes.stream()
                        .filter(c -> c.place().equals(Optional.of(p)))
                        .flatMap(c -> c.wires().stream())
                        .distinct()
                        .map(loom::wire)
                        .toList();
            case FUSE, DEVICE, CONTROL_UNIT, ENGINE -> List.of();
        };
    }

    private List<Wire> ends(Remedy r) {
        List<String> points = r.place().kind() == PlaceId.Kind.CONNECTOR
                ? loom.used(r.place().id())
                : List.of(r.place().id());
        return points.stream()
                .flatMap(p -> loom.at(p).stream())
                .distinct()
                .map(loom::wire)
                .toList();
    }

    private List<Wire> hit(Remedy r) {
        if (r.place().kind() == PlaceId.Kind.SPLICE) return ends(r);
        return r.detail().loads().stream().map(l -> loom.wire(l.wire())).toList();
    }

    /** Branches that the remedy works in or replaces. */
    List<String> branches(Remedy r) {
        if (!r.replaced().isEmpty()) return r.replaced();
        TreeSet<String> out = new TreeSet<>();
        r.detail().splices().forEach(s -> out.add(s.branch()));
        if (r.place().kind() == PlaceId.Kind.BRANCH) out.add(r.place().id());
        if (r.option().equals("overlay-wire"))
            wires(r).forEach(w -> loom.layout.runs(w.id()).forEach(run -> out.add(run.branch())));
        return List.copyOf(out);
    }

    /** Whether a section or harness takes out everything beside the place of another remedy. */
    boolean holds(Remedy larger, Remedy smaller) {
        if (larger.option().equals("full-harness")) return true;
        List<String> near = branches(smaller);
        if (near.isEmpty()) near = behind(smaller.place());
        return !near.isEmpty() && larger.replaced().containsAll(near);
    }

    /** Branches into which the wires of a plug, a cavity or a stud go. */
    private List<String> behind(PlaceId p) {
        List<String> points =
                switch (p.kind()) {
                    case CONNECTOR -> loom.used(p.id());
                    case CAVITY, GROUND -> List.of(p.id());
                    default -> List.of();
                };
        return points.stream()
                .flatMap(end -> loom.at(end).stream().flatMap(w -> loom.branchFrom(w, end).stream()))
                .distinct()
                .toList();
    }

    private List<PlaceId> at(Remedy r) {
        List<PlaceId> out = new ArrayList<>(List.of(r.place()));
        plug(r).ifPresent(p -> {
            out.add(new PlaceId(PlaceId.Kind.CONNECTOR, p));
            loom.used(p).forEach(c -> out.add(new PlaceId(PlaceId.Kind.CAVITY, c)));
        });
        if (!r.replaces()) wires(r).forEach(w -> out.add(new PlaceId(PlaceId.Kind.WIRE, w.id())));
        if (r.option().equals("full-harness")) loom.situation().seen().forEach(s -> out.add(s.place()));
        return out;
    }

    private Optional<String> plug(Remedy r) {
        if (r.replaces()) return Optional.empty();
        return switch (r.place().kind()) {
            case CONNECTOR -> Optional.of(r.place().id());
            case CAVITY -> Optional.of(Names.connectorOf(r.place().id()));
            default -> Optional.empty();
        };
    }

    /** What may hide further damage along the loom: findings at the remedy's places, by the key of {@code hidden.*}. */
    String trace(Remedy r) {
        List<String> found = loom.findings(branches(r), at(r));
        return found.stream()
                .map(Remedies::trace)
                .min(Comparator.comparingInt(TRACES::indexOf))
                .orElse("none");
    }

    /** From what spreads most to what spreads least. */
    static final List<String> TRACES = List.of("heat", "fluid", "repaired", "chafe", "water", "crush", "none");

    private static String trace(String finding) {
        return switch (finding) {
            case "melted", "burnt-terminal" -> "heat";
            case "green-copper", "oil-in-plug", "coolant-in-plug" -> "fluid";
            case "water-in-plug" -> "water";
            case "chafe", "cut", "broken-strands" -> "chafe";
            case "pinched" -> "crush";
            case "earlier-repair" -> "repaired";
            default -> "none";
        };
    }

    private int splices(Remedy r) {
        if (r.option().equals("pigtail")) return 1;
        if (r.place().kind() == PlaceId.Kind.SPLICE) return 1;
        return (int) r.tasks().stream()
                .filter(t -> t.key().equals("minutes.splice"))
                .mapToDouble(t -> t.eachCircuit() ? t.count() : Math.min(1, t.count()))
                .sum();
    }

    private int repairsOf(List<Wire> wires) {
        return wires.stream()
                .mapToInt(w -> (int) loom.situation().repaired().stream()
                        .filter(p -> p.equals(new PlaceId(PlaceId.Kind.WIRE, w.id())))
                        .count())
                .max()
                .orElse(0);
    }

    private boolean lies(PlaceId p, String branch) {
        return switch (p.kind()) {
            case BRANCH -> p.id().equals(branch);
            case SPLICE -> loom.circuit.splices().get(p.id()).branch().equals(branch);
            case WIRE ->
                loom.layout.runs(p.id()).stream().anyMatch(run -> run.branch().equals(branch));
            default -> false;
        };
    }

    private double slack(Remedy r, List<Wire> wires) {
        if (!r.option().equals("terminal")) return Double.POSITIVE_INFINITY;
        return wires.stream().mapToDouble(w -> loom.slack(w.id())).min().orElse(Double.POSITIVE_INFINITY);
    }

    /** Most corroded cavities in one plug that the remedy works at or replaces. */
    private int corroded(Remedy r) {
        List<String> plugs = r.replaces()
                ? wires(r).stream()
                        .flatMap(w -> Stream.of(w.from(), w.to()))
                        .map(Names::connectorOf)
                        .filter(loom.circuit.connectors()::containsKey)
                        .distinct()
                        .toList()
                : plug(r).map(List::of).orElse(List.of());
        return plugs.stream()
                .mapToInt(p -> (int) loom.used(p).stream()
                        .filter(c -> loom.findings(List.of(), List.of(new PlaceId(PlaceId.Kind.CAVITY, c)))
                                .contains("green-copper"))
                        .count())
                .max()
                .orElse(0);
    }
}
