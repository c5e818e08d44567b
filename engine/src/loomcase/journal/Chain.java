package loomcase.journal;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * Whether the lines of a case are those that were written, in that order.
 *
 * <p>Works on bytes alone, so it also speaks of lines that are no longer JSON. Each line is put to two questions: does its
 * digest fit its content, and is the line before it the one it was chained to. A broken link is then laid on the line that
 * explains it: edited, inserted, removed, or out of order.
 *
 * <p><b>Bounded:</b> the chain has no secret, so whoever can write the file can write all of it anew; and the last lines
 * can be cut off without trace. Both show only against a last digest that was kept elsewhere.
 *
 * <p>Where lines fork, as after an insertion, the longest run of links counts as the case and the rest as inserted.
 *
 * <p>Time: one pass, lines² in the worst broken file.
 */
final class Chain {
    private static final int START = -1;
    private static final int NOT_HERE = -2;

    private final List<Optional<EntryLine>> lines;
    private final List<Digest> whole;
    private final Set<Integer> edited;
    private final TreeMap<Integer, String> problems = new TreeMap<>();

    private Chain(List<byte[]> lines) {
        this.lines = lines.stream().map(EntryLine::of).toList();
        this.whole = lines.stream().map(Digest::of).toList();
        for (int i = 0; i < lines.size(); i++) {
            byte[] line = lines.get(i);
            boolean returned = line.length > 0 && line[line.length - 1] == '\r';
            if (this.lines.get(i).isEmpty())
                say(
                        i,
                        returned
                                ? "was edited: it ends in CR LF, as some editors save; a case has LF alone"
                                : "was edited: it no longer has the form {\"n\": …, … \"previous\": \"…\", \"digest\":"
                                        + " \"…\"}");
            else if (!this.lines.get(i).get().whole())
                say(i, "was edited after it was written: its digest does not fit its content");
        }
        edited = Set.copyOf(problems.keySet());
    }

    /** What is wrong, one sentence a line at fault, in file order; each line without its line feed. */
    static List<String> problems(List<byte[]> lines) {
        Chain chain = new Chain(lines);
        if (!chain.reordered()) chain.links();
        List<String> out = new ArrayList<>();
        chain.problems.forEach((i, what) -> out.add("line " + (i + 1) + ": " + what));
        return out;
    }

    private void say(int i, String what) {
        problems.putIfAbsent(i, what);
    }

    /** All numbers are there once, yet not in order, and every line is whole: somebody moved lines. */
    private boolean reordered() {
        if (!problems.isEmpty()) return false;
        Set<Integer> numbers = new HashSet<>();
        for (Optional<EntryLine> line : lines) numbers.add(line.orElseThrow().n());
        for (int n = 1; n <= lines.size(); n++) if (!numbers.contains(n)) return false;
        for (int i = 0; i < lines.size(); i++) {
            int n = lines.get(i).orElseThrow().n();
            if (n != i + 1) say(i, "is out of order: it holds entry " + n);
        }
        return !problems.isEmpty();
    }

    /** Index of the line that line {@code i} was chained to: −1 for the start, −2 when it is not in the file. */
    private int chainedTo(int i) {
        if (edited.contains(i)) return NOT_HERE;
        Digest previous = lines.get(i).orElseThrow().previous();
        if (previous.equals(Digest.NONE)) return START;
        if (i > 0 && whole.get(i - 1).equals(previous)) return i - 1;
        int at = whole.indexOf(previous);
        return at < 0 ? NOT_HERE : at;
    }

    /** Follows the links; one that leads nowhere or forward is taken to lead to the line before. */
    private void links() {
        int[] parent = new int[lines.size()];
        int[] depth = new int[lines.size()];
        int end = START;
        for (int i = 0; i < parent.length; i++) {
            int to = chainedTo(i);
            parent[i] = to == NOT_HERE || to >= i ? i - 1 : to;
            depth[i] = parent[i] == START ? 1 : depth[parent[i]] + 1;
            if (end == START || depth[i] >= depth[end]) end = i;
        }
        for (int i = end + 1; i < parent.length; i++)
            say(i, "was inserted: it follows line " + (parent[i] + 1) + ", not line " + i);
        for (int i = end; i >= 0; i = parent[i]) {
            for (int k = parent[i] + 1; k < i; k++) {
                String follows =
                        parent[i] == START ? "opens the file" : "follows line " + (parent[i] + 1) + " directly";
                say(k, "was inserted: line " + (i + 1) + " " + follows);
            }
            link(i, parent[i]);
        }
    }

    /** What a link of the longest run tells about the lines at its two ends. */
    private void link(int i, int parent) {
        if (edited.contains(i)) return;
        int n = lines.get(i).orElseThrow().n();
        int before = numberOf(parent);
        int to = chainedTo(i);
        if (to >= i) say(i, "is out of order: it follows line " + (to + 1));
        else if (to == NOT_HERE && n > before + 1)
            say(i, "holds entry " + n + "; " + entries(before + 1, n - 1) + " before it removed");
        else if (n != before + 1) say(i, "holds entry " + n + " where entry " + (before + 1) + " was expected");
        else if (to == NOT_HERE && parent >= 0)
            say(parent, "was edited after it was written: line " + (i + 1) + " was chained to another text");
        else if (to == NOT_HERE) say(i, "was edited after it was written: nothing stands before it");
    }

    /** The number of a line, counted from the nearest line above that was not edited. */
    private int numberOf(int i) {
        int at = i;
        while (at >= 0 && edited.contains(at)) at--;
        return (at < 0 ? 0 : lines.get(at).orElseThrow().n()) + i - at;
    }

    private static String entries(int first, int last) {
        return first == last ? "entry " + first + " was" : "entries " + first + " to " + last + " were";
    }
}
