package loomcase.predict;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.DoubleConsumer;
import java.util.stream.IntStream;
import loomcase.Once;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.OperatingPoint;
import loomcase.solve.NetworkSolver;

/**
 * The watches of one operating point: their probabilities from the table kept where there is one, else from solved
 * networks, which are made on first need.
 */
final class PointConditions {
    private final Circuit circuit;
    private final NetworkSolver solver;
    private final OperatingPoint op;
    private final Dictionary dictionary;
    private final int[] running;
    private final JointMemory joint;
    /** Ids of the phases that are solved, empty for all. */
    private final Optional<Set<String>> phases;

    private final Optional<PointTable> kept;
    private final Once<PointPlan> plan;

    PointConditions(Circuit circuit, NetworkSolver solver, OperatingPoint op, Dictionary dictionary) {
        this(
                circuit,
                solver,
                op,
                dictionary,
                Optional.empty(),
                new Once<>(() -> new PointPlan(circuit, solver, op)),
                dictionary
                        .get(op.id())
                        .flatMap(bytes -> PointTable.of(bytes, circuit.watches().size())));
    }

    private PointConditions(
            Circuit circuit,
            NetworkSolver solver,
            OperatingPoint op,
            Dictionary dictionary,
            Optional<Set<String>> phases,
            Once<PointPlan> plan,
            Optional<PointTable> kept) {
        this.plan = plan;
        this.phases = phases;
        this.circuit = circuit;
        this.solver = solver;
        this.op = op;
        this.dictionary = dictionary;
        this.running = IntStream.range(0, circuit.watches().size())
                .filter(w -> circuit.watches().get(w).operatingPoints().contains(op.id()))
                .toArray();
        this.joint = new JointMemory(
                dictionary,
                phases.map(some -> op.id() + " " + String.join(" ", some)).orElse(op.id()),
                this::healthy);
        this.kept = kept;
    }

    String id() {
        return op.id();
    }

    /** The same with only some phases solved: rows hold the watches that look at no others. */
    PointConditions narrowed(Set<String> some) {
        return new PointConditions(circuit, solver, op, dictionary, Optional.of(some), plan, kept);
    }

    /** Ids of the phases that have to be solved for some codes. */
    Set<String> phases(BitSet watches) {
        return PhaseChoice.of(circuit, op, watches);
    }

    /** Numbers of the watches that run here. */
    int[] running() {
        return running;
    }

    /** Probability of each watch's condition on a healthy engine, by watch number. */
    double[] healthy() {
        return kept.isPresent() ? kept.get().healthy() : plan().healthyConditions();
    }

    /** Solves what is not remembered. */
    PointTable table(List<List<Edit>> all, DoubleConsumer progress) {
        return joint.table(all, progress, this::sweep);
    }

    /** Solves and remembers nothing. */
    PointTable sweep(List<List<Edit>> all, DoubleConsumer progress) {
        return phases.map(some -> plan().table(all, some, progress)).orElseGet(() -> plan().table(all, progress));
    }

    /** Has the dictionary keep what was solved beside the single faults. */
    void keep() {
        joint.keep();
    }

    /** The table kept, when it is of these edits; otherwise solves and lets it be kept. */
    PointTable lookUp(List<List<Edit>> all, DoubleConsumer progress) {
        if (kept.isPresent() && kept.get().isOf(all)) return kept.get();
        PointTable solved = plan().table(all, progress);
        solved.bytes().ifPresent(bytes -> dictionary.put(op.id(), bytes));
        return solved;
    }

    /** The networks behind the table. */
    PointPlan plan() {
        return plan.get();
    }
}
