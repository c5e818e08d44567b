package loomcase.cli;

import java.util.List;
import java.util.Optional;
import loomcase.fit.Difference;
import loomcase.fit.FitReport;
import loomcase.fit.FitWords;
import loomcase.fit.Slip;
import loomcase.fit.Sure;
import loomcase.fit.Transfer;

/** The comparison of two harnesses as text, the answer first. */
final class FitText {
    private static final int MOST = 12;

    private final FitReport report;
    private final Page page;

    FitText(FitReport report, Page page) {
        this.report = report;
        this.page = page;
    }

    void print() {
        List<String> answer = FitWords.answer(report);
        page.line(answer.get(0));
        for (String line : answer.subList(1, answer.size())) page.line("  " + line);
        differences();
        notKnown();
        plugs();
        for (FitReport.PlugReport p : report.plugs()) {
            sheet(p.transfer());
            checks(p);
            slips(p);
        }
    }

    private void differences() {
        if (report.fit().differences().isEmpty()) return;
        head("DIFFERENCES, worst first");
        for (Difference d : report.fit().differences()) {
            page.line(
                    "  " + String.format("%-9s", d.severity().word())
                            + d.subject().word() + ", " + d.where() + ": " + d.what(),
                    13);
            page.line("           follows: " + d.consequence(), 13);
            page.line("           do: " + d.action() + " [" + d.source() + "]", 13);
        }
    }

    private void notKnown() {
        if (report.fit().notKnown().isEmpty()) return;
        head("NOT COMPARED, because a file does not say");
        for (Difference.NotKnown n : report.fit().notKnown())
            page.line("  " + (n.matters() ? "matters  " : "minor    ") + n.what() + ": " + n.where(), 13);
    }

    private void plugs() {
        List<String> unsure = report.fit().plugs().stream()
                .filter(p ->
                        p.sure() != Sure.CERTAIN || !p.old().id().equals(p.neu().id()))
                .map(p -> p.old().id() + " is new " + p.neu().id() + " ("
                        + p.sure().word() + ")")
                .toList();
        if (unsure.isEmpty()) return;
        head("WHICH PLUG IS WHICH");
        page.line("  " + String.join("; ", unsure) + ". The others keep their ids, certain.");
    }

    private void sheet(Transfer t) {
        head("TRANSFER SHEET " + FitWords.summary(t));
        if (!t.cycles().isEmpty()) page.line("  cycles: " + FitWords.cycles(t));
        int n = 1;
        for (Transfer.Step s : t.steps()) {
            if (!s.caution().isEmpty()) page.line("       ! " + s.caution(), 9);
            page.line(String.format("  [ ] %2d ", n++) + s.words(), 9);
        }
    }

    private void checks(FitReport.PlugReport p) {
        head("CHECKS BEFORE THE KEY IS TURNED, plug " + p.transfer().plug());
        page.line("  Ohms from cavity to far end, battery isolated, leads zeroed, wire at 20 °C.");
        for (Slip.Check c : p.checks()) page.line("  [ ] " + FitWords.check(c), 8);
        for (String c : p.unchecked()) page.line("  [ ] " + c + ": its circuit ends inside the loom; tug and look", 8);
    }

    private void slips(FitReport.PlugReport p) {
        head("IF A SLIP WERE LEFT IN, plug " + p.transfer().plug());
        page.line("  " + FitWords.slips(p));
        page.line("  Looked at: " + String.join(", ", report.operatingPoints()) + ".");
        some("Silent, caught by the check only", p.silent(), true);
        some("May damage", p.harmful(), false);
        some("Others", rest(p), false);
    }

    private static List<Slip> rest(FitReport.PlugReport p) {
        return p.slips().stream()
                .filter(s -> s.effect() == Slip.Effect.CODES && s.damage().isEmpty())
                .toList();
    }

    private void some(String title, List<Slip> slips, boolean checks) {
        if (slips.isEmpty()) return;
        page.line("  " + title + ":");
        for (Slip s : slips.subList(0, Math.min(MOST, slips.size()))) {
            Optional<String> caught = checks ? Optional.of(FitWords.caught(s)) : Optional.empty();
            page.line(
                    "    " + FitWords.what(s) + ": " + FitWords.follows(s)
                            + caught.map(c -> ". Check " + c).orElse(""),
                    6);
        }
        if (slips.size() > MOST) page.line("    … " + (slips.size() - MOST) + " more: --json has all");
    }

    private void head(String title) {
        page.line();
        page.line(title, 2);
    }
}
