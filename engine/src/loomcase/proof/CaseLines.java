package loomcase.proof;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import loomcase.journal.Fact;
import loomcase.journal.Setup;
import loomcase.journal.Spot;
import loomcase.journal.Standing;

/**
 * A case cut at its last work.
 *
 * @param before lines up to the last work, that line included
 * @param after lines behind it
 */
record CaseLines(List<Standing> before, List<Standing> after) {
    CaseLines {
        before = List.copyOf(before);
        after = List.copyOf(after);
    }

    /** The cut; a case without work has all its lines before. */
    static CaseLines of(List<Standing> standing) {
        int last = standing.size() - 1;
        for (int i = 0; i < standing.size(); i++) if (isWork(standing.get(i))) last = i;
        return new CaseLines(standing.subList(0, last + 1), standing.subList(last + 1, standing.size()));
    }

    private static boolean isWork(Standing s) {
        return s.fact() instanceof Fact.Work w && w.spot().isPresent();
    }

    /** Lines that record work at a place. */
    List<Standing> work() {
        return before.stream().filter(CaseLines::isWork).toList();
    }

    /** Places worked at, each once. */
    List<Spot> spots() {
        Set<Spot> out = new LinkedHashSet<>();
        for (Standing s : work()) ((Fact.Work) s.fact()).spot().ifPresent(out::add);
        return List.copyOf(out);
    }

    List<Standing> all() {
        List<Standing> out = new ArrayList<>(before);
        out.addAll(after);
        return out;
    }

    /** For each plug that was apart at any time, the number of the last line that says so. */
    Map<String, Integer> lastApart() {
        Map<String, Integer> out = new TreeMap<>();
        for (Standing s : all()) setup(s.fact()).ifPresent(x -> x.unplugged().forEach(p -> out.put(p, s.n())));
        return out;
    }

    private static Optional<Setup> setup(Fact fact) {
        if (fact instanceof Fact.Reading r) return Optional.of(r.setup());
        if (fact instanceof Fact.Watched w) return Optional.of(w.setup());
        if (fact instanceof Fact.Moved m) return Optional.of(m.setup());
        return Optional.empty();
    }

    /** The last clearing of codes behind the work. */
    Optional<Standing> cleared() {
        return after.stream()
                .filter(s -> s.fact() instanceof Fact.Work w && w.deed() == Fact.Deed.CLEARED_CODES)
                .reduce((a, b) -> b);
    }

    /** Readings of codes behind the last clearing; none when nothing was cleared. */
    List<Standing> readSinceCleared() {
        return cleared()
                .map(c -> after.subList(after.indexOf(c) + 1, after.size()).stream()
                        .filter(s -> s.fact() instanceof Fact.Codes)
                        .toList())
                .orElse(List.of());
    }

    /** Seconds by the computer's clock from one line to another. */
    static long seconds(Standing from, Standing to) {
        return Duration.between(from.stamp().at(), to.stamp().at()).toSeconds();
    }
}
