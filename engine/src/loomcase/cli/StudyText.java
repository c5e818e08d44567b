package loomcase.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.Predicate;
import loomcase.model.Circuit;
import loomcase.study.KindResult;
import loomcase.study.RepairResult;

/** The tables of a study. */
final class StudyText {
    private final PrintWriter out;
    private final List<KindResult> rows;

    private StudyText(PrintWriter out, List<KindResult> rows) {
        this.out = out;
        this.rows = rows;
    }

    static void print(PrintWriter out, Circuit circuit, long seed, List<String> at, List<KindResult> rows) {
        out.println("Ranking from codes alone on " + circuit.id() + ", seed " + seed + ", read at "
                + String.join(", ", at));
        StudyText text = new StudyText(out, rows);
        text.ranking();
        text.leftOut();
        if (rows.stream().noneMatch(r -> r.repair().isPresent())) return;
        text.verdicts();
        text.ways(circuit.costs().currency());
        if (rows.stream().flatMap(r -> r.repair().stream()).anyMatch(r -> r.cases() > 1)) text.slower();
    }

    private void ranking() {
        out.println();
        out.println(
                "| kind of case | cases | by ngspice | truth in suspect 1 | in 1 to 3 | in 1 to 5 | true place first |"
                        + " in 3 | behind a healthy device | log loss | Brier | calibration error | by chance: mean | 95 % |");
        out.println("|---|---|---|---|---|---|---|---|---|---|---|---|---|---|");
        for (KindResult r : rows) {
            if (r.cases() == 0) continue;
            out.printf(
                    Locale.ROOT,
                    "| %s | %d | %d | %s | %s | %s | %.3f | %.3f | %.3f | %.2f | %.2f | %.3f | %.3f | %.3f |%n",
                    r.words(),
                    r.cases(),
                    r.simulated(),
                    share(r.groupFirst()),
                    share(r.groupThree()),
                    share(r.groupFive()),
                    r.placeFirst(),
                    r.placeThree(),
                    r.behindSensor(),
                    r.logLoss(),
                    r.brier(),
                    r.calibrationError(),
                    r.chance().mean(),
                    r.chance().most());
        }
        out.println();
        out.println("In brackets: the true shares that so many cases leave open, with 95 % confidence.");
        calibration();
    }

    private static String share(KindResult.Share s) {
        return String.format(Locale.ROOT, "%.3f (%.2f-%.2f)", s.of(), s.low(), s.high());
    }

    private void calibration() {
        List<String> off =
                rows.stream().filter(KindResult::off).map(KindResult::words).toList();
        out.println("By chance: what the calibration error would be if every share stated were true. More than that: "
                + (off.isEmpty() ? "none" : String.join("; ", off)));
        out.println(
                "All cases of a kind being of that kind, shares that are true over all kinds together may be off there.");
        out.println();
    }

    private void leftOut() {
        for (KindResult r : rows)
            if (r.silent() + r.unsolved() > 0)
                out.println(r.words() + ": left out " + r.silent() + " of which no code was read and " + r.unsolved()
                        + " without a single operating point");
    }

    private void verdicts() {
        out.println();
        out.println("Verdicts beside the truth, numbers of cases: from codes alone / after the planner's tests");
        out.println();
        out.println(
                "| kind of case | worked through | by ngspice | truth calls for the harness, by rules alone in | not enough evidence |"
                        + " ask | acts and mends all | wrong full harness | missed full harness |");
        out.println("|---|---|---|---|---|---|---|---|---|");
        for (KindResult r : rows) r.repair().ifPresent(x -> verdicts(r.words(), x));
        RepairResult.all(rows.stream().flatMap(r -> r.repair().stream()).toList())
                .ifPresent(all -> verdicts("all together", all));
    }

    private void verdicts(String words, RepairResult r) {
        RepairResult.Verdicts c = r.codes();
        RepairResult.Verdicts t = r.tested();
        out.printf(
                "| %s | %d | %d | %d, %d | %d / %d | %d / %d | %d / %d | %d / %d | %d / %d |%n",
                words,
                r.cases(),
                r.simulated(),
                r.harnessNeeded(),
                r.onlyByRules(),
                c.notEnough(),
                t.notEnough(),
                c.ask(),
                t.ask(),
                c.mends(),
                t.mends(),
                c.wrongHarness(),
                t.wrongHarness(),
                c.missedHarness(),
                t.missedHarness());
    }

    private void ways(String currency) {
        out.println();
        out.println("To the right repair, means: minutes, " + currency
                + ", tests, share of cases in which the first repair did not mend all, share that came back");
        out.println();
        table(w -> true, StudyText::way);
    }

    /** Who is ahead of whom, and where so few cases leave it open. */
    private void slower() {
        out.println();
        out.println("Minutes above the planner, case by case: mean, and in brackets where it would lie over many cases,"
                + " with 95 % confidence; open: it may be either side of none");
        out.println();
        table(w -> w.slower().isPresent(), w -> difference(w.slower().orElseThrow()));
    }

    /** A row for each kind worked through and a column for each of some ways, headed by the first. */
    private void table(Predicate<RepairResult.WayResult> shown, Function<RepairResult.WayResult, String> cell) {
        boolean first = true;
        for (KindResult r : rows) {
            if (r.repair().isEmpty()) continue;
            List<RepairResult.WayResult> ways =
                    r.repair().get().ways().stream().filter(shown).toList();
            if (first) {
                row("kind of case", ways, RepairResult.WayResult::words);
                out.println("|---" + "|---".repeat(ways.size()) + "|");
            }
            first = false;
            row(r.words(), ways, cell);
        }
    }

    private void row(String head, List<RepairResult.WayResult> ways, Function<RepairResult.WayResult, String> cell) {
        out.println(
                "| " + head + " | " + String.join(" | ", ways.stream().map(cell).toList()) + " |");
    }

    private static String difference(RepairResult.Difference d) {
        return String.format(
                Locale.ROOT, "%+.0f (%+.0f to %+.0f)%s", d.mean(), d.low(), d.high(), d.open() ? " open" : "");
    }

    private static String way(RepairResult.WayResult w) {
        return String.format(
                Locale.ROOT,
                "%.0f, %.0f, %.1f, %.2f, %.2f",
                w.minutes().mean(),
                w.money().mean(),
                w.tests(),
                w.wrongFirst(),
                w.back());
    }
}
