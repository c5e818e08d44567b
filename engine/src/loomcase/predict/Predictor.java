package loomcase.predict;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * Entry of this stage: the codes that any edits would show at the operating points looked at.
 *
 * <p>Every watch measures the solved network; its limit is soft, {@code p = Φ(±(value − limit) / spread)}. A control unit
 * whose own supply is below its minimum is silent. A code is taken to be shown when it is shown at any of the operating
 * points looked at, the most favourable one: {@code q = max over points}. Networks are solved once for each phase that
 * some watch needs. Not thread-safe.
 */
public final class Predictor {
    private final Circuit circuit;
    private final CodeTable table;
    private final List<PointPlan> plans = new ArrayList<>();
    private final double[] healthyShown;
    private final Map<List<Edit>, Prediction> known = new LinkedHashMap<>();

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
        this.healthyShown = shown(List.of()).probability;
    }

    private record Shown(double[] probability, boolean settled) {}

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
        for (PointPlan plan : plans) for (int w : plan.running) for (int c : table.shownBy(w)) out[c] = true;
        return out;
    }

    /** The codes that these edits would show; computed once for each list of edits. */
    public Prediction predict(List<Edit> edits) {
        Prediction p = known.get(edits);
        if (p != null) return p;
        Shown s = shown(edits);
        p = Prediction.of(s.probability, healthyShown, s.settled);
        known.put(edits, p);
        return p;
    }

    /** What every watch of a code measures under these edits, at each operating point where it runs. */
    public List<Reading> readings(List<Edit> edits, int code) {
        List<Reading> out = new ArrayList<>();
        for (PointPlan plan : plans) {
            Measured m = plan.measure(edits);
            Measured h = plan.measure(List.of());
            for (int w : plan.running)
                for (int c : table.shownBy(w))
                    if (c == code && !Double.isNaN(m.values[w]))
                        out.add(new Reading(circuit.watches().get(w), plan.op.id(), m.values[w], h.values[w]));
        }
        return out;
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

    private Shown shown(List<Edit> edits) {
        double[] most = new double[table.codes().size()];
        boolean settled = true;
        for (PointPlan plan : plans) {
            Measured m = plan.measure(edits);
            settled &= m.settled;
            double[] q = table.shown(plan.conditions(m));
            for (int c = 0; c < q.length; c++) most[c] = Math.max(most[c], q[c]);
        }
        return new Shown(most, settled);
    }

    /** Values by watch number, NaN where a watch does not run; and whether the unit is awake. */
    private record Measured(double[] values, boolean settled, boolean awake) {}

    /** What has to be solved and measured at one operating point. */
    private static final class PointPlan {
        private final Circuit circuit;
        private final OperatingPoint op;
        private final int[] running;
        private final Map<String, NetworkSolver.Instant> instants = new LinkedHashMap<>();
        private final Measured healthy;

        PointPlan(Circuit circuit, NetworkSolver solver, OperatingPoint op) {
            this.circuit = circuit;
            this.op = op;
            List<Integer> here = new ArrayList<>();
            TreeSet<String> phases = new TreeSet<>();
            for (int w = 0; w < circuit.watches().size(); w++) {
                Watch watch = circuit.watches().get(w);
                if (!watch.operatingPoints().contains(op.id())) continue;
                here.add(w);
                phases.add(watch.measure().phase());
                if (watch.measure() instanceof Watch.Swing s) phases.add(s.fromPhase());
            }
            this.running = here.stream().mapToInt(Integer::intValue).toArray();
            for (String phase : phases) instants.put(phase, solver.at(op.id(), phase));
            this.healthy = measureNow(List.of());
        }

        Measured measure(List<Edit> edits) {
            return edits.isEmpty() ? healthy : measureNow(edits);
        }

        private Measured measureNow(List<Edit> edits) {
            Map<String, Solution> solutions = new LinkedHashMap<>();
            boolean settled = true;
            boolean awake = true;
            String unit = circuit.controlUnit().id();
            for (Map.Entry<String, NetworkSolver.Instant> e : instants.entrySet()) {
                Solution s = e.getValue().solve(edits);
                settled &= s.settled();
                double supply = s.volts(Names.inside(unit, "power"), Names.inside(unit, "ground"))
                        .orElse(0);
                awake &= supply >= circuit.controlUnit().minimumSupplyVolts();
                solutions.put(e.getKey(), s);
            }
            double[] values = new double[circuit.watches().size()];
            java.util.Arrays.fill(values, Double.NaN);
            for (int w : running) values[w] = value(circuit.watches().get(w).measure(), solutions);
            return new Measured(values, settled, awake);
        }

        private double value(Watch.Measure measure, Map<String, Solution> solutions) {
            Solution s = solutions.get(measure.phase());
            if (measure instanceof Watch.PinVolts v) return volts(s, v.pin());
            if (measure instanceof Watch.PinAmperes a) return s.driverAmperes(a.pin());
            if (measure instanceof Watch.Difference d) return volts(s, d.pin()) - volts(s, d.minusPin());
            if (measure instanceof Watch.Swing w)
                return Math.abs(across(s, w) - across(solutions.get(w.fromPhase()), w));
            if (measure instanceof Watch.Departure d)
                return Math.abs(
                        volts(s, d.pin()) - volts(instants.get(d.phase()).healthy(), d.pin()));
            throw new IllegalStateException("unknown measure " + measure);
        }

        private double across(Solution s, Watch.Swing w) {
            return volts(s, w.pin()) - (w.minusPin().isEmpty() ? 0 : volts(s, w.minusPin()));
        }

        private double volts(Solution s, String pin) {
            return s.pinVolts(circuit.controlUnit().id(), pin).orElse(Double.NaN);
        }

        double[] conditions(Measured m) {
            double[] p = new double[m.values.length];
            if (!m.awake) return p;
            for (int w : running) {
                if (Double.isNaN(m.values[w])) continue;
                Watch.Limit limit = circuit.watches().get(w).limit();
                double z = (m.values[w] - limit.value()) / limit.spread();
                p[w] = Normal.cumulative(limit.above() ? z : -z);
            }
            return p;
        }
    }
}
