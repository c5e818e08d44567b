package loomcase.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import loomcase.casework.Answer;
import loomcase.model.AccessStep;
import loomcase.plan.NextTest;
import loomcase.policy.RemedyRuling;
import loomcase.verdict.BreakEven;
import loomcase.verdict.Remedy;
import loomcase.verdict.Verdict;
import loomcase.verdict.WireLoad;

/** The verdict as text for a person: what to do, money as bars and as a table, reasons, how it is made. */
final class VerdictText {
    private static final int MOST_OPTIONS = 7;
    private static final int BAR = 34;

    /** Columns for the name of a remedy, and the most it may take beside a bar. */
    private static final int NAME = 24;

    private static final int MOST_NAME = 50;

    private static final String LEGEND =
            "     cures: chance that all is mended. Money, labour to stands: the bill now, standing still among it; again:"
                    + " what follows when it does not do; fails: the repair itself fails later; hidden: damage left"
                    + " behind. wins: share of draws in which it is the cheapest";

    private final Answer answer;
    private final Verdict verdict;
    private final boolean ascii;

    VerdictText(Answer answer, Verdict verdict, boolean ascii) {
        this.answer = answer;
        this.verdict = verdict;
        this.ascii = ascii;
    }

    void print(Page page) {
        page.line(answer.circuit().title(), 0);
        page.line(answer.circuit().origin(), 0);
        page.line();
        head(page);
        page.line();
        bars(page);
        page.line();
        table(page);
        page.line();
        breakEvens(page);
        verdict.leading().ifPresent(l -> making(page, l));
        rules(page);
        notes(page);
    }

    private void head(Page page) {
        page.line("VERDICT");
        page.line("     " + headline(), 7);
        page.line("     " + verdict.replacement().words(), 7);
        verdict.reasons().forEach(r -> page.line("     - " + r, 7));
        verdict.conflicts().forEach(c -> page.line("     ! " + c, 7));
        if (verdict.shopPolicyDiffers()) page.line("     ! shop policy differs from the built-in rules here", 7);
        if (!verdict.settled()) test(page);
    }

    private String headline() {
        if (verdict.option().equals(Verdict.NOT_ENOUGH))
            return "not enough evidence: " + (verdict.next().isPresent() ? "test first" : "no repair is justified yet");
        if (verdict.option().equals(Verdict.ASK)) return "ask: the rules do not settle it";
        Remedy r = verdict.leading().orElseThrow().remedy();
        return (r.halves().isEmpty() ? r.option() : "two repairs in one visit") + ": " + r.words();
    }

    private void test(Page page) {
        if (verdict.next().isEmpty()) {
            page.line(
                    "     no test of this model is worth its minutes; look for what the circuit file does not contain",
                    7);
            return;
        }
        NextTest t = verdict.next().get();
        page.line(
                String.format(
                        Locale.ROOT,
                        "     next: %s (%.0f minutes with access)",
                        t.test().words(),
                        t.minutes()),
                7);
        answer.cautions(t).forEach(c -> page.line("       ! " + c, 9));
    }

    /** The options shown: the cheapest that may cure, a section among them, and the harness, with forbidden ones too. */
    private List<Verdict.Weighed> shown() {
        return shown(verdict.worthALine());
    }

    private static List<Verdict.Weighed> shown(List<Verdict.Weighed> all) {
        List<Verdict.Weighed> out = new ArrayList<>();
        for (Verdict.Weighed w : all) {
            boolean first = out.stream()
                    .noneMatch(o -> o.remedy().option().equals(w.remedy().option()));
            if (out.size() < MOST_OPTIONS || w.remedy().replaces() && first) out.add(w);
        }
        return out;
    }

    private void bars(Page page) {
        page.line("EXPECTED COST, " + verdict.currency() + " (bar: 9 draws of 10 lie in it)");
        double most = shown().stream().mapToDouble(Verdict.Weighed::high).max().orElse(1);
        int width =
                shown().stream().mapToInt(w -> w.remedy().id().length()).max().orElse(0);
        width = Math.max(NAME, Math.min(MOST_NAME, width));
        StringBuilder out = new StringBuilder();
        for (Verdict.Weighed w : shown())
            out.append(String.format(
                    Locale.ROOT,
                    "  %s %-" + width + "s %s %8.0f%n",
                    w.forbidden() ? "x" : verdict.leading().filter(w::equals).isPresent() ? ">" : " ",
                    cut(w.remedy().id(), width),
                    bar(w, most),
                    w.cost().total()));
        page.block(out.toString());
    }

    private String bar(Verdict.Weighed w, double most) {
        int low = column(w.low(), most);
        int high = column(w.high(), most);
        int at = Math.min(BAR - 1, column(w.cost().total(), most));
        StringBuilder out = new StringBuilder();
        for (int i = 0; i < BAR; i++)
            out.append(
                    i == at ? (ascii ? '#' : '●') : i >= low && i <= high ? (ascii ? '-' : '─') : (ascii ? '.' : '·'));
        return out.toString();
    }

    private static int column(double money, double most) {
        return most <= 0 ? 0 : (int) Math.round(money / most * (BAR - 1));
    }

