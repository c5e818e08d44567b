package loomcase.predict;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import loomcase.model.Edit;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Overlay;
import loomcase.solve.Solution;

/**
 * One phase of an operating point: what it reads under each of many faults, and under two of them together.
 *
 * <p>A reading is the phase's channels in order, and behind them the unit's supply in volts. Two faults that may be laid
 * over each other ({@link Overlay}) read the sum of what each does, or that sum and what it lacks; the others are solved
 * jointly. Faults are solved on first use. Many pairs that share one fault of many columns are solved on the network that
 * has this fault already. Not thread-safe.
 */
final class PairPhase {
    /** By how much a condition's probability may be off where two faults are taken to add up. */
    private static final double CLOSE = 1e-5;

    /** Volts about the unit's least supply where a sum does not tell whether it is awake. */
    private static final double NEAR = 1e-3;

    /** From this many columns on a fault's own network is factorised for the pairs that it is in. */
    private static final int HEAVY = 12;

    /** A factorisation costs as much as about this many joint solves. */
    private static final int WORTH_IT = 8;

    private static final int MOST_COLUMNS = 800;

    private final PointPlan plan;
    private final int phase;
    private final NetworkSolver.Instant instant;
    private final List<List<Edit>> faults;
    private final int[] channels;
    private final int[] local;
    private final List<PointPlan.Running> running;
    private final int power;
    private final int ground;
    private final double[] healthy;
    private final Overlay overlay;
    private final int[] number;
    private final double[][] alone;
    private final BitSet[] changed;
    private int added;

    PairPhase(PointPlan plan, int phase, List<List<Edit>> faults) {
        this.plan = plan;
        this.phase = phase;
        this.instant = plan.instants().get(phase);
        this.faults = faults;
        this.channels = IntStream.range(0, plan.channels().size())
                .filter(c -> plan.channels().get(c).phase() == phase)
                .toArray();
        this.local = new int[plan.channels().size()];
        for (int i = 0; i < channels.length; i++) local[channels[i]] = i;
        this.running = plan.running().stream()
                .filter(r -> reads(r.first()) || reads(r.second()))
                .toList();
        this.power = plan.node(phase, "power");
        this.ground = plan.node(phase, "ground");
        this.healthy = read(instant.healthy());
        this.overlay = instant.overlay();
        this.number = new int[faults.size()];
        this.alone = new double[faults.size()][];
        this.changed = new BitSet[faults.size()];
    }

    private boolean reads(int channel) {
        return channel >= 0 && plan.channels().get(channel).phase() == phase;
    }

    /** Watches that read a channel here. */
    List<PointPlan.Running> running() {
        return running;
    }

    private double[] read(Solution s) {
        double[] out = new double[channels.length + 1];
        for (int i = 0; i < channels.length; i++)
            out[i] = PointPlan.read(plan.channels().get(channels[i]), s);
        out[channels.length] = s.at(power) - s.at(ground);
        return out;
    }

    private void need(int fault) {
        if (alone[fault] != null) return;
        number[fault] = added++;
        alone[fault] = read(overlay.add(faults.get(fault)));
        changed[fault] = changed(alone[fault]);
    }

    private BitSet changed(double[] reading) {
        BitSet out = new BitSet();
        for (PointPlan.Running r : running)
            if (differs(reading, r.first()) || differs(reading, r.second())) out.set(r.watch());
        return out;
    }

    private boolean differs(double[] reading, int channel) {
        return reads(channel) && !(Math.abs(reading[local[channel]] - healthy[local[channel]]) < 1e-9);
    }

    /** Adds the watches that read something else here than on a healthy engine. */
    void addChanged(PairTable.Pair p, double[] reading, BitSet out) {
        if (reading.length > 0) {
            out.or(changed(reading));
            return;
        }
        out.or(changed[p.a()]);
        out.or(changed[p.b()]);
    }

    /**
     * What a channel reads under two faults.
     *
     * @param reading what {@link #look} gave, empty when the two add up
     */
    double value(PairTable.Pair p, double[] reading, int channel) {
        return at(p, reading, local[channel]);
    }

