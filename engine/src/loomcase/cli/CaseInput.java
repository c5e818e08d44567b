package loomcase.cli;

import java.nio.file.Path;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.journal.Digest;
import loomcase.journal.EntryCheck;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;

/**
 * A case and the circuit it is about.
 *
 * @param file the case file
 * @param journal what it holds
 * @param circuit the circuit that its opening names
 */
record CaseInput(Path file, Journal journal, Circuit circuit) {
    /** How a case file's name ends. */
    static final String ENDING = ".jsonl";

    /**
     * Reads a case and its circuit.
     *
     * @throws InputProblem when either cannot be read, or the circuit file is not the one the case was opened with
     */
    static CaseInput read(Path file) {
        Journal journal = JournalFile.read(file);
        changed(file, journal).ifPresent(c -> {
            throw new InputProblem(c);
        });
        return new CaseInput(file, journal, CircuitReader.read(circuitFile(file, journal)));
    }

    /** The complaint when the circuit file is no longer what the opening says. */
    static Optional<String> changed(Path file, Journal journal) {
        Path circuit = circuitFile(file, journal);
        if (Digest.ofFile(circuit).equals(journal.opened().circuit().digest())) return Optional.empty();
        return Optional.of(file + ": circuit file " + circuit
                + " changed since the case was opened; if that is meant, run: loomcase record " + file
                + " correct 1 opened --circuit " + circuit);
    }

    /** Where the circuit file is; the case names it from its own folder. */
    static Path circuitFile(Path file, Journal journal) {
        return file.resolveSibling(journal.opened().circuit().file());
    }

    /** A circuit file as the opening of a case names it. */
    static Fact.CircuitFile name(Path caseFile, Path circuitFile) {
        Circuit circuit = CircuitReader.read(circuitFile);
        return new Fact.CircuitFile(fromFolderOf(caseFile, circuitFile), circuit.id(), Digest.ofFile(circuitFile));
    }

    /** A path from the folder of the case file, where there is one. */
    static String fromFolderOf(Path caseFile, Path other) {
        Path folder = caseFile.toAbsolutePath().normalize().getParent();
        Path whole = other.toAbsolutePath().normalize();
        boolean sameRoot = folder.getRoot().equals(whole.getRoot());
        return (sameRoot ? folder.relativize(whole) : whole).toString().replace('\\', '/');
    }

    EntryCheck check() {
        return new EntryCheck(circuit);
    }
}
