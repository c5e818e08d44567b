package loomcase.journal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Which fact may follow which lines, and what holds after all corrections. */
final class Corrections {
    private Corrections() {}

    /** Why a fact cannot be the next line after these entries; nothing when it can. */
    static Optional<String> complaint(List<Entry> before, Fact fact) {
        if (before.isEmpty())
            return fact instanceof Fact.Opened
                    ? Optional.empty()
                    : Optional.of("the first line of a case is of kind opened, not " + fact.kind());
        if (fact instanceof Fact.Opened) return Optional.of("only the first line of a case is of kind opened");
        if (!(fact instanceof Fact.Correction c)) return Optional.empty();
        if (c.corrects() > before.size())
            return Optional.of(
                    "corrects line " + c.corrects() + ", which is not written yet; lines are 1 to " + before.size());
        Fact old = before.get(c.corrects() - 1).fact();
        if (old instanceof Fact.Correction earlier)
            return Optional.of("line " + c.corrects() + " is a correction of line " + earlier.corrects()
                    + "; correct line " + earlier.corrects() + " again");
        if (old instanceof Fact.Opened != c.replacement() instanceof Fact.Opened)
            return Optional.of(
                    old instanceof Fact.Opened
                            ? "line 1 opens the case; only another opening can stand in its place"
                            : "line " + c.corrects() + " cannot become an opening; only line 1 is one");
        return Optional.empty();
    }

    /** What holds: each line but the corrections, with its last correction laid over it. */
    static List<Standing> standing(List<Entry> entries) {
        List<Standing> out = new ArrayList<>();
        for (Entry e : entries) if (!(e.fact() instanceof Fact.Correction)) out.add(standing(e, entries));
        return List.copyOf(out);
    }

    private static Standing standing(Entry entry, List<Entry> entries) {
        Fact fact = entry.fact();
        OptionalInt by = OptionalInt.empty();
        for (Entry later : entries)
            if (later.fact() instanceof Fact.Correction c && c.corrects() == entry.n()) {
                fact = c.replacement();
                by = OptionalInt.of(later.n());
            }
        return new Standing(entry.n(), entry.stamp(), fact, by);
    }
}
