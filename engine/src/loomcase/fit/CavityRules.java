package loomcase.fit;

import java.util.List;
import java.util.TreeSet;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;

/** What each cavity carries: moved, missing, extra, joined otherwise. */
final class CavityRules {
    private final PlugPair pair;
    private final Findings findings;

    private CavityRules(PlugPair pair, Findings findings) {
        this.pair = pair;
        this.findings = findings;
    }

    /** True when terminals have to change cavities. */
    static boolean apply(PlugPair pair, boolean obstacle, Findings findings) {
        CavityRules r = new CavityRules(pair, findings);
        boolean moved = r.moved(obstacle);
        r.missing();
        r.extra();
        r.changed();
        return moved;
    }

    private boolean moved(boolean obstacle) {
        List<String> moved = pair.leads().moved();
        if (moved.isEmpty()) return false;
        String list = String.join(
                ", ",
                moved.stream()
                        .map(c -> pair.leads().cavities().get(c) + " to " + c)
                        .toList());
        String what = moved.size() == 1
                ? "1 circuit sits in another cavity: " + list
                : moved.size() + " circuits sit in other cavities: " + list;
        if (pair.between()) {
            add(
                    Subject.CAVITY_MAP,
                    Severity.NOTE,
                    what,
                    "none while both halves are replaced",
                    "replace both halves",
                    Difference.JUDGEMENT);
            return false;
        }
        add(
                Subject.CAVITY_MAP,
                obstacle ? Severity.BLOCKS : Severity.TRANSFER,
                what,
                "plugged in as it is, these circuits meet the wrong pins: wrong codes, and what the slips below say",
                obstacle
                        ? "do not fit: the terminals cannot be moved"
                        : "move the terminals one at a time, see the sheet",
                Difference.PRACTICE);
        return !obstacle;
    }

    private void missing() {
        for (String c : pair.leads().missing()) {
            Lead lead = pair.old().leads().get(c);
            boolean unread = !pair.leads().unread().isEmpty();
            if (unread && pair.neu().leads().containsKey(c)) {
                findings.notKnown("what cavities carry", pair.where() + "/" + c, true);
                continue;
            }
            if (pair.neu().rowsKnown() || listed(c))
                add(
                        Subject.CIRCUIT,
                        Severity.BLOCKS,
                        "no wire for " + lead.words() + ", old cavity " + c,
                        "what it serves stays dead" + served(lead),
                        "ask for the harness that has it; adding a wire is a repair",
                        Difference.COMPARED);
            else findings.notKnown("what cavities carry", pair.where() + "/" + c, true);
        }
    }

    /** True when a list of cavities speaks of this one, or of some cavity that is empty, so that it means to be whole. */
    private boolean listed(String cavity) {
        return pair.neu().cavities().size() > pair.neu().leads().size()
                || pair.neu().leads().containsKey(cavity);
    }

    private void extra() {
        for (String c : pair.leads().extra()) {
            Lead lead = pair.neu().leads().get(c);
            add(
                    Subject.CIRCUIT,
                    Severity.CARE,
                    "one circuit more: " + lead.words() + " in new cavity " + c,
                    "it ends on a pin that the old build does not use, or on nothing; its far end may hang free",
                    "take the terminal out, insulate it, tie it back, plug the cavity; cap its far plug",
                    Difference.PRACTICE);
        }
    }

    private void changed() {
        for (String c : pair.leads().changed()) {
            Lead a = pair.old().leads().get(c);
            Lead b = pair.neu().leads().get(pair.leads().cavities().get(c));
            TreeSet<String> lost = new TreeSet<>(a.serves());
            lost.removeAll(b.serves());
            TreeSet<String> more = new TreeSet<>(b.serves());
            more.removeAll(a.serves());
            add(
                    Subject.CIRCUIT,
                    Severity.BLOCKS,
                    a.words() + ", cavity " + c + ": "
                            + (lost.isEmpty() ? "" : "no longer reaches " + String.join("; ", lost))
                            + (lost.isEmpty() || more.isEmpty() ? "" : "; ")
                            + (more.isEmpty() ? "" : "also reaches " + String.join("; ", more)),
                    "the circuits are joined otherwise inside the loom; moving terminals does not cure it",
                    "compare the two drawings; ask for the harness of this build year",
                    Difference.COMPARED);
        }
    }

    private static String served(Lead lead) {
        return lead.serves().isEmpty() ? "" : ": " + String.join("; ", new TreeSet<>(lead.serves()));
    }

    private void add(
            Subject subject, Severity severity, String what, String consequence, String action, String source) {
        findings.add(subject, severity, pair.where(), what, consequence, action, source);
    }
}
