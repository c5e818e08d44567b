package loomcase.casework;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.intake.CaseIntake;
import loomcase.journal.Admission;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.EntryCheck;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;
import loomcase.model.Circuit;
import loomcase.policy.ClaimFacts;
import loomcase.policy.ClaimOutcome;

/**
 * A case as it stood when it was opened, with its circuit. Lines added later are seen by opening it again.
 *
 * @param file the case file
 * @param journal what it held
 * @param bench the circuit that its opening names
 */
public record OpenCase(Path file, Journal journal, Bench bench) {

    /** The circuit that the case is about. */
    public Circuit circuit() {
        return bench.circuit();
    }

    /** What may be recorded about this circuit. */
    public EntryCheck check() {
        return new EntryCheck(circuit());
    }

    /** True when codes were read, so that there is something to rank. */
    public boolean hasCodes() {
        return journal.standing().stream().anyMatch(s -> s.fact() instanceof Fact.Codes);
    }

    /**
     * Suspects and tests for what the case says; kept, so that asking again is free.
     *
     * @throws InputProblem when the case has no codes yet
     */
    public Answer answer() {
        return bench.answer(journal.last(), () -> CaseIntake.of(circuit(), journal));
    }

    /**
     * The case as it was before a line was written; the verdict of that moment is made from it.
     *
     * @param line number of that line, 2 or more
     */
    public OpenCase before(int line) {
        return new OpenCase(file, new Journal(journal.entries().subList(0, line - 1), List.of()), bench);
    }

    /** What the claim rules in force say of a claim made from this case. */
    public ClaimOutcome claim(ClaimFacts facts) {
        return bench.rules().claim(facts);
    }

    /** What came of recording. */
    public sealed interface Recorded {}

    /**
     * The line was added.
     *
     * @param added the line and what a person should know about the file
     */
    public record Added(JournalFile.Added added) implements Recorded {}

    /**
     * Nothing was added: the fact is odd and nobody confirmed it.
     *
     * @param reason what is odd
     */
    public record NeedsConfirmation(String reason) implements Recorded {}

    /**
     * Adds a line to the case file.
     *
     * @param fact what was seen or done
     * @param stamp who says it, and when
     * @param confirmed whether an odd fact is to be recorded with its oddity
     * @param last digest of the line behind which alone it may stand; empty to add it behind whatever others added
     * @throws InputProblem when the fact cannot be true of the circuit or the file cannot be written; nothing was added
     * @throws JournalFile.Overtaken when another line is the last by now; nothing was added
     */
    public Recorded record(Fact fact, Entry.Stamp stamp, boolean confirmed, Optional<Digest> last) {
        Admission admission = check().admit(fact);
        if (admission instanceof Admission.Refused r) throw new InputProblem("not recorded: " + r.reason());
        if (admission instanceof Admission.NeedsConfirmation n && !confirmed) return new NeedsConfirmation(n.reason());
        Entry.Stamp whole = check().confirming(fact, stamp);
        return new Added(
                last.isPresent()
                        ? JournalFile.appendAfter(last.get(), file, fact, whole)
                        : JournalFile.append(file, fact, whole));
    }
}
