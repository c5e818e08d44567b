package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleConsumer;
import java.util.stream.Stream;
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
    private record Running(int watch, Watch.Measure measure, int first, int second) {}

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
        for (Running r : running) p[r.watch] = condition(r.watch, value(healthy, r, 0));
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
        running.add(new Running(w, measure, first, second));
    }

    /** Hypotheses measured before they are written into a table: what is measured of one takes some kilobytes. */
    private static final int AT_ONCE = 250;

    /** Solves every phase under one hypothesis. */
    Measured measure(List<Edit> edits) {
        return solver.measure(List.of(edits), solver.allPhases());
    }

    /** By how much a condition's probability may be off where two hypotheses are taken to add up. */
    private static final double CLOSE = 1e-5;

    /**
     * Solves many hypotheses one by one, and finds which two of them meet in some phase.
     *
     * @param asked by hypothesis, which later ones it is asked about
     */
    PairTable.Point pairs(List<List<Edit>> all, List<BitSet> asked) {
        int n = all.size();
        Measured m = solver.none(n);
        int[] phases = solver.allPhases();
        PointSolver.Found[] found = new PointSolver.Found[phases.length];
        List<List<BitSet>> meets = Arrays.stream(phases)
                .parallel()
                .mapToObj(phase -> {
                    Overlay overlay = solver.overlay(phase);
                    found[phase] = solver.read(phase, all, overlay::add, m);
                    return meets(overlay, phase, m, asked);
                })
                .toList();
        PointSolver.together(m, found, phases);
        List<BitSet> any = Stream.generate(BitSet::new).limit(n).toList();
        for (List<BitSet> phase : meets) for (int a = 0; a < n; a++) any.get(a).or(phase.get(a));
        PointTable.Builder rows = new PointTable.Builder(all, healthyConditions);
        write(m, running, rows);
        return new PairTable.Point(this, m, rows.build(), changed(m, n), any);
    }

    /** By hypothesis, the watches whose value it changes at all. */
    private List<BitSet> changed(Measured m, int n) {
        List<BitSet> out = new ArrayList<>();
        for (int e = 0; e < n; e++) {
            BitSet here = new BitSet();
            for (Running r : running) if (!m.awake()[e] || !same(m, r, e)) here.set(r.watch);
            out.add(here);
        }
        return out;
    }

    private List<BitSet> meets(Overlay overlay, int phase, Measured m, List<BitSet> asked) {
        List<Running> here = running.stream()
                .filter(r -> solver.phaseOf(r.first) == phase || r.second >= 0 && solver.phaseOf(r.second) == phase)
                .toList();
        List<BitSet> out = new ArrayList<>();
        for (int a = 0; a < asked.size(); a++) {
            BitSet with = new BitSet(asked.size());
            for (int b = asked.get(a).nextSetBit(0); b >= 0; b = asked.get(a).nextSetBit(b + 1)) {
                boolean apart = overlay.lay(a, b);
                if (apart && overlay.felt()) apart = holds(overlay, phase, here, m, a, b);
                if (!apart) with.set(b);
            }
            out.add(with);
        }
        return out;
    }

    /** True when what the sum has too much changes no watch's condition. */
    private boolean holds(Overlay overlay, int phase, List<Running> here, Measured m, int a, int b) {
        // The unit's supply has no soft limit; a volt is far from it or the two are solved jointly.
        if (Math.abs(solver.surplusSupplyVolts(overlay)) > 1e-3) return false;
        for (Running r : here) {
            double off = Math.abs(solver.surplus(phase, r.first, overlay))
                    + Math.abs(solver.surplus(phase, r.second, overlay));
            if (off < 1e-7) continue;
            if (r.second >= 0) {
                if (off > 1e-4) return false;
                continue;
            }
            double first = m.values()[r.first][a] + m.values()[r.first][b] - healthy.values()[r.first][0];
            double v = r.measure instanceof Watch.Departure ? Math.abs(first - healthy.values()[r.first][0]) : first;
            if (Math.abs(condition(r.watch, v - off) - condition(r.watch, v + off)) > CLOSE) return false;
        }
        return true;
    }

    /** Probability of a watch's condition where two hypotheses add up. */
    double together(Measured m, int watch, int a, int b) {
        Running r = byWatch.get(watch);
        double[][] sum = new double[m.values().length][];
        for (int c : new int[] {r.first, r.second})
            if (c >= 0) sum[c] = new double[] {m.values()[c][a] + m.values()[c][b] - healthy.values()[c][0]};
        return condition(watch, value(new Measured(sum, null, null), r, 0));
    }

    private double value(Measured m, Running r, int hypothesis) {
        double first = m.values()[r.first][hypothesis];
        if (r.measure instanceof Watch.Swing) return Math.abs(first - m.values()[r.second][hypothesis]);
        if (r.measure instanceof Watch.Departure)
            return healthy == null ? 0 : Math.abs(first - healthy.values()[r.first][0]);
        return first;
    }

    /** What a watch that runs here measures under a hypothesis; NaN when its pin is not wired. */
    double value(Measured m, int watch, int hypothesis) {
        return value(m, byWatch.get(watch), hypothesis);
    }

    /** What it measures on a healthy engine. */
    double healthyValue(int watch) {
        return value(healthy, watch, 0);
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
        solver.forgetAfter(all.size(), phases);
        return out.build();
    }

    private void write(Measured m, List<Running> watches, PointTable.Builder out) {
        for (int e = 0; e < m.awake().length; e++) {
            for (Running r : watches)
                if (!m.awake()[e]) out.entry(r.watch, 0);
                else if (!same(m, r, e)) out.entry(r.watch, condition(r.watch, value(m, r, e)));
            out.endRow(m.settled()[e]);
        }
    }

    private boolean same(Measured m, Running r, int hypothesis) {
        return Math.abs(m.values()[r.first][hypothesis] - healthy.values()[r.first][0]) < 1e-9
                && (r.second < 0 || Math.abs(m.values()[r.second][hypothesis] - healthy.values()[r.second][0]) < 1e-9);
    }

    private double condition(int watch, double value) {
        if (Double.isNaN(value)) return 0;
        Watch.Limit limit = circuit.watches().get(watch).limit();
        double z = (value - limit.value()) / limit.spread();
        return Normal.cumulative(limit.above() ? z : -z);
    }
}
