package loomcase.claim;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.BiConsumer;
import java.util.stream.Stream;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.Standing;

/** The standing lines of a journal with the repair in their midst. Cleared codes are no repair. */
final class Timeline {
    /** What holds of a line, with the number of the line that says so. */
    record At<F extends Fact>(int line, Entry.Stamp stamp, F fact) {}

    private final List<Standing> standing;
    private final OptionalInt firstRepair;
    private final OptionalInt lastRepair;
    private final int complaintLine;

    Timeline(Journal journal) {
        standing = journal.standing();
        complaintLine = complaintLine(journal);
        int[] repairs = standing.stream()
                .filter(s -> s.fact() instanceof Fact.Work w && w.deed() != Fact.Deed.CLEARED_CODES)
                .mapToInt(Standing::n)
                .toArray();
        firstRepair = repairs.length == 0 ? OptionalInt.empty() : OptionalInt.of(repairs[0]);
        lastRepair = repairs.length == 0 ? OptionalInt.empty() : OptionalInt.of(repairs[repairs.length - 1]);
    }

    List<Standing> lines() {
        return standing;
    }

    /** Line that gave the complaint its words: the opening, or the last correction of it that changed them. */
    int complaintLine() {
        return complaintLine;
    }

    private static int complaintLine(Journal journal) {
        int line = 1;
        String words = "";
        for (Entry e : journal.entries()) {
            Fact fact = e.fact() instanceof Fact.Correction c ? c.replacement() : e.fact();
            if (!(fact instanceof Fact.Opened o) || o.complaint().equals(words)) continue;
            line = e.n();
            words = o.complaint();
        }
        return line;
    }

    /** Line of the first repair. */
    OptionalInt firstRepair() {
        return firstRepair;
    }

    /**
     * Line of the repair that a choice was made for: the first one, or, where codes were read again after one that did not
     * do, the first one behind the choice.
     */
    OptionalInt repairOf(int choiceLine) {
        OptionalInt next = repairs().stream()
                .mapToInt(At::line)
                .filter(line -> line > choiceLine)
                .findFirst();
        boolean readAgain = all(Fact.Codes.class, Packet.Stage.BETWEEN).stream()
                .anyMatch(c -> next.isPresent() && c.line() < next.getAsInt());
        return readAgain ? next : firstRepair;
    }

    /** Line of the last repair. */
    OptionalInt lastRepair() {
        return lastRepair;
    }

    Packet.Stage stage(int line) {
        if (firstRepair.isEmpty() || line < firstRepair.getAsInt()) return Packet.Stage.BEFORE;
        return line > lastRepair.getAsInt() ? Packet.Stage.AFTER : Packet.Stage.BETWEEN;
    }

    /** Facts of one kind, in order. */
    <F extends Fact> List<At<F>> all(Class<F> kind) {
        List<At<F>> out = new ArrayList<>();
        for (Standing s : standing)
            if (kind.isInstance(s.fact())) out.add(new At<>(s.n(), s.stamp(), kind.cast(s.fact())));
        return out;
    }

    <F extends Fact> List<At<F>> all(Class<F> kind, Packet.Stage stage) {
        return all(kind).stream().filter(a -> stage(a.line()) == stage).toList();
    }

    /** Work on the engine, cleared codes not among it. */
    List<At<Fact.Work>> repairs() {
        return all(Fact.Work.class).stream()
                .filter(w -> w.fact().deed() != Fact.Deed.CLEARED_CODES)
                .toList();
    }

    /** Lines that a technician writes at the engine: tests, access and work. */
    Stream<Standing> atTheEngine() {
        return standing.stream()
                .filter(s -> s.fact() instanceof Fact.Codes
                        || s.fact() instanceof Fact.Tested
                        || s.fact() instanceof Fact.OpenedAccess
                        || s.fact() instanceof Fact.ClosedAccess
                        || s.fact() instanceof Fact.Work);
    }

    /** Access steps that were opened, each once: step, line of first opening, line of last closing or 0. */
    void access(AccessLines to) {
        List<At<Fact.OpenedAccess>> opened = all(Fact.OpenedAccess.class);
        List<At<Fact.ClosedAccess>> closed = all(Fact.ClosedAccess.class);
        List<String> done = new ArrayList<>();
        BiConsumer<String, Integer> once = (step, line) -> {
            if (done.contains(step)) return;
            done.add(step);
            int lastOpened = opened.stream()
                    .filter(o -> o.fact().step().equals(step))
                    .mapToInt(At::line)
                    .max()
                    .orElse(line);
            int lastClosed = closed.stream()
                    .filter(c -> c.fact().step().equals(step) && c.line() > lastOpened)
                    .mapToInt(At::line)
                    .max()
                    .orElse(0);
            to.step(step, line, lastClosed);
        };
        opened.forEach(o -> once.accept(o.fact().step(), o.line()));
    }

    /** Takes the access steps. */
    interface AccessLines {
        void step(String step, int openedLine, int closedLine);
    }
}
