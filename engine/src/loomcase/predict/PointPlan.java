package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.DoubleConsumer;
import java.util.stream.IntStream;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.predict.PointSolver.Measured;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Overlay;

/**
 * What has to be measured at one operating point: each watch reads one or two channels, a channel is one voltage difference
 * or driver current at one phase, and each phase is solved once for all its channels, see {@link PointSolver}.
 */
final class PointPlan {
    /** A watch that runs here and the channels it reads; the second is −1 where it reads one. */
    record Running(int watch, Watch.Measure measure, Watch.Limit limit, int first, int second) {
        /** By how many spreads the limit is crossed; minus infinity where the pin is not wired. */
        double spreads(double value) {
            if (Double.isNaN(value)) return Double.NEGATIVE_INFINITY;
            double z = (value - limit.value()) / limit.spread();
            return limit.above() ? z : -z;
        }
    }

    /** Difference of two probabilities of a pair's condition that is none. */
    private static final double SAME = 1e-10;

    /** Spreads beyond the limit from which on a condition holds to within {@value #SAME}. */
    private static final double SURE = 6.5;

    /** Hypotheses measured before they are written into a table: what is measured of one takes some kilobytes. */
    private static final int AT_ONCE = 250;

    private final Circuit circuit;
    private final PointSolver solver;
    private final List<Running> running = new ArrayList<>();
    private final Map<Integer, Running> byWatch = new LinkedHashMap<>();
    private final Measured healthy;
    private final double[] healthyConditions;

    PointPlan(Circuit circuit, NetworkSolver networks, OperatingPoint op) {
        this.circuit = circuit;
        this.solver = new PointSolver(circuit, networks, op);
        for (int w = 0; w < circuit.watches().size(); w++) {
            Watch watch = circuit.watches().get(w);
            if (watch.operatingPoints().contains(op.id())) plan(w, watch.measure());
        }
        running.forEach(r -> byWatch.put(r.watch, r));
        this.healthy = measure(List.of());
        double[] p = new double[circuit.watches().size()];
        for (Running r : running) p[r.watch] = condition(r, value(healthy, r, 0));
        this.healthyConditions = healthy.awake()[0] ? p : new double[p.length];
    }

    private void plan(int w, Watch.Measure measure) {
        if (measure instanceof Watch.PinVolts v) add(w, measure, solver.volts(v.phase(), v.pin(), ""), -1);
        else if (measure instanceof Watch.PinAmperes a) add(w, measure, solver.amperes(a.phase(), a.pin()), -1);
        else if (measure instanceof Watch.Difference d)
            add(w, measure, solver.volts(d.phase(), d.pin(), d.minusPin()), -1);
        else if (measure instanceof Watch.Departure d) add(w, measure, solver.volts(d.phase(), d.pin(), ""), -1);
        else if (measure instanceof Watch.Swing s)
            add(
                    w,
                    measure,
                    solver.volts(s.phase(), s.pin(), s.minusPin()),
                    solver.volts(s.fromPhase(), s.pin(), s.minusPin()));
        else throw new IllegalStateException("unknown measure " + measure);
    }

    private void add(int w, Watch.Measure measure, int first, int second) {
        running.add(new Running(w, measure, circuit.watches().get(w).limit(), first, second));
    }

    /** Solves every phase under one hypothesis. */
    Measured measure(List<Edit> edits) {
        return solver.measure(List.of(edits), solver.allPhases());
    }

    /**
     * Solves many hypotheses one by one, so that any two of them can be laid over each other, in the quietest phase and
     * those that some watches look at.
     *
     * @param both the edits of two of them together, by their numbers
     */
    PointPairs pairs(List<List<Edit>> all, BitSet watches, BiFunction<Integer, Integer, List<Edit>> both) {
        int[] wanted = running.stream()
                .filter(r -> watches.get(r.watch))
                .flatMap(r -> r.measure.phases().stream())
                .mapToInt(solver::phase)
                .distinct()
                .toArray();
        int[] phases = IntStream.concat(Arrays.stream(wanted), IntStream.of(solver.quietestPhase()))
                .distinct()
                .toArray();
        List<Overlay> overlays = Arrays.stream(phases)
                .parallel()
                .mapToObj(phase -> solver.overlay(phase, all))
                .toList();
        return new PointPairs(this, solver, phases, wanted.length, overlays, both);
    }

