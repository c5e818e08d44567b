package loomcase.casework;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.Once;
import loomcase.faults.Priors;
import loomcase.meter.Harm;
import loomcase.model.Circuit;
import loomcase.policy.HarmFact;
import loomcase.policy.KeptOutcome;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
import loomcase.predict.Dictionary;

/**
 * What a shop lays over the built-in rules and base rates.
 *
 * @param rules folder of the shop's own rules, empty for none
 * @param priors file of the shop's own base rates (CSV), empty for none
 */
public record Shop(Optional<Path> rules, Optional<Path> priors) {
    /** No operating point has a blank in its name. */
    private static final String KEPT = "outcome of rules";

    /** Nothing laid over. */
    public static final Shop BUILT_IN = new Shop(Optional.empty(), Optional.empty());

    /**
     * The rules in force. Loading costs far more than asking, so keep what it returns.
     *
     * @throws InputProblem when the folder cannot be used
     */
    public Policy loadRules() {
        rules.filter(folder -> !Files.isDirectory(folder)).ifPresent(folder -> {
            throw new InputProblem(folder + ": is not a folder of rules");
        });
        return rules.map(Policy::withShopRules).orElseGet(Policy::builtIn);
    }

    /**
     * The base rates in force.
     *
     * @throws InputProblem when the file cannot be used
     */
    public Priors loadPriors() {
        return priors.map(Priors.builtIn()::with).orElseGet(Priors::builtIn);
    }

    /**
     * What rules conclude for a circuit: masks, readings of codes, cautions for every place, rulings on tests.
     *
     * <p>Where the shop has no rules of its own the outcome follows from circuit and program alone, so it is kept, and the
     * rules are loaded only when it is not.
     *
     * @param kept what is kept of the circuit
     */
    PolicyOutcome decide(Once<Policy> policy, Circuit circuit, Dictionary kept) {
        if (rules.isPresent()) return decide(policy.get(), circuit);
        return kept.get(KEPT).flatMap(KeptOutcome::of).orElseGet(() -> {
            PolicyOutcome outcome = decide(policy.get(), circuit);
            kept.put(KEPT, KeptOutcome.bytes(outcome));
            return outcome;
        });
    }

    private static PolicyOutcome decide(Policy rules, Circuit circuit) {
        return rules.decide(
                CircuitFacts.codes(circuit),
                CircuitFacts.places(circuit),
                Arrays.stream(Harm.values()).map(h -> new HarmFact(h.key())).toList());
    }
}
