package loomcase.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.fit.Transfer.Step;

/** The words of a transfer sheet. The order of locks is common practice, no source; the engine maker's own comes first. */
final class TransferSteps {
    private static final String MAKER = "The engine maker's instruction for this terminal comes first.";

    private final PlugPair pair;
    private final boolean injectors;
    private final Transfer.Shell shell;
    private final List<Moves.Move> moves;
    private final List<String> setAside;
    private final List<String> toPlug;
    private final List<Step> steps = new ArrayList<>();

    TransferSteps(
            PlugPair pair,
            boolean injectors,
            Transfer.Shell shell,
            List<Moves.Move> moves,
            List<String> setAside,
            List<String> toPlug) {
        this.pair = pair;
        this.injectors = injectors;
        this.shell = shell;
        this.moves = moves;
        this.setAside = setAside;
        this.toPlug = toPlug;
    }

    List<Step> steps() {
        step(
                "Key off, battery isolated, plug apart.",
                injectors
                        ? "Injector circuits hold boosted voltage after key off: wait as the engine maker says."
                        : "");
        step("Photograph both mating faces and both wire sides, with the marks for cavity 1 in the picture.", "");
        step(
                "Lay the cavity map beside the plug. Say with it which side you look at.",
                "The wire side is the mirror image of the mating face.");
        boolean old = shell == Transfer.Shell.OLD;
        if (old)
            step(
                    "Empty the old shell of the old terminals, or take a new shell of the old kind. Look at its latch,"
                            + " seal and locks.",
                    "A shell with a broken latch, a cut seal or a worn lock is not used again.");
        locks("Open the secondary lock" + (old ? " of both shells." : "."));
        for (String c : setAside) aside(c);
        for (Moves.Move m : moves) move(m, old);
        for (String c : toPlug)
            step(
                    "Put a sealing plug into empty cavity " + c + ".",
                    c.equals(toPlug.get(0)) ? "An open cavity is a way for water." : "");
        locks("Close the secondary lock" + (old ? " of the old shell." : "."));
        step(
                "Make the continuity checks of this plug, wiggling each wire at the plug.",
                "Plugs stay apart and the battery isolated while ohms are measured; use a mating test lead, never push a"
                        + " probe into a cavity.");
        return steps;
    }

    private void locks(String work) {
        boolean known = pair.old().secondaryLock().isPresent()
                || pair.neu().secondaryLock().isPresent();
        boolean none = known
                && !pair.old().secondaryLock().orElse(false)
                && !pair.neu().secondaryLock().orElse(false);
        if (none) return;
        step(
                work + (known ? "" : " (Not known whether it has one.)"),
                work.startsWith("Open")
                        ? MAKER
                        : "A secondary lock that does not close shows a terminal that is not home: find it, do not force.");
    }

    private void aside(String cavity) {
        Lead lead = pair.neu().leads().get(cavity);
        steps.add(new Step(
                "take it out, insulate it and tie it back: the old plug has no circuit for it",
                Optional.of(cavity),
                Optional.empty(),
                lead.words(),
                ""));
    }

    private void move(Moves.Move m, boolean old) {
        Lead lead = pair.neu().leads().get(m.terminal());
        String work =
                switch (m.kind()) {
                    case PARK ->
                        m.to().equals(Moves.OUTSIDE)
                                ? "release the tang, take it out, tag it " + target(m)
                                        + " and sleeve it: no cavity is free," + " so it waits outside"
                                : "release the tang, park it in this empty cavity, tagged " + target(m);
                    case RETURN -> "take the parked terminal to its place; push until it clicks, tug";
                    case PLACE ->
                        "release the tang, move this one" + (old ? " into the old shell" : "")
                                + "; push until it clicks, tug";
                };
        steps.add(new Step(work, Optional.of(m.from()), Optional.of(m.to()), lead.words(), caution(m)));
    }

    /** The cavity where a parked terminal goes in the end. */
    private String target(Moves.Move parked) {
        return moves.stream()
                .filter(m -> m.kind() == Moves.Kind.RETURN && m.terminal().equals(parked.terminal()))
                .map(Moves.Move::to)
                .findFirst()
                .orElseThrow();
    }

    private String caution(Moves.Move m) {
        if (m.equals(moves.get(0)))
            return "One terminal at a time, so that no position is lost. Look at the tang before it goes in; bend a flat"
                    + " one up or replace the terminal.";
        return "";
    }

    private void step(String work, String caution) {
        steps.add(new Step(work, Optional.empty(), Optional.empty(), "", caution));
    }
}
