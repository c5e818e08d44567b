package loomcase.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Function;
import loomcase.InputProblem;
import loomcase.cache.CacheFolder;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.journal.Digest;
import loomcase.predict.Dictionary;
import picocli.CommandLine;

/** Options that every command about a circuit shares. */
final class CircuitInput {
    @CommandLine.Option(names = "--circuit", paramLabel = "FILE", description = "circuit file")
    private Path circuit;

    @CommandLine.Option(
            names = "--rules",
            paramLabel = "FOLDER",
            description = "the shop's own rules, laid over the built-in ones")
    private Path rules;

    @CommandLine.Option(
            names = "--priors",
            paramLabel = "FILE",
            description = "the shop's own base rates (CSV), laid over the built-in ones")
    private Path priors;

    @CommandLine.Option(
            names = "--no-cache",
            description = "solve everything anew and keep nothing for the next run; the answer is the same")
    private boolean noCache;

    private final HeadStart headStart;

    CircuitInput() {
        this(HeadStart.NONE);
    }

    /** @param headStart may have read the circuit already */
    CircuitInput(HeadStart headStart) {
        this.headStart = headStart;
    }

    /** True when a circuit file was named. */
    boolean given() {
        return circuit != null;
    }

    /**
     * For a command that was given a case.
     *
     * @throws InputProblem when a circuit file was named too
     */
    void refuseCircuit() {
        if (given()) throw new InputProblem("a case brings its own circuit; leave out --circuit");
    }

    /** The circuit file, when one was named. */
    Optional<Path> file() {
        return Optional.ofNullable(circuit);
    }

    /** Casework under the shop's rules and base rates. */
    Casework casework() {
        Shop shop = new Shop(Optional.ofNullable(rules), Optional.ofNullable(priors));
        Optional<CacheFolder> cache = noCache ? Optional.empty() : CacheFolder.ofThisRun();
        return new Casework(
                shop,
                cache.<Function<Digest, Dictionary>>map(c -> c::of).orElse(digest -> Dictionary.NONE),
                headStart::circuit);
    }

    /**
     * The circuit named.
     *
     * @throws InputProblem when no circuit file was named
     */
    Bench circuit(Casework casework) {
        if (circuit == null) throw new InputProblem("name the circuit: --circuit FILE");
        return casework.circuit(circuit);
    }
}
