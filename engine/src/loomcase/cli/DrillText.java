package loomcase.cli;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import loomcase.drill.Bill;
import loomcase.drill.ClassSummary;
import loomcase.drill.Debrief;
import loomcase.drill.Foresight;
import loomcase.drill.Limits;
import loomcase.drill.Mark;
import loomcase.drill.Planted;
import loomcase.drill.Played;
import loomcase.drill.Run;
import loomcase.drill.RunFile;
import loomcase.journal.Fact;
import loomcase.model.Costs;
import loomcase.model.read.Cursor;

/** Runs, debriefs and summaries as text. */
final class DrillText {
    private static final int MOST_OUTCOMES = 3;

    private final Page page;

    DrillText(Page page) {
        this.page = page;
    }

    /** One step done: what it gave, what it took, where the clock stands. */
    void step(RunFile file, Run.Step step) {
        page.line(step.line() + ": " + Cursor.oneLine(step.words()), 4);
        page.line("   took " + took(step.bill(), costs(file)) + "; " + clock(file));
        marks(step.marks());
        file.run()
                .ending()
                .ifPresent(e -> page.line("   the run is over: " + e.words() + ". Now: drill debrief " + file.file()));
    }

    private void marks(List<Mark> marks) {
        for (Mark m : marks) page.line("   " + (m.harmful() ? "!! " : "!  ") + m.words(), 6);
    }

    private static Costs costs(RunFile file) {
        return file.bench().circuit().costs();
    }

    private static String took(Bill bill, Costs costs) {
        String parts = bill.parts().signum() == 0 ? "" : " and parts for " + bill.parts() + " " + costs.currency();
        return String.format(Locale.ROOT, "%.0f minutes%s", bill.minutes(), parts);
    }

    private static String clock(RunFile file) {
        Limits limits = file.drill().drill().limits();
        String of = limits.minutes().isPresent()
                ? String.format(Locale.ROOT, " of %.0f", limits.minutes().getAsDouble())
                : "";
        String ofMoney = limits.money().map(m -> " of " + m).orElse("");
        BigDecimal money = file.run().money(costs(file));
        return String.format(
                Locale.ROOT,
                "clock %.0f%s minutes, %s%s %s",
                file.run().bill().minutes(),
                of,
                money,
                ofMoney,
                costs(file).currency());
    }

    /** How a run stands. */
    void status(RunFile file) {
        Fact.Codes first = file.drill().drill().first();
        page.line("complaint: " + Cursor.oneLine(file.drill().drill().complaint()));
        page.line("circuit:   " + file.bench().circuit().title());
        page.line("came with: " + codes(first.codes()) + " at " + String.join(", ", first.operatingPoints()), 11);
        Run run = file.run();
        if (!run.memory().equals(first.codes())) page.line("codes now: " + codes(run.memory()), 11);
        page.line("clock:     " + clock(file).replaceFirst("^clock ", ""));
        page.line("open:      " + (run.open().isEmpty() ? "nothing" : String.join(", ", run.open())), 11);
        for (Run.Step s : run.steps()) {
            page.line(s.line() + ": " + Cursor.oneLine(s.words()) + "; " + took(s.bill(), costs(file)), 4);
            marks(s.marks());
        }
        run.ending().ifPresent(e -> page.line("over: " + e.words()));
    }

    private static String codes(List<Fact.ReadCode> codes) {
        return codes.isEmpty()
                ? "no codes"
                : codes.stream()
                        .map(c -> c + (c.state() == Fact.State.ACTIVE ? " active" : " stored"))
                        .collect(Collectors.joining(", "));
    }

    /** What the planner did. */
    void path(Played played) {
        for (Played.Move m : played.moves())
            page.line(
                    String.format(
                            Locale.ROOT,
                            "   %s %4.0f min  %s: %s",
                            Percent.of(m.probability()),
                            m.bill().minutes(),
                            m.words(),
                            m.result()),
                    22);
    }

