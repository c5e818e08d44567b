package loomcase.fit;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;

/** How far each plug reaches from the control unit along the branches, against the route of the old harness. */
final class ReachRules {
    /** Shorter by no more than this is within the making of a loom (judgement). */
    static final double TOLERANCE_METRES = 0.02;

    /** Longer by more than this has to be tied back (judgement). */
    private static final double SLACK_METRES = 0.10;

    private record Reach(String where, double metres, double oldMetres) {
        String words() {
            return String.format(Locale.ROOT, "%.2f m, old %.2f m", metres, oldMetres);
        }
    }

    private ReachRules() {}

    static void apply(List<PlugPair> pairs, Circuit old, Circuit neu, Findings findings) {
        Map<String, Double> before = distances(old, root(old, pairs, true));
        Map<String, Double> after = distances(neu, root(neu, pairs, false));
        Map<Long, List<Reach>> byMillimetres = new LinkedHashMap<>();
        for (PlugPair p : pairs) {
            Double a = before.get(old.connectors().get(p.old().id()).at());
            Double b = after.get(neu.connectors().get(p.neu().id()).at());
            if (a == null || b == null) {
                findings.notKnown("reach", p.where(), true);
                continue;
            }
            double more = b - a;
            if (more < -TOLERANCE_METRES || more > SLACK_METRES)
                byMillimetres
                        .computeIfAbsent(Math.round(more * 1000), k -> new ArrayList<>())
                        .add(new Reach(p.where(), b, a));
        }
        byMillimetres.forEach((mm, plugs) -> {
            boolean one = plugs.size() == 1;
            String where = one ? plugs.get(0).where : plugs.size() + " plugs";
            String what = plugs.stream()
                    .map(r -> (one ? "" : r.where + " ") + r.words())
                    .collect(Collectors.joining("; "));
            if (mm < 0)
                findings.add(
                        Subject.REACH,
                        Severity.BLOCKS,
                        where,
                        "reaches " + -mm + " mm less than the route needs: " + what,
                        "it does not reach, or hangs taut, chafes and pulls at its terminals",
                        "do not stretch or splice it to length; ask for the harness of this build year",
                        Difference.PRACTICE);
            else
                findings.add(
                        Subject.REACH,
                        Severity.CARE,
                        where,
                        "reaches " + mm + " mm farther than the route: " + what,
                        "the slack can rub, or touch hot and moving parts",
                        "lay it in a flat loop and clip it, away from hot and moving parts; do not coil it tightly",
                        Difference.PRACTICE);
        });
    }

    /** The junction of the first matched plug of the control unit, or of the first matched plug. */
    private static String root(Circuit c, List<PlugPair> pairs, boolean old) {
        Optional<PlugPair> first = pairs.stream()
                .filter(p -> p.old().mate().equals(Harness.UNIT))
                .findFirst()
                .or(() -> pairs.stream().findFirst());
        Connector root = first.map(p -> c.connectors().get((old ? p.old() : p.neu()).id()))
                .orElseGet(() -> c.connectors().values().iterator().next());
        return root.at();
    }

    /** Metres along the branch tree from one junction to every other. */
    static Map<String, Double> distances(Circuit c, String root) {
        Map<String, Double> out = new LinkedHashMap<>(Map.of(root, 0.0));
        ArrayDeque<String> open = new ArrayDeque<>(List.of(root));
        while (!open.isEmpty()) {
            String here = open.remove();
            for (Branch b : c.branches().values()) {
                String next = b.from().equals(here) ? b.to() : b.to().equals(here) ? b.from() : here;
                if (out.containsKey(next)) continue;
                out.put(next, out.get(here) + b.metres());
                open.add(next);
            }
        }
        return out;
    }
}
