package loomcase.drill;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import javax.crypto.AEADBadTagException;
import loomcase.InputProblem;
import loomcase.journal.Digest;
import loomcase.model.read.Cursor;
import loomcase.model.read.Json;

/**
 * A drill on disk: one JSON object, what is wrong sealed in it (see {@link Vault} for what the seal is good for).
 *
 * @param file where it is
 * @param digest of its bytes
 * @param drill the public part
 * @param vault the sealed part
 */
public record DrillFile(Path file, Digest digest, Drill drill, Vault vault) {
    /** How a drill file's name ends. */
    public static final String ENDING = ".drill.json";

    /**
     * Writes a new drill file.
     *
     * @throws InputProblem when a file stands there already or cannot be written
     */
    public static void write(Path file, Drill drill, Truth truth, char[] passphrase) {
        write(file, drill, truth, passphrase, Vault.ITERATIONS);
    }

    static void write(Path file, Drill drill, Truth truth, char[] passphrase, int iterations) {
        if (!file.toString().endsWith(ENDING)) throw new InputProblem(file + ": a drill file ends in " + ENDING);
        Vault vault = Vault.seal(DrillJson.sealed(truth), bound(drill), passphrase, iterations);
        try {
            Files.writeString(file, DrillJson.whole(drill, vault), StandardOpenOption.CREATE_NEW);
        } catch (FileAlreadyExistsException e) {
            throw new InputProblem(file + ": exists already; a new drill needs a new file", e);
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": its folder does not exist", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be written: " + e.getMessage(), e);
        }
    }

    /**
     * Reads a drill file, its sealed part still closed.
     *
     * @throws InputProblem when it cannot be read or is no drill
     */
    public static DrillFile read(Path file) {
        Cursor c = Cursor.of(file, Json.read(file));
        try {
            Drill drill = DrillJson.open(c);
            Vault vault = DrillJson.vault(c.object("sealed"));
            c.done();
            return new DrillFile(file, Digest.ofFile(file), drill, vault);
        } catch (IllegalArgumentException e) {
            throw new InputProblem(file + ": " + e.getMessage(), e);
        }
    }

    private static byte[] bound(Drill drill) {
        return DrillJson.open(drill).getBytes(StandardCharsets.UTF_8);
    }

    /** Where the circuit file is; the drill names it from its own folder. */
    public Path circuit() {
        Path circuit = file.resolveSibling(drill.circuit().file());
        if (!Digest.ofFile(circuit).equals(drill.circuit().digest()))
            throw new InputProblem(file + ": circuit file " + circuit + " is not the one the drill was made for");
        return circuit;
    }

    /**
     * What is wrong, for the program to play with.
     *
     * @throws InputProblem when the file was changed
     */
    public Truth truth() {
        try {
            return DrillJson.truth(file, vault.open(bound(drill)));
        } catch (AEADBadTagException e) {
            throw changed(e);
        }
    }

    /**
     * What is wrong, for the instructor.
     *
     * @throws InputProblem when the passphrase is not the one, or the file was changed
     */
    public Truth truth(char[] passphrase) {
        if (!vault.isFor(passphrase)) throw new InputProblem(file + ": the passphrase does not open this drill");
        try {
            return DrillJson.truth(file, vault.open(bound(drill), passphrase));
        } catch (AEADBadTagException e) {
            throw changed(e);
        }
    }

    private InputProblem changed(AEADBadTagException e) {
        return new InputProblem(file + ": was changed after it was sealed; ask for it anew", e);
    }
}
