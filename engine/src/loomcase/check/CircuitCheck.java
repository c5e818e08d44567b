package loomcase.check;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.DoubleConsumer;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Connector;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.Names;
import loomcase.model.Watch;
import loomcase.model.Wire;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;

/**
 * Proves that a circuit can be trusted before a case rests on it.
 *
 * <p>Proofs: every pin and device terminal carries a wire and every wire ends on something; every splice joins at least
 * two wires; every watch measures a wired pin; the healthy network shows no code at any operating point; every code is
 * shown by some single fault. Each failure is a sentence that names the place, what is wrong and the remedy. That names
 * resolve and branches form a tree is already proved when the file is read.
 */
public final class CircuitCheck {
    /** Largest probability of a code that a healthy engine may have. */
    public static final double HEALTHY_LIMIT = 1e-3;

    /** Probability from which a code counts as reached by a fault. */
    public static final double REACHED = 0.3;

    private final Circuit circuit;
    private final List<String> problems = new ArrayList<>();

    private CircuitCheck(Circuit circuit) {
        this.circuit = circuit;
    }

    /**
     * Runs every proof.
     *
     * @param policy what the rules conclude for the circuit
     * @param progress told the share done, 0 to 1
     * @return failures, empty when the circuit is proved
     */
    public static List<String> problems(Circuit circuit, PolicyOutcome policy, DoubleConsumer progress) {
        CircuitCheck check = new CircuitCheck(circuit);
        check.wiring();
        if (check.problems.isEmpty()) check.behaviour(policy, progress);
        return List.copyOf(check.problems);
    }

    private void require(boolean holds, String sentence) {
        if (!holds) problems.add(sentence);
    }

    private void wiring() {
        Set<String> ends = new HashSet<>();
        for (Wire w : circuit.wires().values()) {
            ends.add(w.from());
            ends.add(w.to());
        }
        Set<String> mated = new HashSet<>(circuit.controlUnit().pins().keySet());
        for (Device d : circuit.devices().values()) {
            mated.addAll(d.terminals().values());
            d.terminals()
                    .forEach((role, cavity) -> require(
                            ends.contains(cavity),
                            "device " + d.id() + ": terminal " + role + " at " + cavity
                                    + " is reached by no wire; add the wire or drop the terminal"));
        }
        for (String pin : circuit.controlUnit().pins().keySet())
            require(
                    ends.contains(pin),
                    "control-unit pin " + pin + ": is reached by no wire; add the wire or drop the pin");
        for (Wire w : circuit.wires().values())
            for (String end : List.of(w.from(), w.to())) {
                Connector c = circuit.connectors().get(Names.connectorOf(end));
                if (c == null) continue;
                String partner = c.mates() + "/" + Names.cavityOf(end);
                boolean inline = circuit.connectors().containsKey(c.mates());
                require(
                        mated.contains(end) || inline && ends.contains(partner),
                        "wire " + w.id() + ": ends at " + end + ", where nothing is on the other side; "
                                + (inline ? "add a wire at " + partner : "give " + c.mates() + " a function there"));
            }
        for (String splice : circuit.splices().keySet()) {
            long legs = circuit.wires().values().stream()
                    .filter(w -> w.from().equals(splice) || w.to().equals(splice))
                    .count();
            require(legs >= 2, "splice " + splice + ": joins " + legs + " wire; a splice needs two or more");
        }
    }

    private void behaviour(PolicyOutcome policy, DoubleConsumer progress) {
        Layout layout = new Layout(circuit);
        NetworkSolver solver = new NetworkSolver(circuit, layout);
        CodeTable table = new CodeTable(circuit.watches(), policy, List.of(), 0);
        List<Predictor> points = new ArrayList<>();
        for (String op : circuit.operatingPoints().keySet())
            points.add(new Predictor(circuit, solver, table, List.of(op)));
        for (Predictor p : points) healthy(p);
        if (problems.isEmpty()) reach(layout, points, progress);
    }

    private void healthy(Predictor p) {
        double[] healthy = p.healthy();
        for (int c = 0; c < healthy.length; c++) {
            if (healthy[c] <= HEALTHY_LIMIT) continue;
            for (Predictor.Reading r : p.readings(List.of(), c))
                problems.add(healthySentence(p.table().codes().get(c), r));
        }
    }

    private static String healthySentence(Code code, Predictor.Reading r) {
        Watch.Limit limit = r.watch().limit();
        return String.format(
                java.util.Locale.ROOT,
                "watch %s (shown as %s): a healthy engine measures %.4g at %s, too near the limit %s %.4g (spread %.3g);"
                        + " move the limit or the device's healthy value",
                r.watch().code(),
                code,
                r.value(),
                r.operatingPoint(),
                limit.above() ? "above" : "below",
                limit.value(),
                limit.spread());
    }

    private void reach(Layout layout, List<Predictor> points, DoubleConsumer progress) {
        List<Hypothesis> all = new FaultGenerator(circuit, layout, Priors.builtIn()).generate();
        CodeTable table = points.get(0).table();
        boolean[] reached = new boolean[table.codes().size()];
        int done = 0;
        for (Hypothesis h : all) {
            if (h.cause() instanceof Hypothesis.Fixed f) mark(points, f.edits(), reached);
            else if (h.cause() instanceof Hypothesis.AnyOf a)
                a.hits().forEach(hit -> mark(points, hit.edits(), reached));
            progress.accept(++done / (double) all.size());
        }
        for (Watch w : circuit.watches()) {
            int own = table.index(new Code(w.spn(), w.fmi()));
            require(
                    own < 0 || reached[own],
                    "watch " + w.code() + " (" + w.label()
                            + "): no single fault or engine condition sets it; check its pin, phase and limit");
        }
    }

    private static void mark(List<Predictor> points, List<Edit> edits, boolean[] reached) {
        for (Predictor p : points) {
            Prediction q = p.predict(edits);
            for (int k = 0; k < q.codes().length; k++) if (q.probability()[k] > REACHED) reached[q.codes()[k]] = true;
        }
    }
}
