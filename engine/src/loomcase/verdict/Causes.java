package loomcase.verdict;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.rank.Ranking;

/**
 * The whole posterior as causes that add up to 1: every member of every listed suspect, the unlisted mass at the places
 * where the roll-up has it, and what nothing in the model explains.
 *
 * <p>Two faults at once are one cause of their probability, and with no weight of their own every fault that either of them
 * may be: what a remedy mends of each half is asked of these.
 */
final class Causes {
    private static final double NEGLIGIBLE = 1e-9;

    private final Layout layout;

    Causes(Layout layout) {
        this.layout = layout;
    }

    List<Cause> of(Ranking ranking) {
        List<Cause> out = new ArrayList<>();
        Map<PlaceId, Double> listed = new LinkedHashMap<>();
        for (Ranking.Suspect s : ranking.suspects()) {
            double sum = s.members().stream()
                    .mapToDouble(Ranking.Member::probability)
                    .sum();
            s.members().forEach(m -> listed.merge(m.place(), m.probability(), Double::sum));
            if (s.twoFaults()) out.addAll(pair(s, sum));
            else s.members().forEach(m -> out.add(single(m, m.id(), m.probability() * s.probability() / sum)));
        }
        out.addAll(unlisted(ranking, listed));
        double rest = 1 - out.stream().mapToDouble(Cause::probability).sum();
        out.add(new Cause(
                Cause.OUTSIDE,
                "nothing in this model",
                List.of(),
                "outside",
                Map.of(),
                Math.max(0, rest),
                false,
                List.of(),
                List.of(),
                Optional.empty()));
        return out;
    }

    /** A fault that is known to be there, beside the posterior. */
    Cause certain(Ranking.Member m, String id) {
        return single(m, id, 1);
    }

    private Cause single(Ranking.Member m, String id, double probability) {
        String family = m.subject().family();
        return new Cause(
                id,
                m.words(),
                family.isEmpty() ? List.of() : List.of(family),
                Cause.group(family, m.place().kind()),
                Map.of(m.place(), 1.0),
                probability,
                m.subject().comesAndGoes(),
                List.of(),
                wires(m.place(), m.edits()),
                Optional.of(m.subject()));
    }

    private List<Cause> pair(Ranking.Suspect s, double sum) {
        String pair = "pair " + s.rank();
        Map<PlaceId, Double> places = new LinkedHashMap<>();
        List<Map<String, Double>> halves = List.of(new LinkedHashMap<>(), new LinkedHashMap<>());
        List<Cause> out = new ArrayList<>();
        for (Ranking.Member m : s.members()) {
            String id = pair + ": " + m.id();
            places.merge(m.place(), m.probability() * 2 / sum, Double::sum);
            halves.get(s.second().contains(m.id()) ? 1 : 0).put(id, m.probability());
            out.add(single(m, id, 0));
        }
        halves.forEach(Causes::normalise);
        Cause both = new Cause(
                pair,
                s.words(),
                families(s),
                "pair",
                places,
                s.probability(),
                false,
                halves,
                List.of(),
                Optional.empty());
        out.add(0, both);
        return out;
    }

    /** Families of the likeliest fault of each half. */
    private static List<String> families(Ranking.Suspect s) {
        return Stream.of(false, true)
                .flatMap(second -> s.members().stream()
                        .filter(m -> s.second().contains(m.id()) == second)
                        .limit(1))
                .map(m -> m.subject().family())
                .toList();
    }

    private static void normalise(Map<String, Double> shares) {
        double sum = shares.values().stream().mapToDouble(Double::doubleValue).sum();
        shares.replaceAll((id, share) -> share / sum);
    }

    /** The roll-up without what is listed and without the sums over what contains what. */
    private List<Cause> unlisted(Ranking ranking, Map<PlaceId, Double> listed) {
        Map<PlaceId, Double> left = new LinkedHashMap<>();
        double sum = 0;
        for (Ranking.PlaceShare p : ranking.rollup()) {
            boolean container =
                    p.place().kind() == PlaceId.Kind.BRANCH || p.place().kind() == PlaceId.Kind.CONNECTOR;
            double rest = p.probability() - listed.getOrDefault(p.place(), 0.0);
            if (container || rest < NEGLIGIBLE) continue;
            left.put(p.place(), rest);
            sum += rest;
        }
        List<Cause> out = new ArrayList<>();
        for (Map.Entry<PlaceId, Double> e : left.entrySet())
            out.add(new Cause(
                    "unlisted " + e.getKey(),
                    "something at " + e.getKey(),
                    List.of(),
                    Cause.group("", e.getKey().kind()),
                    Map.of(e.getKey(), 1.0),
                    e.getValue() / sum * ranking.unlisted(),
                    false,
                    List.of(),
                    List.of(),
                    Optional.empty()));
        return out;
    }

    /** Wires that the edits of a fault in a branch touch there, one for each point; the wire itself for a fault of a wire. */
    private List<String> wires(PlaceId place, List<Edit> edits) {
        if (place.kind() == PlaceId.Kind.WIRE) return List.of(place.id());
        if (place.kind() != PlaceId.Kind.BRANCH) return List.of();
        Set<String> points = new LinkedHashSet<>();
        for (Edit e : edits) {
            if (e instanceof Edit.Series s) points.add(s.element());
            if (e instanceof Edit.Bridge b) points.addAll(List.of(b.pointA(), b.pointB()));
        }
        List<String> out = new ArrayList<>();
        for (Wire w : layout.in(place.id()))
            if (points.remove(Names.wire(w.id())) || points.remove(w.from())) out.add(w.id());
        return out;
    }
}