    /** True when the unit has its supply under two faults. */
    boolean awake(PairTable.Pair p, double[] reading) {
        return at(p, reading, channels.length) >= plan.minimumSupplyVolts();
    }

    private double at(PairTable.Pair p, double[] reading, int i) {
        return reading.length > 0 ? reading[i] : alone[p.a()][i] + alone[p.b()][i] - healthy[i];
    }

    /** The reading of each pair, empty for those that add up. */
    List<double[]> look(List<PairTable.Pair> pairs) {
        List<double[]> out = new ArrayList<>(pairs.size());
        Map<Integer, List<Integer>> heavy = new HashMap<>();
        for (int k = 0; k < pairs.size(); k++) {
            Optional<double[]> laid = lay(pairs.get(k));
            out.add(laid.orElse(PairTable.SUM));
            if (laid.isEmpty())
                heavy.computeIfAbsent(heavier(pairs.get(k)), h -> new ArrayList<>())
                        .add(k);
        }
        heavy.forEach((fault, numbers) -> solve(fault, numbers, pairs, out));
        instant.forgetBeyond(MOST_COLUMNS);
        return out;
    }

    private Optional<double[]> lay(PairTable.Pair p) {
        need(p.a());
        need(p.b());
        if (!overlay.lay(number[p.a()], number[p.b()])) return Optional.empty();
        double supply = at(p, PairTable.SUM, channels.length);
        if (Math.abs(supply - plan.minimumSupplyVolts()) < 2 * NEAR) return Optional.empty();
        if (!overlay.felt() || holds(p)) return Optional.of(PairTable.SUM);
        double[] reading = read(overlay.laid());
        return Math.abs(reading[channels.length] - plan.minimumSupplyVolts()) < NEAR
                ? Optional.empty()
                : Optional.of(reading);
    }

    /** The one of more columns, for which a network of its own may be worth it. */
    private int heavier(PairTable.Pair p) {
        int a = overlay.columns(number[p.a()]);
        int b = overlay.columns(number[p.b()]);
        if (Math.max(a, b) < HEAVY || !overlay.apart(number[p.a()], number[p.b()])) return -1;
        return a >= b ? p.a() : p.b();
    }

    private void solve(int heavy, List<Integer> numbers, List<PairTable.Pair> pairs, List<double[]> out) {
        Optional<NetworkSolver.Instant> on = heavy < 0 || numbers.size() < WORTH_IT
                ? Optional.empty()
                : overlay.standingOn(number[heavy], instant, faults.get(heavy));
        for (int k : numbers) {
            PairTable.Pair p = pairs.get(k);
            Solution s = on.isPresent()
                    ? on.get().solveActive(faults.get(p.a() == heavy ? p.b() : p.a()))
                    : instant.solveActive(both(p));
            out.set(k, read(s));
        }
    }

    private List<Edit> both(PairTable.Pair p) {
        List<Edit> edits = new ArrayList<>(faults.get(p.a()));
        edits.addAll(faults.get(p.b()));
        return edits;
    }

    /** True when what the sum has too much changes no watch's condition and not the unit's supply. */
    private boolean holds(PairTable.Pair p) {
        if (Math.abs(overlay.surplusVolts(power, ground)) > NEAR) return false;
        for (PointPlan.Running r : running) {
            double off = Math.abs(surplus(r.first())) + Math.abs(surplus(r.second()));
            if (off < 1e-7) continue;
            if (r.second() >= 0) {
                if (off > 1e-4) return false;
                continue;
            }
            double first = value(p, PairTable.SUM, r.first());
            double v = plan.value(r, first, 0);
            if (Math.abs(plan.condition(r.watch(), v - off) - plan.condition(r.watch(), v + off)) > CLOSE) return false;
        }
        return true;
    }

    private double surplus(int channel) {
        if (!reads(channel)) return 0;
        PointPlan.Channel c = plan.channels().get(channel);
        if (!c.driver().isEmpty()) return overlay.surplusAmperes(c.driver());
        return c.plus() < 0 || c.minus() < 0 ? 0 : overlay.surplusVolts(c.plus(), c.minus());
    }
}
