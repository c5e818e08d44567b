package loomcase.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import loomcase.draw.HarnessTree;
import loomcase.intake.Intake;
import loomcase.j1939.Code;
import loomcase.plan.NextTest;
import loomcase.rank.Ranking;

/** The answer as text for a person: codes, suspects, harness, next test. */
final class RankText {
    private static final int MOST_SUSPECTS = 5;
    private static final int MOST_PLACES = 6;
    private static final int MOST_LOSERS = 6;

    private final Answer answer;
    private final boolean ascii;

    RankText(Answer answer, boolean ascii) {
        this.answer = answer;
        this.ascii = ascii;
    }

    void print(PrintWriter out) {
        Ranking r = answer.ranking();
        out.println(answer.circuit().title());
        out.println(answer.circuit().origin());
        out.println();
        codes(out);
        out.println();
        out.println("SUSPECTS");
        r.suspects().stream().limit(MOST_SUSPECTS).forEach(s -> suspect(out, s));
        int more = r.suspects().size() - MOST_SUSPECTS;
        if (more > 0) out.println("     " + more + " more, less likely; see --json");
        out.printf("     %s nothing in this model explains the codes%n", Percent.of(r.unexplained()));
        out.println();
        out.println("HARNESS");
        out.print(HarnessTree.draw(answer.circuit(), answer.layout(), Drawing.suspicion(answer), ascii));
        out.println();
        losers(out);
        next(out);
        notes(out);
    }

    private void codes(PrintWriter out) {
        out.println("CODES");
        for (Ranking.CodeStatus c : answer.ranking().codes())
            out.printf(
                    "  %-9s %-6s %-5s %-48s %s%n",
                    c.code(),
                    c.state().word(),
                    Intake.count(c.count()),
                    c.label(),
                    c.known() ? Percent.of(c.explained()).strip() + " explained" : "not in this circuit");
    }

    private void suspect(PrintWriter out, Ranking.Suspect s) {
        out.printf("%3d  %s %s%s%n", s.rank(), Percent.of(s.probability()), alike(s), s.words());
        out.println("          where: "
                + s.places().stream()
                        .limit(MOST_PLACES)
                        .map(p -> p.place() + " " + Percent.of(p.probability()).strip())
                        .collect(Collectors.joining(", "))
                + (s.places().size() > MOST_PLACES ? ", " + (s.places().size() - MOST_PLACES) + " more" : ""));
        out.println("          explains " + list(s.explains()) + "; leaves " + list(s.leaves())
                + "; predicts but absent " + list(s.predictsButAbsent()));
    }

    /** Says so when the group's likeliest fault has less than half of its probability. */
    private static String alike(Ranking.Suspect s) {
        if (s.twoFaults() || s.members().get(0).probability() >= s.probability() / 2) return "";
        return "one of " + s.members().size() + " faults these codes cannot tell apart, likeliest: ";
    }

    static String list(List<Code> codes) {
        if (codes.isEmpty()) return "none";
        return codes.stream().map(Code::toString).collect(Collectors.joining(" "));
    }

    private void losers(PrintWriter out) {
        List<Ranking.Loser> losers = answer.ranking().losers();
        if (losers.isEmpty()) return;
        out.println("WHY NOT EACH PART BY ITSELF");
        for (Ranking.Loser l : losers.subList(0, Math.min(MOST_LOSERS, losers.size()))) {
            String why = l.leaves().isEmpty()
                    ? l.predictsButAbsent().isEmpty()
                            ? "would have to coincide with more faults"
                            : "would also set " + list(l.predictsButAbsent())
                    : "leaves " + list(l.leaves());
            out.println("     " + l.words() + ": " + times(l.timesLess()) + " less likely; " + why);
        }
        if (losers.size() > MOST_LOSERS) out.println("     and " + (losers.size() - MOST_LOSERS) + " more");
        out.println();
    }

    private static String times(double factor) {
        if (factor < 1000) return String.format(Locale.ROOT, "%.0f times", Math.max(1, factor));
        return String.format(Locale.ROOT, "10^%.0f times", Math.log10(factor));
    }

    private void next(PrintWriter out) {
        out.println("NEXT TEST");
        if (answer.next().isEmpty()) {
            out.println("     no single voltage reading separates these suspects; inspect the first place");
            answer.ranking().suspects().stream()
                    .limit(1)
                    .flatMap(s -> answer.cautions(s).stream())
                    .forEach(c -> out.println("       ! " + c));
        }
        answer.next().ifPresent(t -> {
            out.printf(
                    Locale.ROOT,
                    "     voltage at cavity %s to %s, %s: about %.0f minutes with access%n",
                    t.points().get(0),
                    t.points().get(1),
                    t.setup(),
                    t.minutes());
            for (NextTest.Outcome o :
                    t.outcomes().subList(0, Math.min(4, t.outcomes().size())))
                out.printf(
                        Locale.ROOT,
                        "       near %5.2f V (%s): %s%n",
                        o.volts(),
                        Percent.of(o.probability()).strip(),
                        o.meaning());
            for (String caution : answer.cautions(t)) out.println("       ! " + caution);
        });
    }

    private void notes(PrintWriter out) {
        if (answer.intake().notes().isEmpty()) return;
        out.println();
        out.println("NOTES");
        answer.intake().notes().forEach(n -> out.println("     " + n));
    }
}
