package loomcase.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiPredicate;

/**
 * Which terminal of a new plug is which of the old one, by what it carries and never by where it sits alone.
 *
 * <p>First leads whose nets serve exactly the same, then those with the same circuit in words, then those whose nets
 * overlap most. Among equals (parallel feeds) one that sits in the same cavity goes first, so that as few as possible
 * need to move.
 *
 * @param cavities new cavity by old cavity, in the order of the old plug
 * @param changed old cavities whose lead was told by its words or by overlap although its net serves something else
 * @param missing old cavities whose circuit the new plug does not have
 * @param extra new cavities whose circuit the old plug does not have
 * @param unread new cavities of which nothing is known but that they carry a wire
 */
record LeadMatch(
        Map<String, String> cavities,
        List<String> changed,
        List<String> missing,
        List<String> extra,
        List<String> unread) {

    static LeadMatch of(Plug old, Plug neu) {
        return new Search(old, neu).run();
    }

    /** Old cavities whose terminal sits elsewhere in the new plug. */
    List<String> moved() {
        return cavities.entrySet().stream()
                .filter(e -> !e.getKey().equals(e.getValue()))
                .map(Map.Entry::getKey)
                .toList();
    }

    private static final class Search {
        private final Plug old;
        private final Plug neu;
        private final Map<String, String> found = new LinkedHashMap<>();
        private final List<String> changed = new ArrayList<>();
        private final List<String> olds;
        private final List<String> news;

        Search(Plug old, Plug neu) {
            this.old = old;
            this.neu = neu;
            this.olds = new ArrayList<>(old.leads().keySet());
            this.news = new ArrayList<>(neu.leads().keySet());
        }

        LeadMatch run() {
            pass((a, b) -> a.serves().equals(b.serves()) && !a.serves().isEmpty(), false);
            pass((a, b) -> !a.circuit().isEmpty() && a.circuit().equalsIgnoreCase(b.circuit()), true);
            pass(
                    (a, b) -> !a.wire().isEmpty()
                            && a.wire().equals(b.wire())
                            && b.serves().isEmpty(),
                    true);
            overlapping();
            Map<String, String> ordered = new LinkedHashMap<>();
            for (String c : old.leads().keySet()) if (found.containsKey(c)) ordered.put(c, found.get(c));
            List<String> unread = news.stream()
                    .filter(c -> neu.leads().get(c).serves().isEmpty()
                            && neu.leads().get(c).circuit().isEmpty())
                    .toList();
            news.removeAll(unread);
            return new LeadMatch(ordered, List.copyOf(changed), List.copyOf(olds), List.copyOf(news), unread);
        }

        private void pass(BiPredicate<Lead, Lead> same, boolean check) {
            for (String c : List.copyOf(olds))
                if (news.contains(c) && same.test(lead(old, c), lead(neu, c))) take(c, c, check);
            for (String c : List.copyOf(olds))
                news.stream()
                        .filter(n -> same.test(lead(old, c), lead(neu, n)))
                        .findFirst()
                        .ifPresent(n -> take(c, n, check));
        }

        private void overlapping() {
            Map<String, Pairing.Pair> rest = Pairing.of(
                    List.copyOf(olds),
                    List.copyOf(news),
                    0.5,
                    1,
                    (a, b) ->
                            Pairing.overlap(lead(old, a).serves(), lead(neu, b).serves()));
            rest.values().forEach(p -> take(p.old(), p.neu(), true));
        }

        private void take(String c, String n, boolean check) {
            found.put(c, n);
            olds.remove(c);
            news.remove(n);
            Set<String> there = lead(neu, n).serves();
            if (check && !there.isEmpty() && !there.equals(lead(old, c).serves())) changed.add(c);
        }

        private static Lead lead(Plug plug, String cavity) {
            return plug.leads().get(cavity);
        }
    }
}
