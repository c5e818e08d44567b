package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleConsumer;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.OperatingPoint;
import loomcase.model.Watch;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Overlay;
import loomcase.solve.Solution;

/**
 * What has to be solved and measured at one operating point: each watch reads one or two channels, a channel is one
 * voltage difference or driver current at one phase, and each phase is solved once for all its channels.
 */
final class PointPlan {
    /**
     * One quantity at one phase.
     *
     * @param plus node counted positive, or −1 where a pin is not wired
     * @param minus node counted negative
     * @param driver pin whose driver current is wanted, empty for a voltage
     */
    private record Channel(int phase, int plus, int minus, String driver) {}

    /** A watch that runs here and the channels it reads; the second is −1 where it reads one. */
    private record Running(int watch, Watch.Measure measure, int first, int second) {}

    /**
     * Measured channels of many hypotheses.
     *
     * @param values by channel, then by hypothesis
     * @param settled false where some phase found no consistent state, by hypothesis
     * @param awake whether the control unit has its supply in every phase, by hypothesis
     */
    record Measured(double[][] values, boolean[] settled, boolean[] awake) {
        Measured(int channels, int hypotheses) {
            this(new double[channels][hypotheses], new boolean[hypotheses], new boolean[hypotheses]);
        }
    }

    /** What one phase found of many hypotheses: whether it settled, and whether the control unit has its supply. */
    private record Found(boolean[] settled, boolean[] awake) {
        Found(int hypotheses) {
            this(new boolean[hypotheses], new boolean[hypotheses]);
        }
    }

    /** Up to this many hypotheses are solved on one core. */
    private static final int FEW = 2;

    /** From this many on the columns solved for them are given back: they fill a few hundred megabytes. */
    private static final int MANY = 1000;

    /** Columns kept otherwise: what a case or two need, some megabytes for each instant. */
    private static final int MOST_COLUMNS = 800;

    private final Circuit circuit;
    private final OperatingPoint op;
    private final List<NetworkSolver.Instant> instants = new ArrayList<>();
    private final Map<String, Integer> phaseNumber = new LinkedHashMap<>();
    private final List<Channel> channels = new ArrayList<>();
    private final List<Running> running = new ArrayList<>();
    private final Map<Integer, Running> byWatch = new LinkedHashMap<>();
    private final Measured healthy;
    private final double[] healthyConditions;

    PointPlan(Circuit circuit, NetworkSolver solver, OperatingPoint op) {
        this.circuit = circuit;
        this.op = op;
        for (int w = 0; w < circuit.watches().size(); w++) {
            Watch watch = circuit.watches().get(w);
            if (watch.operatingPoints().contains(op.id())) plan(w, watch.measure(), solver);
        }
        running.forEach(r -> byWatch.put(r.watch, r));
        this.healthy = measure(List.of(List.of()), share -> {});
        double[] p = new double[circuit.watches().size()];
        for (Running r : running) p[r.watch] = condition(r.watch, value(healthy, r, 0));
        this.healthyConditions = healthy.awake[0] ? p : new double[p.length];
    }

    private void plan(int w, Watch.Measure measure, NetworkSolver solver) {
        if (measure instanceof Watch.PinVolts v) add(w, measure, channel(solver, v.phase(), v.pin(), ""), -1);
        else if (measure instanceof Watch.PinAmperes a) {
            channels.add(new Channel(phase(solver, a.phase()), 0, 0, a.pin()));
            add(w, measure, channels.size() - 1, -1);
        } else if (measure instanceof Watch.Difference d)
            add(w, measure, channel(solver, d.phase(), d.pin(), d.minusPin()), -1);
        else if (measure instanceof Watch.Departure d) add(w, measure, channel(solver, d.phase(), d.pin(), ""), -1);
        else if (measure instanceof Watch.Swing s)
            add(
                    w,
                    measure,
                    channel(solver, s.phase(), s.pin(), s.minusPin()),
                    channel(solver, s.fromPhase(), s.pin(), s.minusPin()));
        else throw new IllegalStateException("unknown measure " + measure);
    }

    private void add(int w, Watch.Measure measure, int first, int second) {
        running.add(new Running(w, measure, first, second));
    }

    private int phase(NetworkSolver solver, String id) {
        return phaseNumber.computeIfAbsent(id, k -> {
            instants.add(solver.at(op.id(), id));
            return instants.size() - 1;
        });
    }

