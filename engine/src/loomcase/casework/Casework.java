package loomcase.casework;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import loomcase.InputProblem;
import loomcase.Once;
import loomcase.faults.Priors;
import loomcase.journal.Digest;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.predict.Dictionary;

/**
 * Entry of this stage: opens circuits and cases, and keeps what was solved about them.
 *
 * <pre>{@code
 * Casework casework = new Casework(Shop.BUILT_IN);
 * OpenCase c = casework.open(Path.of("case.jsonl"));
 * Answer answer = c.answer();
 * answer.ranking();                        // solves, or reuses what was solved for the same circuit
 * answer.next();                           // plans
 * OpenCase later = casework.open(c.file()); // sees lines added meanwhile; only they are weighed anew
 * }</pre>
 *
 * <p>Nothing is done before it is asked for: rules, base rates, networks, ranking and plan are each made on first use.
 * Circuits are kept by the digest of their file, at most {@value #MOST_CIRCUITS}, the one used longest ago dropped first; a
 * file that changed is read anew. The shop's rules and base rates are read once. May be shared between threads.
 */
public final class Casework {
    private static final int MOST_CIRCUITS = 4;

    private final Shop shop;
    private final Once<Policy> rules;
    private final Once<Priors> priors;
    private final Function<Digest, Dictionary> solved;
    private final Function<Path, Circuit> reader;
    private final Map<Digest, Bench> benches = new LinkedHashMap<>(16, 0.75f, true);

    public Casework(Shop shop) {
        this(shop, circuit -> Dictionary.NONE);
    }

    /** @param solved what was solved before of the circuit whose file has a digest */
    public Casework(Shop shop, Function<Digest, Dictionary> solved) {
        this(shop, solved, CircuitReader::read);
    }

    /** @param reader reads a circuit file as {@link CircuitReader#read} does */
    public Casework(Shop shop, Function<Digest, Dictionary> solved, Function<Path, Circuit> reader) {
        this.reader = reader;
        this.shop = shop;
        this.solved = solved;
        this.rules = new Once<>(shop::loadRules);
        this.priors = new Once<>(shop::loadPriors);
    }

    /**
     * A circuit with everything that is solved about it.
     *
     * @throws InputProblem when the file cannot be read or is no circuit
     */
    public Bench circuit(Path file) {
        if (Files.isDirectory(file)) throw new InputProblem(file + ": is a folder, not a JSON file");
        Digest digest = Digest.ofFile(file);
        synchronized (benches) {
            Bench known = benches.get(digest);
            if (known != null) return known;
        }
        Bench read = new Bench(reader.apply(file), digest, shop, rules, priors, solved.apply(digest));
        synchronized (benches) {
            Bench other = benches.putIfAbsent(digest, read);
            if (benches.size() > MOST_CIRCUITS)
                benches.remove(benches.keySet().iterator().next());
            return other == null ? read : other;
        }
    }

    /**
     * A case as its file stands now, with its circuit.
     *
     * @throws InputProblem when either cannot be read, or the circuit file is not the one the case was opened with
     */
    public OpenCase open(Path file) {
        Journal journal = JournalFile.read(file);
        CaseFile.changedCircuit(file, journal).ifPresent(c -> {
            throw new InputProblem(c);
        });
        return new OpenCase(file, journal, circuit(CaseFile.circuitOf(file, journal)));
    }

    /**
     * A case with another circuit file, or its own as that is now, whatever the opening says of it: for correcting the
     * opening.
     *
     * @throws InputProblem when either file cannot be read
     */
    public OpenCase openWith(Path file, Optional<Path> circuit) {
        Journal journal = JournalFile.read(file);
        return new OpenCase(file, journal, circuit(circuit.orElseGet(() -> CaseFile.circuitOf(file, journal))));
    }
}
