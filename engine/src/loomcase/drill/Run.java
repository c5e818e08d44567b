package loomcase.drill;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.model.Costs;
import loomcase.model.PlaceId;

/**
 * How a run stands after its last line; a pure function of drill and lines.
 *
 * @param steps what was done, in order, the opening left out
 * @param bill minutes and parts so far
 * @param open access steps open
 * @param faults faults in the engine now, those made by harmful tests among them
 * @param memory codes in the control unit as read last; none after clearing
 * @param hints hints taken
 * @param ending how it ended, empty while it goes on
 */
public record Run(
        List<Step> steps,
        Bill bill,
        Set<String> open,
        List<Planted> faults,
        List<Fact.ReadCode> memory,
        int hints,
        Optional<Ending> ending) {
    /** Lines that the start of a run writes: opening, which drill, first codes. */
    static final int FIRST_LINES = 3;

    /**
     * One line.
     *
     * @param line its number
     * @param fact what it says
     * @param bill what it took, harm included
     * @param marks for safety
     */
    public record Step(int line, Fact fact, Bill bill, List<Mark> marks) {
        public Step {
            marks = List.copyOf(marks);
        }

        /** The line as the student reads it. */
        public String words() {
            return RunNote.words(fact);
        }
    }

    public Run {
        steps = List.copyOf(steps);
        open = java.util.Collections.unmodifiableSet(new LinkedHashSet<>(open));
        faults = List.copyOf(faults);
        memory = List.copyOf(memory);
    }

    /** Labour and parts so far. */
    public BigDecimal money(Costs costs) {
        return bill.money(costs);
    }

    /** All marks in order. */
    public List<Mark> marks() {
        return steps.stream().flatMap(s -> s.marks().stream()).toList();
    }

    /** The state before anything was done. */
    static Run start(Engine engine, Drill drill) {
        return new Run(
                List.of(), Bill.FREE, Set.of(), engine.planted(), drill.first().codes(), 0, Optional.empty());
    }

    /** Replays a journal. */
    static Run of(Workshop shop, Journal journal) {
        Run run = start(shop.engine(), shop.drill());
        for (Entry e : journal.entries()) if (e.n() > FIRST_LINES) run = run.after(shop, e.n(), e.fact());
        return run;
    }

    /** The state after one more line. */
    Run after(Workshop shop, int line, Fact fact) {
        List<Mark> marks = shop.harms().of(line, fact, faults);
        Bill took = shop.prices().of(fact, faults);
        List<Planted> now = new ArrayList<>(faults);
        for (Mark m : marks) {
            took = took.plus(m.bill());
            m.made()
                    .filter(p -> now.stream().noneMatch(x -> x.id().equals(p.id())))
                    .ifPresent(now::add);
        }
        Set<String> ways = new LinkedHashSet<>(open);
        List<Fact.ReadCode> codes = memory;
        if (fact instanceof Fact.OpenedAccess o) ways.add(o.step());
        if (fact instanceof Fact.ClosedAccess c) ways.remove(c.step());
        if (fact instanceof Fact.Codes c) codes = c.codes();
        if (fact instanceof Fact.Work w) {
            if (w.deed() == Fact.Deed.CLEARED_CODES) codes = List.of();
            w.spot().ifPresent(s -> now.removeIf(p -> shop.repairs().mends(w.deed(), s.place(), p)));
        }
        List<Step> all = new ArrayList<>(steps);
        all.add(new Step(line, fact, took, marks));
        Bill sum = bill.plus(took);
        List<Planted> made = all.stream()
                .flatMap(s -> s.marks().stream())
                .flatMap(m -> m.made().stream())
                .toList();
        Optional<Ending> end = ending.or(() -> ending(shop, fact, made, now, sum));
        return new Run(all, sum, ways, now, codes, hints + (RunNote.isHint(fact) ? 1 : 0), end);
    }

    private static Optional<Ending> ending(Workshop shop, Fact fact, List<Planted> made, List<Planted> now, Bill sum) {
        if (RunNote.isGivingUp(fact)) return Optional.of(Ending.GAVE_UP);
        Optional<List<PlaceId>> claimed = RunNote.claimed(fact);
        if (claimed.isPresent()) return Optional.of(claim(shop.engine().planted(), made, claimed.get(), now));
        Limits limits = shop.drill().limits();
        if (limits.minutes().isPresent() && sum.minutes() > limits.minutes().getAsDouble())
            return Optional.of(Ending.OUT_OF_TIME);
        Costs costs = shop.engine().circuit().costs();
        return limits.money().filter(m -> sum.money(costs).compareTo(m) > 0).map(m -> Ending.OUT_OF_MONEY);
    }

    /** Right is who names all that was planted and nothing that was sound; what the student broke may be named too. */
    private static Ending claim(List<Planted> truth, List<Planted> made, List<PlaceId> claimed, List<Planted> now) {
        boolean all = truth.stream().allMatch(p -> claimed.stream().anyMatch(c -> names(c, p)));
        boolean right = all
                && claimed.stream().allMatch(c -> Stream.concat(truth.stream(), made.stream())
                        .anyMatch(p -> names(c, p)));
        boolean works = now.stream().allMatch(p -> p.place().kind() == PlaceId.Kind.ENGINE);
        return !right ? Ending.WRONG : works ? Ending.SOLVED : Ending.FOUND;
    }

    private static boolean names(PlaceId claimed, Planted p) {
        if (p.place().kind() == PlaceId.Kind.ENGINE) return claimed.kind() == PlaceId.Kind.ENGINE;
        return p.alike().contains(claimed);
    }
}
