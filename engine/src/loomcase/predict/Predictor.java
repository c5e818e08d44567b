package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleConsumer;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Watch;
import loomcase.solve.NetworkSolver;

/**
 * Entry of this stage: the codes that any edits would show at the operating points looked at.
 *
 * <p>Every watch measures the solved network; its limit is soft, {@code p = Φ(±(value − limit) / spread)}. A control unit
 * whose own supply is below its minimum is silent. A code is taken to be shown when it is shown at any of the operating
 * points looked at, the most favourable one: {@code q = max over points}.
 *
 * <p>Predictions are kept, so asking again is free. {@link #prepare} predicts many at once, instant by instant and on all
 * cores. Not thread-safe itself.
 */
public final class Predictor {
    private final Circuit circuit;
    private final CodeTable table;
    private final List<PointPlan> plans = new ArrayList<>();
    private final double[] healthyShown;
    private final Map<List<Edit>, Prediction> known = new HashMap<>();

    /**
     * @param circuit the circuit
     * @param solver its networks
     * @param table codes that may be shown
     * @param operatingPoints ids of the operating points at which codes were looked for
     */
    public Predictor(Circuit circuit, NetworkSolver solver, CodeTable table, List<String> operatingPoints) {
        this.circuit = circuit;
        this.table = table;
        for (String id : operatingPoints)
            plans.add(new PointPlan(circuit, solver, circuit.operatingPoints().get(id)));
        this.healthyShown = new double[table.codes().size()];
        for (PointPlan plan : plans) {
            double[] q = table.shown(plan.healthyConditions());
            for (int c = 0; c < q.length; c++) healthyShown[c] = Math.max(healthyShown[c], q[c]);
        }
    }

    /** The codes that may be shown. */
    public CodeTable table() {
        return table;
    }

    /** Probability of each code on a healthy engine, by code number. */
    public double[] healthy() {
        return healthyShown.clone();
    }

    /** True when some watch that can show this code runs at an operating point looked at. */
    public boolean[] lookedFor() {
        boolean[] out = new boolean[table.codes().size()];
        for (PointPlan plan : plans) for (int w : plan.running()) for (int c : table.shownBy(w)) out[c] = true;
        return out;
    }

    /** The codes that these edits would show. */
    public Prediction predict(List<Edit> edits) {
        Prediction p = known.get(edits);
        if (p == null) {
            compute(List.of(edits), share -> {});
            p = known.get(edits);
        }
        return p;
    }

    /** Predicts many lists of edits at once, without telling anyone how far it is. */
    public void prepare(Collection<List<Edit>> all) {
        prepare(all, share -> {});
    }

    /**
     * Predicts many lists of edits at once.
     *
     * @param progress told the share done, 0 to 1, from several threads
     */
    public void prepare(Collection<List<Edit>> all, DoubleConsumer progress) {
        List<List<Edit>> unknown = new LinkedHashSet<>(all)
                .stream().filter(edits -> !known.containsKey(edits)).toList();
        if (!unknown.isEmpty()) compute(unknown, progress);
    }

    private void compute(List<List<Edit>> all, DoubleConsumer progress) {
        double[][] most = new double[all.size()][];
        boolean[] settled = new boolean[all.size()];
        Arrays.fill(settled, true);
        int done = 0;
        for (PointPlan plan : plans) {
            double from = done++;
            PointPlan.Measured m = plan.measure(all, share -> progress.accept((from + share) / plans.size()));
            for (int e = 0; e < all.size(); e++) {
                settled[e] &= m.settled()[e];
                double[] q = table.shown(plan.conditions(m, e));
                if (most[e] == null) most[e] = q;
                else for (int c = 0; c < q.length; c++) most[e][c] = Math.max(most[e][c], q[c]);
            }
        }
        for (int e = 0; e < all.size(); e++) known.put(all.get(e), Prediction.of(most[e], healthyShown, settled[e]));
    }

    /**
     * A measured value beside the healthy one, volts or amperes as the watch's measure says.
     *
     * @param watch the watch
     * @param operatingPoint where it ran
     * @param value under the edits
     * @param healthy without them
     */
    public record Reading(Watch watch, String operatingPoint, double value, double healthy) {}

    /** What every watch of a code measures under these edits, at each operating point where it runs. */
    public List<Reading> readings(List<Edit> edits, int code) {
        List<Reading> out = new ArrayList<>();
        for (PointPlan plan : plans) {
            PointPlan.Measured m = plan.measure(List.of(edits), share -> {});
            for (int w : plan.running())
                if (Arrays.stream(table.shownBy(w)).anyMatch(c -> c == code))
                    out.add(new Reading(
                            circuit.watches().get(w), plan.id(), plan.value(m, w, 0), plan.healthyValue(w)));
        }
        return out;
    }
}
