package loomcase.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;

/**
 * Whether the new plug goes onto what the old one was plugged into: mating face, keying, housing, seal, terminals.
 *
 * <p>A shell that does not mate is no obstacle by itself: the terminals may go into the old shell, as long as they are of the
 * same series, their seals suit it and the plug is not moulded.
 */
final class ShellRules {
    private final PlugPair pair;
    private final Plug old;
    private final Plug neu;
    private final Findings findings;
    private final List<String> obstacles = new ArrayList<>();
    private boolean otherShell;

    private ShellRules(PlugPair pair, Findings findings) {
        this.pair = pair;
        this.old = pair.old();
        this.neu = pair.neu();
        this.findings = findings;
    }

    /**
     * What follows for the terminals.
     *
     * @param otherShell the new shell does not mate, so they must go into the old one
     * @param obstacle why they cannot be moved, empty where they can
     */
    record Outcome(boolean otherShell, Optional<String> obstacle) {}

    static Outcome apply(PlugPair pair, Findings findings) {
        ShellRules r = new ShellRules(pair, findings);
        r.terminal();
        r.seal();
        if (!pair.ring()) r.shell();
        return new Outcome(r.otherShell, r.obstacles.stream().findFirst());
    }

    private void terminal() {
        if (!known("terminal", old.terminal(), neu.terminal(), true)
                || old.terminal().equals(neu.terminal())) return;
        TerminalKind a = TerminalKind.of(old.terminal());
        TerminalKind b = TerminalKind.of(neu.terminal());
        if (!a.series().equals(b.series())) {
            obstacles.add("its terminals are " + b.series() + ", not " + a.series());
            add(
                    Subject.TERMINAL,
                    blocks(),
                    "terminals are " + b.series() + ", the old ones " + a.series(),
                    "they do not mate with the part, and do not fit the old shell",
                    "ask for the harness with " + a.series()
                            + " terminals; crimping on others is a repair of every wire",
                    Difference.PRACTICE);
        } else if (!a.plating().equals(b.plating()))
            add(
                    Subject.TERMINAL,
                    Severity.CARE,
                    "plating is " + shown(b.plating()) + ", the old one " + shown(a.plating()),
                    "unlike platings on one contact fret and corrode; resistance rises with time",
                    "look at the pins of the mating part; if they are " + shown(a.plating())
                            + ", replace the terminals of this plug or ask for the other harness",
                    Difference.PRACTICE);
    }

    private void seal() {
        if (old.sealed().isPresent()
                && neu.sealed().isPresent()
                && !old.sealed().equals(neu.sealed())) {
            if (old.sealed().get()) {
                obstacles.add("it has no seals");
                add(
                        Subject.SEAL,
                        blocks(),
                        "the new plug is not sealed, the old one is",
                        "water gets in; green copper and bridged cavities follow",
                        "do not fit; ask for the sealed plug",
                        Difference.PRACTICE);
            } else
                add(
                        Subject.SEAL,
                        Severity.NOTE,
                        "the new plug is sealed, the old one was not",
                        "the seal may hold the plug off its seat",
                        "feel that the latch closes fully",
                        Difference.JUDGEMENT);
        }
        if (pair.ring() || !known("seal", old.seal(), neu.seal(), old.sealed().orElse(true))) return;
        if (old.seal().equals(neu.seal())) return;
        if (moulded(neu)) obstacles.add("it is moulded");
        else obstacles.add("its seals (" + neu.seal() + ") are not those of the old shell (" + old.seal() + ")");
        add(
                Subject.SEAL,
                old.sealed().orElse(true) ? Severity.CARE : Severity.NOTE,
                "seals are " + neu.seal() + ", the old ones " + old.seal(),
                "a terminal moved into the old shell would bring the wrong wire seal",
                "look that the face seal meets the part all round; do not move terminals between these shells",
                Difference.JUDGEMENT);
    }

    private static boolean moulded(Plug p) {
        return p.seal().contains("mould");
    }

