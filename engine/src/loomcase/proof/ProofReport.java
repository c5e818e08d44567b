package loomcase.proof;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.Standing;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.rank.Ranking;

/**
 * A proof with what a reader needs beside it.
 *
 * @param circuit the circuit of the case
 * @param opened how the case was opened
 * @param standing lines of the case as they hold
 * @param proof the proof
 * @param after suspects for codes seen after the work; empty when there are none
 */
public record ProofReport(
        Circuit circuit, Fact.Opened opened, List<Standing> standing, Proof proof, Optional<AfterWork> after) {
    public ProofReport {
        standing = List.copyOf(standing);
    }

    /**
     * Makes the proof of a case; ranks only when codes were seen after the work.
     *
     * @param ranking the ranking of the case as it stands: its evidence must be the codes read last and the tests since the
     *     last work
     * @throws loomcase.InputProblem when the case records no work
     */
    public static ProofReport of(Circuit circuit, Layout layout, Journal journal, Supplier<Ranking> ranking) {
        Proof proof = ProofMaker.of(circuit, layout, journal);
        boolean codes = proof.checks().stream()
                .anyMatch(c -> c.kind() == Proof.Kind.CODES && c.state() == Proof.State.CONTRADICTED);
        return new ProofReport(
                circuit,
                journal.opened(),
                journal.standing(),
                proof,
                codes ? Optional.of(AfterWork.of(ranking.get())) : Optional.empty());
    }

    /** The answer in one sentence. */
    public String answer() {
        int missing = proof.in(Proof.State.MISSING).size();
        int against = proof.in(Proof.State.CONTRADICTED).size();
        int all = proof.checks().size();
        return switch (proof.status()) {
            case PROVEN -> "PROVEN: all " + all + " checks were done and passed.";
            case NOT_PROVEN ->
                "NOT PROVEN: " + missing + " of " + all + " checks " + (missing == 1 ? "is" : "are") + " missing.";
            case DISPROVEN ->
                "DISPROVEN: " + against + " of " + all + " checks " + (against == 1 ? "contradicts" : "contradict")
                        + (missing == 0 ? "." : "; " + missing + " more missing.");
        };
    }
}