    /** The watches that run here and what they read. */
    List<Running> running() {
        return running;
    }

    /**
     * Probability of a watch's condition where the channels read these values.
     *
     * @param values by channel
     * @param healthy the probability on a healthy engine, given back where the other differs by less than {@value #SAME}
     */
    double condition(Running r, double[] values, double healthy) {
        double z = spreads(r, values);
        if (z < -SURE && healthy < SAME || z > SURE && 1 - healthy < SAME) return healthy;
        double p = Normal.cumulative(z);
        return Math.abs(p - healthy) < SAME ? healthy : p;
    }

    private double value(Running r, double first, double second) {
        if (r.measure instanceof Watch.Swing) return Math.abs(first - second);
        if (r.measure instanceof Watch.Departure)
            return healthy == null ? 0 : Math.abs(first - healthy.values()[0][r.first]);
        return first;
    }

    private double value(Measured m, Running r, int hypothesis) {
        double second = r.second < 0 ? 0 : m.values()[hypothesis][r.second];
        return value(r, m.values()[hypothesis][r.first], second);
    }

    /** What a watch that runs here measures under a hypothesis; NaN when its pin is not wired. */
    double value(Measured m, int watch, int hypothesis) {
        return value(m, byWatch.get(watch), hypothesis);
    }

    /** What it measures on a healthy engine. */
    double healthyValue(int watch) {
        return value(healthy, watch, 0);
    }

    /** By how many spreads a watch's limit is crossed on a healthy engine. */
    double healthySpreads(Running r) {
        return r.spreads(value(healthy, r, 0));
    }

    /** The same where the channels read these values. */
    double spreads(Running r, double[] values) {
        return r.spreads(value(r, values[r.first], r.second < 0 ? 0 : values[r.second]));
    }

    double[] healthyConditions() {
        return healthyConditions;
    }

    /**
     * Probability of each watch's condition under each of many lists of edits.
     *
     * @param progress told the share done, 0 to 1
     */
    PointTable table(List<List<Edit>> all, DoubleConsumer progress) {
        return table(all, solver.allPhases(), running, progress);
    }

    /** The same of those watches alone that look at no other phases than some, which are solved alone. */
    PointTable table(List<List<Edit>> all, Set<String> phases, DoubleConsumer progress) {
        List<Running> here = running.stream()
                .filter(r -> phases.containsAll(r.measure.phases()))
                .toList();
        return table(all, phases.stream().mapToInt(solver::phase).toArray(), here, progress);
    }

    private PointTable table(List<List<Edit>> all, int[] phases, List<Running> watches, DoubleConsumer progress) {
        PointTable.Builder out = new PointTable.Builder(all, healthyConditions);
        for (int from = 0; from < all.size(); from += AT_ONCE) {
            List<List<Edit>> here = all.subList(from, Math.min(all.size(), from + AT_ONCE));
            write(solver.measure(here, phases), watches, out);
            progress.accept((from + here.size()) / (double) all.size());
        }
        solver.forgetAfter(all.size());
        return out.build();
    }

    private void write(Measured m, List<Running> watches, PointTable.Builder out) {
        for (int e = 0; e < m.awake().length; e++) {
            for (Running r : watches)
                if (!m.awake()[e]) out.entry(r.watch, 0);
                else if (!same(m, r, e)) out.entry(r.watch, condition(r, value(m, r, e)));
            out.endRow(m.settled()[e]);
        }
    }

    private boolean same(Measured m, Running r, int hypothesis) {
        return Math.abs(m.values()[hypothesis][r.first] - healthy.values()[0][r.first]) < 1e-9
                && (r.second < 0 || Math.abs(m.values()[hypothesis][r.second] - healthy.values()[0][r.second]) < 1e-9);
    }

    private static double condition(Running r, double value) {
        return Normal.cumulative(r.spreads(value));
    }
}
