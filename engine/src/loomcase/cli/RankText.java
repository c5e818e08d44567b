package loomcase.cli;

import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import loomcase.casework.Answer;
import loomcase.draw.HarnessTree;
import loomcase.j1939.Code;
import loomcase.rank.Ranking;

/** The answer as text for a person: codes, suspects, harness, next test. */
final class RankText {
    private static final int MOST_SUSPECTS = 5;
    private static final int MOST_PLACES = 6;
    private static final int MOST_LOSERS = 6;
    private static final int MOST_OUTCOMES = 4;
    private static final int SUSPECT_COLUMN = 12;

    private final Answer answer;
    private final boolean ascii;

    RankText(Answer answer, boolean ascii) {
        this.answer = answer;
        this.ascii = ascii;
    }

    void print(Page page) {
        answer.planAhead();
        page.line(answer.circuit().title(), 0);
        page.line(answer.circuit().origin(), 0);
        page.line();
        codes(page);
        page.line();
        suspects(page);
        page.line();
        page.line("HARNESS");
        page.block(HarnessTree.draw(answer.circuit(), answer.layout(), answer.suspicion(), ascii));
        page.line();
        losers(page);
        // Who waits reads the suspects while the next test is worked out.
        page.show();
        next(page);
        notes(page);
    }

    private void codes(Page page) {
        page.line("CODES");
        int label = answer.ranking().codes().stream()
                .mapToInt(c -> c.label().length())
                .max()
                .orElse(1);
        for (Ranking.CodeStatus c : answer.ranking().codes())
            page.line(
                    String.format(
                            Locale.ROOT,
                            "  %-9s %-6s %-5s %-" + Math.max(1, label) + "s  %s",
                            c.code(),
                            c.state().word(),
                            count(c.count()),
                            c.label(),
                            c.known() ? Percent.of(c.explained()).strip() + " explained" : "not in this circuit"),
                    26);
    }

    /** How often a code occurred; empty when nobody said so. */
    static String count(OptionalInt count) {
        return count.isPresent() ? "x" + count.getAsInt() : "";
    }

    /** What {@link Ranking#hidden} is the probability of. */
    static final String HIDDEN =
            "beside any of these a second fault that no code gives away; read the codes again after the repair";

    private void suspects(Page page) {
        Ranking r = answer.ranking();
        page.line("SUSPECTS");
        r.suspects().stream().limit(MOST_SUSPECTS).forEach(s -> suspect(page, s));
        int more = r.suspects().size() - MOST_SUSPECTS;
        if (more > 0) page.line("     " + more + " more, less likely; see --json");
        page.line("     " + Percent.of(r.unexplained()) + " nothing in this model explains the codes", SUSPECT_COLUMN);
        page.line("     " + Percent.of(r.hidden()) + " " + HIDDEN, SUSPECT_COLUMN);
    }

    private void suspect(Page page, Ranking.Suspect s) {
        page.line(
                String.format(
                        Locale.ROOT,
                        "%3d  %s %s%s",
                        s.rank(),
                        Percent.of(s.probability()),
                        alike(s, "these codes cannot tell apart"),
                        s.words()),
                SUSPECT_COLUMN);
        String indent = " ".repeat(SUSPECT_COLUMN);
        page.line(
                indent + "where: "
                        + s.places().stream()
                                .limit(MOST_PLACES)
                                .map(p -> p.place() + " "
                                        + Percent.of(p.probability()).strip())
                                .collect(Collectors.joining(", "))
                        + (s.places().size() > MOST_PLACES
                                ? ", " + (s.places().size() - MOST_PLACES) + " more places"
                                : ""),
                SUSPECT_COLUMN + 2);
        page.line(
                indent + "explains " + list(s.explains())
                        + (s.leaves().isEmpty() ? "" : "; leaves " + list(s.leaves()) + " unexplained")
                        + (s.predictsButAbsent().isEmpty()
                                ? ""
                                : "; should also set " + list(s.predictsButAbsent()) + ", not seen"),
                SUSPECT_COLUMN + 2);
    }

    /** Says so when the group's likeliest fault has less than half of its probability. */
    static String alike(Ranking.Suspect s, String how) {
        if (s.twoFaults() || s.members().get(0).probability() >= s.probability() / 2) return "";
        return "one of " + s.members().size() + " faults " + how + ", likeliest: ";
    }

    private static String list(List<Code> codes) {
        if (codes.isEmpty()) return "none";
        return codes.stream().map(Code::toString).collect(Collectors.joining(" "));
    }

    private void losers(Page page) {
        List<Ranking.Loser> losers = answer.ranking().losers();
        if (losers.isEmpty()) return;
        page.line("WHY NOT EACH PART BY ITSELF");
        for (Ranking.Loser l : losers.subList(0, Math.min(MOST_LOSERS, losers.size())))
            page.line("     " + l.words() + ": " + times(l.timesLess()) + " less likely; " + why(l));
        if (losers.size() > MOST_LOSERS) page.line("     and " + (losers.size() - MOST_LOSERS) + " more");
        page.line();
    }

    private static String why(Ranking.Loser l) {
        if (!l.leaves().isEmpty()) return "leaves " + list(l.leaves()) + " unexplained";
        if (!l.predictsButAbsent().isEmpty()) return "should also set " + list(l.predictsButAbsent()) + ", not seen";
        return "would have to coincide with more faults";
    }

    /** A factor of 1 or more in words: two digits, for nobody weighs the third. */
    static String times(double factor) {
        if (factor >= 1e6) return "over a million times";
        double step = Math.pow(10, Math.max(0, Math.floor(Math.log10(factor)) - 1));
        return String.format(Locale.ROOT, "%,d times", Math.max(1, Math.round(factor / step) * (long) step))
                .replace(',', ' ');
    }

    private void next(Page page) {
        page.line("NEXT TEST");
        new NextText(answer).first(page);
    }

    private void notes(Page page) {
        if (answer.intake().notes().isEmpty()) return;
        page.line();
        page.line("NOTES");
        answer.intake().notes().forEach(n -> page.line("     " + n));
    }
}
