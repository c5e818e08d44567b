package loomcase.journal;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * A case as read: every line, chain verified, at least the opening.
 *
 * @param entries as written, corrections among them
 * @param notices what a person should know about the file, such as a torn last line; usually none
 */
public record Journal(List<Entry> entries, List<String> notices) {
    public Journal {
        entries = List.copyOf(entries);
        notices = List.copyOf(notices);
        if (entries.isEmpty()) throw new IllegalArgumentException("a case has at least its opening");
    }

    /** What holds after corrections, in the order of the lines; corrections themselves are not among it. */
    public List<Standing> standing() {
        return Corrections.standing(entries);
    }

    /** The opening as it holds. */
    public Fact.Opened opened() {
        return (Fact.Opened) standing().get(0).fact();
    }

    /** Access steps open at the end, in the order in which they were opened. */
    public Set<String> openAccess() {
        Set<String> open = new LinkedHashSet<>();
        for (Standing s : standing()) {
            if (s.fact() instanceof Fact.OpenedAccess o) open.add(o.step());
            if (s.fact() instanceof Fact.ClosedAccess c) open.remove(c.step());
        }
        return open;
    }

    /** Digest of the last line, which stands for the whole case. */
    public Digest last() {
        return entries.get(entries.size() - 1).digest();
    }
}
