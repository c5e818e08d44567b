package loomcase.fit;

import java.util.ArrayDeque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Connector;

/**
 * Clips, brackets and cover of each branch. A branch of the old loom and one of the new are the same when the same plugs hang
 * on either side of them; ids and junction names do not matter.
 */
final class BranchRules {
    /** Longest stretch without support: FAA AC 43.13-1B, paragraph 11-96a (24 inches). */
    static final double SUPPORT_METRES = 0.61;

    private final Circuit old;
    private final Circuit neu;
    private final Findings findings;
    private final Map<String, String> newToOld = new LinkedHashMap<>();

    private BranchRules(List<PlugPair> pairs, Circuit old, Circuit neu, Findings findings) {
        this.old = old;
        this.neu = neu;
        this.findings = findings;
        pairs.forEach(p -> newToOld.put(p.neu().id(), p.old().id()));
    }

    static void apply(List<PlugPair> pairs, Circuit old, Circuit neu, Findings findings) {
        new BranchRules(pairs, old, neu, findings).compare();
    }

    private void compare() {
        Map<String, Set<String>> before = new LinkedHashMap<>();
        old.branches().values().forEach(b -> before.put(b.id(), sides(old, b, Map.of())));
        Map<String, Set<String>> after = new LinkedHashMap<>();
        neu.branches().values().forEach(b -> after.put(b.id(), sides(neu, b, newToOld)));
        Map<String, Pairing.Pair> pairs = Pairing.of(
                List.copyOf(before.keySet()),
                List.copyOf(after.keySet()),
                0.5,
                1,
                (a, b) -> Pairing.overlap(before.get(a), after.get(b))
                        + (old.branches()
                                        .get(a)
                                        .label()
                                        .equalsIgnoreCase(neu.branches().get(b).label())
                                ? 0.5
                                : 0));
        for (Branch a : old.branches().values()) {
            if (pairs.containsKey(a.id()))
                compare(a, neu.branches().get(pairs.get(a.id()).neu()));
            else findings.notKnown("clips and brackets", "branch " + a.id() + " (" + a.label() + ")", true);
        }
    }

    /** Plugs on the side of a branch away from the root, by their old ids; the root is the first plug of the old circuit. */
    private Set<String> sides(Circuit c, Branch branch, Map<String, String> names) {
        Set<String> far = new TreeSet<>();
        Set<String> near = new TreeSet<>();
        Set<String> reached = reached(c, branch.from(), branch);
        for (Connector plug : c.connectors().values()) {
            String name = names.isEmpty() ? plug.id() : names.getOrDefault(plug.id(), "new " + plug.id());
            (reached.contains(plug.at()) ? near : far).add(name);
        }
        String root = old.connectors().keySet().iterator().next();
        return near.contains(root) ? far : near;
    }

    private static Set<String> reached(Circuit c, String from, Branch without) {
        Set<String> out = new HashSet<>(Set.of(from));
        ArrayDeque<String> open = new ArrayDeque<>(out);
        while (!open.isEmpty()) {
            String here = open.remove();
            for (Branch b : c.branches().values()) {
                if (b == without) continue;
                String next = b.from().equals(here) ? b.to() : b.to().equals(here) ? b.from() : here;
                if (out.add(next)) open.add(next);
            }
        }
        return out;
    }

    private void compare(Branch a, Branch b) {
        String where = "branch " + a.id() + " (" + a.label() + ")";
        TreeSet<String> lost = new TreeSet<>(a.build().brackets());
        lost.removeAll(b.build().brackets());
        TreeSet<String> more = new TreeSet<>(b.build().brackets());
        more.removeAll(a.build().brackets());
        if (!lost.isEmpty())
            findings.add(
                    Subject.HOLD,
                    Severity.CARE,
                    where,
                    "comes without: " + String.join(", ", lost),
                    "the loom hangs on its plugs there and chafes",
                    "take the old bracket over, or order it",
                    Difference.PRACTICE);
        if (!more.isEmpty())
            findings.add(
                    Subject.HOLD,
                    Severity.NOTE,
                    where,
                    "has a bracket more: " + String.join(", ", more),
                    "there may be no bolt hole for it",
                    "leave it off where nothing takes it, and clip the loom there",
                    Difference.JUDGEMENT);
        clips(a, b, where);
        cover(a, b, where);
    }

    private void clips(Branch a, Branch b, String where) {
        if (b.clips() >= a.clips()) return;
        double span = b.metres() / (b.clips() + 1);
        boolean wide = span > SUPPORT_METRES;
        findings.add(
                Subject.HOLD,
                wide ? Severity.CARE : Severity.NOTE,
                where,
                String.format(
                        Locale.ROOT,
                        "%s, the old one %d: a free span of %.2f m",
                        FitWords.count(b.clips(), "clip"),
                        a.clips(),
                        span),
                wide ? "it swings and wears through" : "still held every 0.61 m or closer",
                wide ? "add clips" : "use the old clip holes that are left",
                "supports at most 24 inches apart: FAA AC 43.13-1B, paragraph 11-96a");
    }

    private void cover(Branch a, Branch b, String where) {
        if (a.build().flexes() && !b.build().flexes())
            findings.add(
                    Subject.COVER,
                    Severity.CARE,
                    where,
                    "is not made to flex, the old one is",
                    "strands break where it bends in use",
                    "look how the joint is bridged in the new build",
                    Difference.PRACTICE);
        if (a.build().cover() == b.build().cover()) return;
        boolean barer = b.build().cover() == Branch.Cover.OPEN
                || b.build().cover() == Branch.Cover.TAPE && a.build().cover() != Branch.Cover.OPEN;
        findings.add(
                Subject.COVER,
                barer ? Severity.CARE : Severity.NOTE,
                where,
                "cover is " + word(b) + ", the old one " + word(a),
                barer
                        ? "less between the wires and what rubs on them"
                        : b.build().cover() == Branch.Cover.MOULDED
                                ? "stiff, and cannot be opened for a repair later"
                                : "thicker: may not go through the old clips",
                barer ? "put conduit over it before it is laid in" : "hold it to the old clips before fitting",
                Difference.PRACTICE);
    }

    private static String word(Branch b) {
        return b.build().cover().name().toLowerCase(Locale.ROOT);
    }
}
