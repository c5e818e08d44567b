package loomcase.check;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleConsumer;
import java.util.stream.Collectors;
import loomcase.InputProblem;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * Proves by solving the network that a healthy engine is quiet and that every code can be set.
 *
 * <p>Cost of the last proof: one prediction for each single fault and operating point, until every code is reached.
 */
final class BehaviourProof {
    /** Whether a condition can be met is no matter of how it is shown or hidden. */
    private static final PolicyOutcome NO_RULES =
            new PolicyOutcome(List.of(), List.of(), List.of(), List.of(), false, List.of());

    /** Largest probability of a code that a healthy engine may have. */
    private static final double HEALTHY_LIMIT = 1e-3;

    /** Probability from which a code counts as reached by a fault. */
    private static final double REACHED = 0.3;

    private final Circuit circuit;
    private final Layout layout;
    private final NetworkSolver solver;
    private final CodeTable shown;
    private final CodeTable conditions;
    private final List<String> problems = new ArrayList<>();

    BehaviourProof(Circuit circuit, PolicyOutcome policy) {
        this.circuit = circuit;
        this.layout = new Layout(circuit);
        this.solver = new NetworkSolver(circuit, layout);
        this.shown = new CodeTable(circuit.watches(), policy, List.of(), 0);
        this.conditions = new CodeTable(circuit.watches(), NO_RULES, List.of(), 0);
    }

    List<String> problems(DoubleConsumer progress) {
        for (OperatingPoint op : circuit.operatingPoints().values())
            for (OperatingPoint.Phase phase : op.phases()) healthyNetwork(op, phase);
        if (!problems.isEmpty()) return problems;
        predictors(shown).forEach(this::healthyCodes);
        if (problems.isEmpty()) reach(predictors(conditions), progress);
        return problems;
    }

    private List<Predictor> predictors(CodeTable table) {
        return circuit.operatingPoints().keySet().stream()
                .map(op -> new Predictor(circuit, solver, table, List.of(op)))
                .toList();
    }

    private void healthyNetwork(OperatingPoint op, OperatingPoint.Phase phase) {
        String when = "operating point " + op.id() + ", phase " + phase.id();
        Solution s;
        try {
            s = solver.at(op.id(), phase.id()).healthy();
        } catch (InputProblem fuse) {
            problems.add(when + ": " + fuse.getMessage());
            return;
        }
        if (!s.settled())
            problems.add(when + ": the healthy network finds no steady state; look for a relay or node that takes its"
                    + " own supply away");
        String unit = circuit.controlUnit().id();
        double least = circuit.controlUnit().minimumSupplyVolts();
        double supply = s.supplyVolts(unit);
        if (supply < least)
            problems.add(String.format(
                    Locale.ROOT,
                    "control unit %s: a healthy engine gives it only %.2f V at %s, below its minimum of %s V, so it would"
                            + " set no code; look at its feed, its ground and batteryVolts",
                    unit,
                    supply,
                    when,
                    plain(least)));
    }

    private void healthyCodes(Predictor p) {
        double[] healthy = p.healthy();
        for (int c = 0; c < healthy.length; c++) {
            if (healthy[c] <= HEALTHY_LIMIT) continue;
            Code code = shown.codes().get(c);
            p.readings(List.of(), c).stream()
                    .min(Comparator.comparingDouble(BehaviourProof::spreadsAway))
                    .ifPresent(r -> problems.add(healthySentence(code, r)));
        }
    }

    /** How many spreads a reading keeps from setting its code; negative when it sets it. */
    private static double spreadsAway(Predictor.Reading r) {
        Watch.Limit limit = r.watch().limit();
        double away = (limit.value() - r.value()) / limit.spread();
        return limit.above() ? away : -away;
    }

    private static String healthySentence(Code code, Predictor.Reading r) {
        Watch.Limit limit = r.watch().limit();
        return String.format(
                Locale.ROOT,
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

    private void reach(List<Predictor> points, DoubleConsumer progress) {
        List<List<Edit>> causes = causes();
        boolean[] reached = new boolean[conditions.codes().size()];
        List<Integer> wanted = wanted();
        int done = 0;
        for (List<Edit> edits : causes) {
            List<Integer> open = wanted.stream().filter(c -> !reached[c]).toList();
            if (open.isEmpty()) break;
            for (Predictor p : points) if (mayShow(p, open)) mark(p, edits, reached);
            progress.accept(++done / (double) causes.size());
        }
        for (Watch w : circuit.watches()) {
            if (!reached[conditions.index(new Code(w.spn(), w.fmi()))])
                problems.add("watch " + w.code() + " (" + w.label()
                        + "): no single fault or engine condition sets it; check its pin, phase and limit");
        }
    }

    private List<Integer> wanted() {
        return circuit.watches().stream()
                .map(w -> conditions.index(new Code(w.spn(), w.fmi())))
                .distinct()
                .toList();
    }

    /**
     * What every single fault and every hit of a common cause does, small families first: each family can do what others
     * cannot, and the largest, pairs of neighbouring wires, seldom is the only way to a code.
     */
    private List<List<Edit>> causes() {
        List<Hypothesis> all = new FaultGenerator(circuit, layout, Priors.builtIn()).generate();
        Map<String, Long> members =
                all.stream().collect(Collectors.groupingBy(Hypothesis::family, Collectors.counting()));
        Set<List<Edit>> out = new LinkedHashSet<>();
        all.stream().sorted(Comparator.comparing(h -> members.get(h.family()))).forEach(h -> {
            if (h.cause() instanceof Hypothesis.Fixed f) out.add(f.edits());
            else if (h.cause() instanceof Hypothesis.AnyOf a) a.hits().forEach(hit -> out.add(hit.edits()));
        });
        return List.copyOf(out);
    }

    private static boolean mayShow(Predictor p, List<Integer> codes) {
        boolean[] lookedFor = p.lookedFor();
        return codes.stream().anyMatch(c -> lookedFor[c]);
    }

    private static void mark(Predictor p, List<Edit> edits, boolean[] reached) {
        Prediction q = p.predict(edits);
        for (int k = 0; k < q.codes().length; k++) if (q.probability()[k] > REACHED) reached[q.codes()[k]] = true;
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
