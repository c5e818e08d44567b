package loomcase.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.InputProblem;
import loomcase.faults.Priors;
import loomcase.meter.Harm;
import loomcase.model.Circuit;
import loomcase.model.read.CircuitReader;
import loomcase.policy.HarmFact;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
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

    /** True when a circuit file was named. */
    boolean given() {
        return circuit != null;
    }

    /**
     * @throws loomcase.InputProblem when no circuit file was named
     */
    Circuit circuit() {
        if (circuit == null) throw new InputProblem("name the circuit: --circuit FILE");
        return CircuitReader.read(circuit);
    }

    Priors priors() {
        return priors == null ? Priors.builtIn() : Priors.builtIn().with(priors);
    }

    PolicyOutcome policy(Circuit circuit) {
        return policy(circuit, Optional.ofNullable(rules));
    }

    /** What the rules, the shop's own included, conclude for a circuit. */
    static PolicyOutcome policy(Circuit circuit, Optional<Path> rules) {
        Policy policy = rules.map(CircuitInput::shop).orElseGet(Policy::builtIn);
        return policy.decide(
                CircuitFacts.codes(circuit),
                CircuitFacts.places(circuit),
                Arrays.stream(Harm.values()).map(h -> new HarmFact(h.key())).toList());
    }

    private static Policy shop(Path folder) {
        if (!Files.isDirectory(folder)) throw new InputProblem(folder + ": is not a folder of rules");
        return Policy.withShopRules(folder);
    }

    /** Harms for which the rules let no test be proposed. */
    static Set<Harm> forbidden(PolicyOutcome policy) {
        return Arrays.stream(Harm.values())
                .filter(h -> policy.forbiddenHarms().contains(h.key()))
                .collect(Collectors.toSet());
    }

    /** Cautions by place id. */
    static List<String> cautions(PolicyOutcome policy, List<String> placeIds) {
        return policy.cautions().stream()
                .filter(c -> placeIds.contains(c.placeId()))
                .map(loomcase.policy.Caution::text)
                .distinct()
                .toList();
    }
}
