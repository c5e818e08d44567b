package loomcase.proof;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.journal.Journal;
import loomcase.journal.Standing;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.proof.Proof.Check;

/** Entry of this stage: lists the checks and sees which of them the case answers. */
public final class ProofMaker {
    private ProofMaker() {}

    /**
     * The proof of a case as it stands.
     *
     * @throws InputProblem when the case records no work yet: there is nothing to prove
     */
    public static Proof of(Circuit circuit, Layout layout, Journal journal) {
        return find(circuit, layout, journal)
                .orElseThrow(
                        () -> new InputProblem(
                                "the case records no work yet, so there is nothing to prove; add it with: record CASE work repaired PLACE"));
    }

    /** The same; empty when the case records no work at a place. */
    public static Optional<Proof> find(Circuit circuit, Layout layout, Journal journal) {
        CaseLines lines = CaseLines.of(journal.standing());
        if (lines.work().isEmpty()) return Optional.empty();
        Touched touched = new Touched(circuit, layout, lines);
        SightChecks sight = new SightChecks(circuit, lines);
        List<String> notes = new ArrayList<>();
        List<Check> checks = new ArrayList<>(new MeterChecks(circuit, layout, touched, lines.after()).list(notes));
        checks.addAll(sight.list(touched.plugs()));
        checks.addAll(sight.closing());
        checks.addAll(new RunChecks(circuit, lines, touched).list(notes));
        return Optional.of(Proof.of(lines.work().stream().map(Standing::n).toList(), checks, notes));
    }
}
