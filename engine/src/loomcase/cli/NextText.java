package loomcase.cli;

import java.util.Locale;
import java.util.stream.Collectors;
import loomcase.casework.Answer;
import loomcase.plan.NextTest;

/** Proposed tests as text. */
final class NextText {
    private static final int MOST_OUTCOMES = 5;

    private final Answer answer;

    NextText(Answer answer) {
        this.answer = answer;
    }

    /** What is left when nothing is proposed, with the cautions of the first place. */
    private void none(Page page) {
        if (answer.ranking().unexplained() > 0.5) {
            page.line(
                    "     no test is worth its minutes: most likely nothing in this model explains what was seen; read the"
                            + " codes again, check each line of the case, and look at what the circuit file leaves out",
                    7);
            return;
        }
        page.line("     no test is worth its minutes any more; go to the first place");
        answer.ranking().suspects().stream()
                .limit(1)
                .flatMap(s -> answer.cautions(s).stream())
                .forEach(c -> page.line("       ! " + c, 9));
    }

    /** The first proposal with its outcomes and cautions, or that there is none. */
    void first(Page page) {
        if (answer.next().isEmpty()) {
            none(page);
            return;
        }
        NextTest test = answer.next().get(0);
        page.line("     " + test.test().words());
        page.line(String.format(
                Locale.ROOT,
                "     %.0f minutes%s; then %.0f more expected to a settled case (settling now: %.0f)",
                test.minutes(),
                access(test),
                Math.max(0, test.expectedMinutes() - test.minutes()),
                test.settleNow()));
        if (!test.saves()) page.line("     it saves no minutes; it is to make sure before anybody acts", 7);
        test.outcomes().stream()
                .filter(o -> o.probability() > 0.005)
                .limit(MOST_OUTCOMES)
                .forEach(o -> page.line(
                        "       " + o.words() + " ("
                                + Percent.of(o.probability()).strip() + "): " + o.meaning() + ", then "
                                + Percent.of(o.then()).strip(),
                        9));
        for (String caution : answer.cautions(test)) page.line("       ! " + caution, 9);
        page.line("     test id, to refuse it: " + test.test().id());
    }

    private String access(NextTest test) {
        if (test.steps().isEmpty()) return ", nothing to open";
        return " with access ("
                + test.steps().stream()
                        .map(s -> answer.circuit().access().get(s).label())
                        .collect(Collectors.joining(", "))
                + ")";
    }

    /** The other proposals, a line each, where there are any. */
    void others(Page page, int most) {
        if (answer.next().size() < 2) return;
        page.line();
        page.line("OTHERWISE");
        answer.next().stream()
                .skip(1)
                .limit(most)
                .forEach(t -> page.line(
                        String.format(
                                Locale.ROOT,
                                "     %.0f minutes, %.0f to a settled case: %s",
                                t.minutes(),
                                t.expectedMinutes(),
                                t.test().words()),
                        9));
    }
}
