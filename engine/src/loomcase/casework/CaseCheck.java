package loomcase.casework;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.journal.Admission;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.EntryCheck;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;
import loomcase.journal.Standing;
import loomcase.model.read.CircuitReader;

/**
 * Proof of a case: chain unbroken, every line as the schema says, every name in the circuit, odd readings confirmed.
 *
 * @param problems what is wrong, one sentence a line; none for a sound case
 * @param journal the case as read, empty when its chain is broken
 */
public record CaseCheck(List<String> problems, Optional<Journal> journal) {
    public CaseCheck {
        problems = List.copyOf(problems);
    }

    /**
     * Checks a case file.
     *
     * @param last a digest of the case that was kept elsewhere, to show that no line before it was cut off
     * @throws InputProblem when the file cannot be read or a line is not as the schema says
     */
    public static CaseCheck of(Path file, Optional<Digest> last) {
        List<String> broken = JournalFile.chainProblems(file);
        if (!broken.isEmpty()) return new CaseCheck(broken, Optional.empty());
        Journal journal = JournalFile.read(file);
        List<String> problems = new ArrayList<>();
        last.flatMap(d -> cutOff(journal, d)).ifPresent(problems::add);
        if (circuitStands(file, journal, problems)) references(file, journal, problems);
        return new CaseCheck(problems, Optional.of(journal));
    }

    private static Optional<String> cutOff(Journal journal, Digest last) {
        boolean there = journal.entries().stream().map(Entry::digest).anyMatch(last::equals);
        return there
                ? Optional.empty()
                : Optional.of("no line has the digest " + last
                        + "; lines were removed from the end, or the case was written anew");
    }

    private static boolean circuitStands(Path file, Journal journal, List<String> problems) {
        try {
            Optional<String> changed = CaseFile.changedCircuit(file, journal);
            changed.ifPresent(c -> problems.add(c.substring((file + ": ").length())));
            return changed.isEmpty();
        } catch (InputProblem e) {
            problems.add("line 1: circuit: " + e.getMessage());
            return false;
        }
    }

    private static void references(Path file, Journal journal, List<String> problems) {
        EntryCheck check = new EntryCheck(CircuitReader.read(CaseFile.circuitOf(file, journal)));
        for (Standing s : journal.standing()) {
            Entry.Stamp stamp = s.correctedBy().isEmpty()
                    ? s.stamp()
                    : journal.entries().get(s.correctedBy().getAsInt() - 1).stamp();
            String line = "line " + s.correctedBy().orElse(s.n()) + ": ";
            Admission admission = check.admit(s.fact());
            if (admission instanceof Admission.Refused r) problems.add(line + r.reason());
            if (admission instanceof Admission.NeedsConfirmation n
                    && stamp.confirmed().isEmpty()) problems.add(line + n.reason() + "; nobody confirmed it");
        }
    }
}