    private int channel(NetworkSolver solver, String phaseId, String pin, String minusPin) {
        int phase = phase(solver, phaseId);
        NetworkSolver.Instant at = instants.get(phase);
        String against = minusPin.isEmpty() ? inside("ground") : Names.mating(minusPin);
        OptionalInt plus = at.node(Names.mating(pin));
        OptionalInt minus = at.node(against);
        channels.add(new Channel(phase, plus.orElse(-1), minus.orElse(-1), ""));
        return channels.size() - 1;
    }

    private String inside(String what) {
        return Names.inside(circuit.controlUnit().id(), what);
    }

    /** Solves every phase under every hypothesis; phases run on all cores, since each has its own solver. */
    Measured measure(List<List<Edit>> all, DoubleConsumer progress) {
        return measure(all, IntStream.range(0, instants.size()).toArray(), progress);
    }

    private Measured measure(List<List<Edit>> all, int[] some, DoubleConsumer progress) {
        int n = all.size();
        Measured out = new Measured(channels.size(), n);
        Found[] found = new Found[instants.size()];
        IntStream phases = Arrays.stream(some);
        if (n > FEW) phases = phases.parallel();
        AtomicInteger done = new AtomicInteger();
        phases.forEach(phase -> {
            found[phase] = read(phase, all, instants.get(phase)::solveActive, out.values);
            instants.get(phase).forgetBeyond(n > MANY ? 0 : MOST_COLUMNS);
            progress.accept(done.incrementAndGet() / (double) some.length);
        });
        together(out, found, some);
        return out;
    }

    /** What holds in every phase. */
    private static void together(Measured out, Found[] found, int[] phases) {
        for (int e = 0; e < out.settled.length; e++) {
            out.settled[e] = true;
            out.awake[e] = true;
            for (int phase : phases) {
                out.settled[e] &= found[phase].settled[e];
                out.awake[e] &= found[phase].awake[e];
            }
        }
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
        Measured m = new Measured(channels.size(), n);
        int[] phases = IntStream.range(0, instants.size()).toArray();
        Found[] found = new Found[phases.length];
        List<List<BitSet>> meets = Arrays.stream(phases)
                .parallel()
                .mapToObj(phase -> {
                    Overlay overlay = instants.get(phase).overlay();
                    found[phase] = read(phase, all, overlay::add, m.values);
                    return meets(overlay, phase, m, asked);
                })
                .toList();
        together(m, found, phases);
        List<BitSet> any = Stream.generate(BitSet::new).limit(n).toList();
        for (List<BitSet> phase : meets) for (int a = 0; a < n; a++) any.get(a).or(phase.get(a));
        return new PairTable.Point(this, m, table(all, m), changed(m, n), any);
    }

    /** By hypothesis, the watches whose value it changes at all. */
    private List<BitSet> changed(Measured m, int n) {
        List<BitSet> out = new ArrayList<>();
        for (int e = 0; e < n; e++) {
            BitSet here = new BitSet();
            for (Running r : running) if (!m.awake[e] || !same(m, r, e)) here.set(r.watch);
            out.add(here);
        }
        return out;
    }

    private List<BitSet> meets(Overlay overlay, int phase, Measured m, List<BitSet> asked) {
        List<Running> here = running.stream()
                .filter(r ->
                        channels.get(r.first).phase == phase || r.second >= 0 && channels.get(r.second).phase == phase)
                .toList();
        int power = instants.get(phase).node(inside("power")).orElseThrow();
        int ground = instants.get(phase).node(inside("ground")).orElseThrow();
        List<BitSet> out = new ArrayList<>();
        for (int a = 0; a < asked.size(); a++) {
            BitSet with = new BitSet(asked.size());
            for (int b = asked.get(a).nextSetBit(0); b >= 0; b = asked.get(a).nextSetBit(b + 1)) {
                boolean apart = overlay.lay(a, b);
                if (apart && overlay.felt()) apart = holds(overlay, phase, here, m, a, b, power, ground);
                if (!apart) with.set(b);
            }
            out.add(with);
        }
        return out;
    }

    /** True when what the sum has too much changes no watch's condition. */
    private boolean holds(
            Overlay overlay, int phase, List<Running> here, Measured m, int a, int b, int power, int ground) {
        // The unit's supply has no soft limit; a volt is far from it or the two are solved jointly.
        if (Math.abs(overlay.surplusVolts(power, ground)) > 1e-3) return false;
        for (Running r : here) {
            double off = Math.abs(surplus(overlay, phase, r.first)) + Math.abs(surplus(overlay, phase, r.second));
            if (off < 1e-7) continue;
            if (r.second >= 0) {
                if (off > 1e-4) return false;
                continue;
            }
            double first = m.values[r.first][a] + m.values[r.first][b] - healthy.values[r.first][0];
            double v = r.measure instanceof Watch.Departure ? Math.abs(first - healthy.values[r.first][0]) : first;
            if (Math.abs(condition(r.watch, v - off) - condition(r.watch, v + off)) > CLOSE) return false;
        }
        return true;
    }

