package loomcase.casework;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;

/** How a case file and its circuit file name each other. */
public final class CaseFile {
    /** How a case file's name ends. */
    public static final String ENDING = ".jsonl";

    private CaseFile() {}

    /** Where the circuit file is; the case names it from its own folder. */
    public static Path circuitOf(Path file, Journal journal) {
        return file.resolveSibling(journal.opened().circuit().file());
    }

    /**
     * The complaint when the circuit file is no longer what the opening says.
     *
     * @throws InputProblem when the circuit file is not there or cannot be read
     */
    public static Optional<String> changedCircuit(Path file, Journal journal) {
        Path circuit = circuitOf(file, journal);
        if (!Files.exists(circuit))
            throw new InputProblem(
                    file + ": circuit file " + circuit + ", which its opening names, is not there; put it"
                            + " back, or say where it is now with: loomcase record " + file
                            + " correct 1 opened --circuit CIRCUIT");
        if (Digest.ofFile(circuit).equals(journal.opened().circuit().digest())) return Optional.empty();
        return Optional.of(file + ": circuit file " + circuit
                + " changed since the case was opened; if that is meant, run: loomcase record " + file
                + " correct 1 opened --circuit " + circuit);
    }

    /** A circuit file as the opening of a case names it. */
    public static Fact.CircuitFile name(Path caseFile, Path circuitFile) {
        Circuit circuit = CircuitReader.read(circuitFile);
        return new Fact.CircuitFile(fromFolderOf(caseFile, circuitFile), circuit.id(), Digest.ofFile(circuitFile));
    }

    /** A path from the folder of the case file, where there is one. */
    public static String fromFolderOf(Path caseFile, Path other) {
        Path folder = caseFile.toAbsolutePath().normalize().getParent();
        Path whole = other.toAbsolutePath().normalize();
        boolean sameRoot = folder.getRoot().equals(whole.getRoot());
        return (sameRoot ? folder.relativize(whole) : whole).toString().replace('\\', '/');
    }
}
