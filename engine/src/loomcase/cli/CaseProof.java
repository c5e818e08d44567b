package loomcase.cli;

import java.io.PrintWriter;
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

/** Proves a case: chain unbroken, every line as the schema says, every name in the circuit, odd readings confirmed. */
final class CaseProof {
    private final Path file;
    private final PrintWriter out;
    private final PrintWriter err;

    CaseProof(Path file, PrintWriter out, PrintWriter err) {
        this.file = file;
        this.out = out;
        this.err = err;
    }

    /** Prints what is wrong, or that nothing is, and gives the exit code. */
    int run(Optional<Digest> last) {
        List<String> broken = JournalFile.chainProblems(file);
        if (!broken.isEmpty()) return end(broken);
        Journal journal = JournalFile.read(file);
        journal.notices().forEach(n -> err.println("loomcase: " + n));
        List<String> problems = new ArrayList<>();
        last.flatMap(d -> cutOff(journal, d)).ifPresent(problems::add);
        Optional<String> changed = circuit(journal, problems);
        if (changed.isEmpty()) references(journal, problems);
        if (!problems.isEmpty()) return end(problems);
        long corrected = journal.standing().stream()
                .filter(s -> s.correctedBy().isPresent())
                .count();
        out.println(file + ": sound. " + journal.entries().size() + " lines, " + corrected + " corrected. Last digest "
                + journal.last() + ".");
        return Main.ANSWER;
    }

    private int end(List<String> problems) {
        for (String p : problems) out.println(file + ": " + p);
        out.println(file + ": " + (problems.size() == 1 ? "1 problem" : problems.size() + " problems"));
        return Main.NOT_SETTLED;
    }

    private static Optional<String> cutOff(Journal journal, Digest last) {
        boolean there = journal.entries().stream().map(Entry::digest).anyMatch(last::equals);
        return there
                ? Optional.empty()
                : Optional.of("no line has the digest " + last
                        + "; lines were removed from the end, or the case was written anew");
    }

    private Optional<String> circuit(Journal journal, List<String> problems) {
        try {
            Optional<String> changed = CaseInput.changed(file, journal);
            changed.ifPresent(c -> problems.add(c.substring((file + ": ").length())));
            return changed;
        } catch (InputProblem e) {
            problems.add("line 1: circuit: " + e.getMessage());
            return Optional.of(e.getMessage());
        }
    }

    private void references(Journal journal, List<String> problems) {
        EntryCheck check = new EntryCheck(CircuitReader.read(CaseInput.circuitFile(file, journal)));
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
