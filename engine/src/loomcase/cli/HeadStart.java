package loomcase.cli;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;

/**
 * The circuit that the command line names, read on another core while the options are made out.
 *
 * <p>What goes wrong is not told here: whoever needs the circuit reads it again and says so.
 */
final class HeadStart {
    /** Nothing is read ahead. */
    static final HeadStart NONE =
            new HeadStart(Optional.empty(), CompletableFuture.failedFuture(new IllegalStateException()));

    private static final String OPTION = "--circuit";

    private final Optional<Path> file;
    private final CompletableFuture<Circuit> circuit;

    private HeadStart(Optional<Path> file, CompletableFuture<Circuit> circuit) {
        this.file = file;
        this.circuit = circuit;
    }

    /** Begins to read the circuit that the arguments name, if they do. */
    static HeadStart of(String... arguments) {
        for (int i = 1; i < arguments.length; i++) {
            if (arguments[i - 1].equals(OPTION)) return of(arguments[i]);
            if (arguments[i].startsWith(OPTION + "=")) return of(arguments[i].substring(OPTION.length() + 1));
        }
        return NONE;
    }

    private static HeadStart of(String name) {
        try {
            Path file = Path.of(name);
            return new HeadStart(Optional.of(file), CompletableFuture.supplyAsync(() -> CircuitReader.read(file)));
        } catch (InvalidPathException e) {
            return NONE;
        }
    }

    /**
     * A circuit file's circuit.
     *
     * @throws loomcase.InputProblem when the file cannot be read or is no circuit
     */
    Circuit circuit(Path wanted) {
        if (file.isEmpty() || !file.get().equals(wanted)) return CircuitReader.read(wanted);
        try {
            return circuit.join();
        } catch (CompletionException e) {
            return CircuitReader.read(wanted);
        }
    }
}