    private void shell() {
        boolean faces = old.rowsKnown() && neu.rowsKnown();
        if (!faces) findings.notKnown("rows of the mating face", pair.where(), false);
        else if (!old.rows().equals(neu.rows()))
            mismatch(
                    Subject.MATING_FACE,
                    "the mating face has " + face(neu) + ", the old one " + face(old),
                    "it does not go onto the part, or cavities meet the wrong pins");
        if (known("keying", old.keying(), neu.keying(), true) && !old.keying().equals(neu.keying()))
            mismatch(
                    Subject.KEYING,
                    "keying is " + neu.keying() + ", the old one " + old.keying(),
                    "the plug does not go onto the part; forced, it breaks the key and bends pins");
        if (known("latch", old.latch(), neu.latch(), false) && !old.latch().equals(neu.latch()))
            mismatch(
                    Subject.HOUSING,
                    "the latch is " + neu.latch() + ", the old one " + old.latch(),
                    "it does not catch on the part; the plug works loose");
        if (known("housing colour", old.colour(), neu.colour(), false)
                && !old.colour().equals(neu.colour())) colour();
        if (old.secondaryLock().isPresent()
                && neu.secondaryLock().isPresent()
                && !old.secondaryLock().equals(neu.secondaryLock()))
            add(
                    Subject.HOUSING,
                    old.secondaryLock().get() ? Severity.CARE : Severity.NOTE,
                    neu.secondaryLock().get()
                            ? "the new shell has a secondary lock, the old one none"
                            : "the new shell has no secondary lock, the old one has",
                    neu.secondaryLock().get()
                            ? "it must be closed for the plug to go home"
                            : "terminals hold by their tangs alone and may back out",
                    neu.secondaryLock().get() ? "close it before plugging in" : "push, click and tug every terminal",
                    Difference.PRACTICE);
        if (otherShell && !pair.between()) verdict();
    }

    private void colour() {
        boolean keyed = !old.keying().isEmpty() && old.keying().equals(neu.keying());
        add(
                Subject.HOUSING,
                keyed ? Severity.NOTE : Severity.CARE,
                "the housing is " + neu.colour() + ", the old one " + old.colour(),
                keyed
                        ? "none by itself: the keying is the same"
                        : "colour often marks the keying: a plug of another colour may not mate",
                "hold the two plugs side by side before anything is taken apart",
                Difference.PRACTICE);
    }

    private void mismatch(Subject subject, String what, String consequence) {
        if (pair.between()) {
            add(
                    subject,
                    Severity.NOTE,
                    what,
                    "none while both halves are replaced: they come with the harness and mate with each other",
                    "replace both halves; a new half does not go onto an old one",
                    Difference.JUDGEMENT);
            return;
        }
        otherShell = true;
        add(
                subject,
                obstacles.isEmpty() ? Severity.TRANSFER : Severity.BLOCKS,
                what,
                consequence,
                obstacles.isEmpty()
                        ? "move the new terminals into the old shell, see the transfer sheet; never force the plug"
                        : "do not fit; never force the plug: ask for the harness of this build year",
                Difference.PRACTICE);
    }

    private void verdict() {
        if (obstacles.isEmpty()) return;
        add(
                Subject.PLUG,
                Severity.BLOCKS,
                "the terminals cannot go into the old shell: " + String.join("; ", obstacles),
                "the plug stays unplugged",
                "ask for the harness of this build year, or for a pigtail of the old plug for every wire (a repair)",
                Difference.JUDGEMENT);
    }

    private Severity blocks() {
        return pair.between() ? Severity.NOTE : Severity.BLOCKS;
    }

    private static String shown(String plating) {
        return plating.isEmpty() ? "not stated" : plating;
    }

    private static String face(Plug p) {
        return p.cavities().size() + " cavities in " + p.rows().size()
                + (p.rows().size() == 1 ? " row" : " rows");
    }

    private boolean known(String what, String a, String b, boolean matters) {
        if (!a.isEmpty() && !b.isEmpty()) return true;
        findings.notKnown(what, pair.where(), matters && !pair.between());
        return false;
    }

    private void add(
            Subject subject, Severity severity, String what, String consequence, String action, String source) {
        findings.add(subject, severity, pair.where(), what, consequence, action, source);
    }
}