    /** The whole debrief. */
    void debrief(Debrief d, Costs costs) {
        page.line(d.student() + ": " + d.ending().words());
        for (Planted p : d.truth())
            page.line(
                    "  it was " + p.place() + ": " + p.words() + "; there: "
                            + p.showing().word(),
                    4);
        page.line();
        page.line("YOUR WAY  probability of the true place after each step; minutes; what it was");
        page.line("   " + Percent.of(d.first()) + "           the first codes");
        for (Debrief.Step s : d.steps()) step(s);
        page.line();
        page.line("THE PLANNER'S WAY");
        path(d.planner());
        page.line();
        page.line(String.format(
                Locale.ROOT,
                "  you      %5.0f minutes, %s %s; %.0f minutes of it lost",
                d.bill().minutes(),
                d.bill().money(costs),
                costs.currency(),
                d.lostMinutes()));
        for (Debrief.Loss loss : Debrief.Loss.values()) {
            Bill bill = d.lost(loss);
            if (bill.minutes() > 0) page.line("           lost: " + took(bill, costs) + " in " + loss.words());
        }
        page.line(String.format(
                Locale.ROOT,
                "  planner  %5.0f minutes, %s %s; first place %s",
                d.planner().bill().minutes(),
                d.planner().bill().money(costs),
                costs.currency(),
                d.planner().rightFirst() ? "right" : "wrong"));
        page.line();
        page.line("SAFETY");
        if (d.marks().isEmpty()) page.line("  no marks");
        for (Mark m : d.marks())
            page.line("  line " + m.line() + (m.harmful() ? ": harm: " : ": care: ") + m.words(), 4);
        if (!d.notGiven().isEmpty())
            page.line("  lines that the drill did not answer so, written by another hand: "
                    + d.notGiven().stream().map(String::valueOf).collect(Collectors.joining(", ")));
    }

    private void step(Debrief.Step s) {
        page.line(
                String.format(
                        Locale.ROOT,
                        "   %s %4.0f min  %d: %s%s",
                        Percent.of(s.probability()),
                        s.bill().minutes(),
                        s.line(),
                        Cursor.oneLine(s.words()),
                        s.lost().map(l -> " [lost: " + l.words() + "]").orElse("")),
                22);
        s.could().ifPresent(this::could);
    }

    private void could(Foresight f) {
        String outcomes = f.outcomes().stream()
                .limit(MOST_OUTCOMES)
                .map(o -> o.words() + " (" + Percent.of(o.probability()).strip() + "), then " + o.place() + " "
                        + Percent.of(o.then()).strip())
                .collect(Collectors.joining("; "));
        page.line(String.format(Locale.ROOT, "                    could tell %.2f bits: %s", f.bits(), outcomes), 22);
    }

    /** The table of a class. */
    void table(ClassSummary summary) {
        page.line(
                "student           nth drill                difficulty  minutes planner ratio tests hints harms  end");
        for (ClassSummary.Row r : summary.rows())
            page.block(String.format(
                    Locale.ROOT,
                    "%-17s %3d %-20s %-10s %8.0f %7.0f %5s %5d %5d %5d  %s%n",
                    cut(r.student(), 17),
                    r.nth(),
                    cut(r.drill(), 20),
                    r.difficulty().isEmpty() ? "not said" : r.difficulty(),
                    r.bill().minutes(),
                    r.plannerMinutes(),
                    r.ratio().isPresent()
                            ? String.format(Locale.ROOT, "%.1f", r.ratio().getAsDouble())
                            : "",
                    r.tests(),
                    r.hints(),
                    r.harms(),
                    r.ending().map(e -> e.word()).orElse("going-on") + (r.again() ? ", answer known" : "")));
    }

    private static String cut(String text, int most) {
        String line = Cursor.oneLine(text);
        return line.length() <= most ? line : line.substring(0, most - 1) + "…";
    }
}