    private void table(Page page) {
        StringBuilder out = new StringBuilder();
        out.append(String.format(
                Locale.ROOT,
                "  %-26s %5s %6s %6s %6s %6s %7s %6s %6s %6s%n",
                "OPTION",
                "cures",
                "min",
                "labour",
                "parts",
                "stands",
                "again",
                "fails",
                "hidden",
                "wins"));
        for (Verdict.Weighed w : shown()) {
            String name = (w.forbidden() ? "x " : "  ") + w.remedy().id();
            boolean apart = name.length() > NAME + 2;
            if (apart) out.append("  ").append(name).append(String.format("%n"));
            out.append(String.format(
                    Locale.ROOT,
                    "  %-26s %4.0f%% %6.0f %6.0f %6.0f %6.0f %7.0f %6.0f %6.0f %5.0f%%%n",
                    apart ? "" : name,
                    100 * w.cures(),
                    w.accessMinutes() + w.workMinutes(),
                    w.cost().access() + w.cost().labour(),
                    w.cost().parts(),
                    w.cost().downtime(),
                    w.cost().comeback(),
                    w.cost().failure(),
                    w.cost().hidden(),
                    100 * w.wins()));
        }
        page.block(out.toString());
        page.line(LEGEND, 5);
        int idle = verdict.options().size() - verdict.worthALine().size();
        if (idle > 0) page.line("     " + idle + " more cure nothing here (below 0.5 %); see --json");
        int more = verdict.worthALine().size() - shown().size();
        if (more > 0) page.line("     " + more + " more, dearer; see --json");
        shown(verdict.options()).stream().filter(Verdict.Weighed::forbidden).forEach(w -> w.rulings().stream()
                .filter(r -> r.effect() == RemedyRuling.Effect.FORBID)
                .forEach(r -> page.line("     x " + w.remedy().id() + ": " + r.text() + " (" + r.rule() + ")", 9)));
    }

    private void breakEvens(Page page) {
        if (verdict.breakEvens().isEmpty()) return;
        page.line("WHAT WOULD CHANGE IT");
        verdict.breakEvens().forEach(b -> page.line("     " + sentence(b), 7));
    }

    private String sentence(BreakEven b) {
        String what =
                switch (b.quantity()) {
                    case HIDDEN_DAMAGE -> "further damage left behind";
                    case CIRCUITS -> "damaged circuits";
                    case LABOUR_RATE -> "labour rate";
                };
        String flip = b.at().isPresent()
                ? "the least cost is " + b.becomes() + " from " + value(b, b.at().getAsDouble())
                : "none within " + value(b, b.low()) + " to " + value(b, b.high());
        String harness = b.becomes().equals("full-harness")
                        || b.harnessAt().isPresent() && b.harnessAt().getAsDouble() == b.now()
                ? ""
                : b.harnessAt().isPresent()
                        ? "; the full harness from " + value(b, b.harnessAt().getAsDouble())
                        : "; the full harness nowhere in that range";
        return what + " (here " + value(b, b.now()) + "): " + flip + harness;
    }

    private String value(BreakEven b, double x) {
        return switch (b.quantity()) {
            case HIDDEN_DAMAGE -> String.format(Locale.ROOT, "%.0f %%", 100 * x);
            case CIRCUITS -> String.format(Locale.ROOT, "%.0f", x);
            case LABOUR_RATE -> String.format(Locale.ROOT, "%.0f %s an hour", x, verdict.currency());
        };
    }

    private void making(Page page, Verdict.Weighed w) {
        page.line();
        page.line("HOW: " + w.remedy().words(), 5);
        for (String id : w.remedy().access()) {
            AccessStep s = answer.circuit().access().get(id);
            boolean open = answer.openAccess().contains(id);
            page.line("     access: " + s.label() + (open ? ", open already" : ""), 13);
            if (!s.caution().isEmpty()) page.line("       ! " + s.caution(), 9);
        }
        Remedy.Detail d = w.remedy().detail();
        d.cut().forEach(c -> page.line("     cut: " + c, 10));
        d.fit().forEach(c -> page.line("     fit: " + c, 10));
        d.splices()
                .forEach(s -> page.line(
                        String.format(
                                Locale.ROOT,
                                "     splice: %s at %.2f m of branch %s, %.0f mm to its nearer end",
                                s.wire(),
                                s.metresAlong(),
                                s.branch(),
                                1000 * s.metresToEnd()),
                        13));
        d.wires().forEach(c -> page.line("     wire: " + c, 11));
        d.loads().forEach(l -> page.line("     load: " + load(l), 11));
        if (!d.neighbours().isEmpty()) page.line("     touches: " + String.join("; ", d.neighbours()), 14);
        w.remedy().places().stream()
                .flatMap(p -> answer.cautions(p).stream())
                .distinct()
                .forEach(c -> page.line("       ! " + c, 9));
    }

    private static String load(WireLoad l) {
        return String.format(
                Locale.ROOT,
                "%s carries up to %.2f A (%s), drops %.0f mV over %.2f m and its joints, may carry %.1f A at %.0f °C%s",
                l.wire(),
                l.amperes(),
                l.basis(),
                1000 * l.volts(),
                l.metres(),
                l.ampacity(),
                l.celsius(),
                l.carries() ? "" : ": TOO THIN for that in a bundle so hot, take a larger size");
    }

    private void rules(Page page) {
        if (verdict.leading().isEmpty()) return;
        List<RemedyRuling> said = verdict.leading().get().rulings();
        if (said.isEmpty()) return;
        page.line();
        page.line("RULES");
        said.forEach(r -> page.line(
                "     " + r.effect().name().toLowerCase(Locale.ROOT) + ": " + r.text() + " (" + r.rule() + ")", 7));
    }

    private void notes(Page page) {
        if (answer.intake().notes().isEmpty()) return;
        page.line();
        page.line("NOTES");
        answer.intake().notes().forEach(n -> page.line("     " + n));
    }

    private static String cut(String text, int most) {
        return text.length() <= most ? text : text.substring(0, most - 1) + "~";
    }
}