    private double surplus(Overlay overlay, int phase, int channel) {
        if (channel < 0 || channels.get(channel).phase != phase) return 0;
        Channel c = channels.get(channel);
        if (!c.driver.isEmpty()) return overlay.surplusAmperes(c.driver);
        return c.plus < 0 || c.minus < 0 ? 0 : overlay.surplusVolts(c.plus, c.minus);
    }

    /** Probability of a watch's condition where two hypotheses add up. */
    double together(Measured m, int watch, int a, int b) {
        Running r = byWatch.get(watch);
        double[][] sum = new double[channels.size()][];
        for (int c : new int[] {r.first, r.second})
            if (c >= 0) sum[c] = new double[] {m.values[c][a] + m.values[c][b] - healthy.values[c][0]};
        return condition(watch, value(new Measured(sum, null, null), r, 0));
    }

    private Found read(int phase, List<List<Edit>> all, Function<List<Edit>, Solution> solve, double[][] values) {
        Found out = new Found(all.size());
        NetworkSolver.Instant instant = instants.get(phase);
        int power = instant.node(inside("power")).orElseThrow();
        int ground = instant.node(inside("ground")).orElseThrow();
        int[] here = IntStream.range(0, channels.size())
                .filter(c -> channels.get(c).phase == phase)
                .toArray();
        for (int e = 0; e < all.size(); e++) {
            Solution s = solve.apply(all.get(e));
            out.settled[e] = s.settled();
            out.awake[e] = s.at(power) - s.at(ground) >= circuit.controlUnit().minimumSupplyVolts();
            for (int c : here) values[c][e] = read(channels.get(c), s);
        }
        return out;
    }

    private static double read(Channel c, Solution s) {
        if (!c.driver.isEmpty()) return s.driverAmperes(c.driver);
        return c.plus < 0 || c.minus < 0 ? Double.NaN : s.at(c.plus) - s.at(c.minus);
    }

    private double value(Measured m, Running r, int hypothesis) {
        double first = m.values[r.first][hypothesis];
        if (r.measure instanceof Watch.Swing) return Math.abs(first - m.values[r.second][hypothesis]);
        if (r.measure instanceof Watch.Departure)
            return healthy == null ? 0 : Math.abs(first - healthy.values[r.first][0]);
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

    /** Probability of each watch's condition under each of many lists of edits. */
    PointTable table(List<List<Edit>> all, DoubleConsumer progress) {
        return table(all, measure(all, progress));
    }

    private PointTable table(List<List<Edit>> all, Measured m) {
        return table(all, m, running);
    }

    /** The same of those watches alone that look at no other phases than some, which are solved alone. */
    PointTable table(List<List<Edit>> all, Set<String> phases, DoubleConsumer progress) {
        int[] some = phases.stream().mapToInt(phaseNumber::get).toArray();
        List<Running> here = running.stream()
                .filter(r -> phases.containsAll(r.measure.phases()))
                .toList();
        return table(all, measure(all, some, progress), here);
    }

    private PointTable table(List<List<Edit>> all, Measured m, List<Running> watches) {
        PointTable.Builder out = new PointTable.Builder(all, healthyConditions);
        for (int e = 0; e < all.size(); e++) {
            for (Running r : watches)
                if (!m.awake[e]) out.entry(r.watch, 0);
                else if (!same(m, r, e)) out.entry(r.watch, condition(r.watch, value(m, r, e)));
            out.endRow(m.settled[e]);
        }
        return out.build();
    }

    private boolean same(Measured m, Running r, int hypothesis) {
        return Math.abs(m.values[r.first][hypothesis] - healthy.values[r.first][0]) < 1e-9
                && (r.second < 0 || Math.abs(m.values[r.second][hypothesis] - healthy.values[r.second][0]) < 1e-9);
    }

    private double condition(int watch, double value) {
        if (Double.isNaN(value)) return 0;
        Watch.Limit limit = circuit.watches().get(watch).limit();
        double z = (value - limit.value()) / limit.spread();
        return Normal.cumulative(limit.above() ? z : -z);
    }
}
