package loomcase.check;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleConsumer;
import loomcase.model.Circuit;
import loomcase.policy.PolicyOutcome;

/**
 * Entry of this stage: proves that a circuit can be trusted before a case rests on it.
 *
 * <p>Each failure is a sentence that names the place, what is wrong and the remedy. The behaviour of a circuit whose
 * wiring is not complete says nothing, so it is looked at only when the wiring is proved.
 */
public final class CircuitCheck {
    private CircuitCheck() {}

    /**
     * Runs every proof.
     *
     * @param policy what the rules conclude for the circuit
     * @param progress told the share done, 0 to 1
     * @return failures, empty when the circuit is proved
     */
    public static List<String> problems(Circuit circuit, PolicyOutcome policy, DoubleConsumer progress) {
        List<String> problems = new ArrayList<>(new WiringProof(circuit).problems());
        if (problems.isEmpty()) problems.addAll(new BehaviourProof(circuit, policy).problems(progress));
        return List.copyOf(problems);
    }
}
