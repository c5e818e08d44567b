package loomcase.demo;

import java.nio.file.Path;
import java.util.List;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CircuitFacts;
import loomcase.predict.CodeTable;
import loomcase.predict.Predictor;
import loomcase.rank.Ranker;
import loomcase.solve.NetworkSolver;

/**
 * A circuit of {@code circuits/} with what tests keep asking of it; one of each, shared by all test classes.
 *
 * @param circuit the circuit
 * @param layout its branch tree
 * @param policy what the built-in rules conclude about it
 * @param hypotheses its single faults under the built-in priors
 * @param ranker a ranker of its own
 */
public record Harness(
        Circuit circuit, Layout layout, PolicyOutcome policy, List<Hypothesis> hypotheses, Ranker ranker) {
    /** Three sensors, a fan clutch, one plug. */
    public static final Harness TEACHING = read("teaching");

    /** The reference harness. */
    public static final Harness LARCH = read("larch-13");

    private static Harness read(String name) {
        Circuit circuit = CircuitReader.read(Path.of("circuits", name + ".json"));
        Layout layout = new Layout(circuit);
        PolicyOutcome policy = Policy.builtIn().decide(CircuitFacts.codes(circuit), CircuitFacts.places(circuit));
        List<Hypothesis> hypotheses = new FaultGenerator(circuit, layout, Priors.builtIn()).generate();
        return new Harness(circuit, layout, policy, hypotheses, new Ranker(circuit, Priors.builtIn(), policy));
    }

    /** A predictor with a solver of its own. */
    public Predictor predictor(List<Code> seen, double missed, List<String> operatingPoints) {
        CodeTable table = new CodeTable(circuit.watches(), policy, seen, missed);
        return new Predictor(circuit, new NetworkSolver(circuit, layout), table, operatingPoints);
    }

    /** A hypothesis by id. */
    public Hypothesis hypothesis(String id) {
        return hypotheses.stream()
                .filter(h -> h.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no hypothesis " + id));
    }

    /** Edits of a hypothesis that always does the same. */
    public List<Edit> edits(String id) {
        return ((Hypothesis.Fixed) hypothesis(id).cause()).edits();
    }

    @Override
    public String toString() {
        return circuit.id();
    }
}
