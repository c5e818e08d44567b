package loomcase.predict;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.DoubleConsumer;
import java.util.stream.IntStream;
import loomcase.j1939.Code;
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
    /** Joint predictions kept; one takes about a kilobyte. */
    private static final int MOST_JOINT = 20_000;

    private final Circuit circuit;
    private final CodeTable table;
    private final List<PointConditions> points;
    private final CodeSums sums;
    private final Map<List<Edit>, Prediction> known = new HashMap<>();

    /** Predictors for some codes alone, by the phases they need, and by the codes. */
    private final Map<List<Set<String>>, Predictor> narrowed = new HashMap<>();

    private final Map<List<Code>, Predictor> byCodes = new HashMap<>();
    private int kept;
    private List<List<Edit>> singlesOf = List.of();
    private List<Prediction> singles = List.of();

    /**
     * @param circuit the circuit
     * @param solver its networks
     * @param table codes that may be shown
     * @param operatingPoints ids of the operating points at which codes were looked for
     */
    public Predictor(Circuit circuit, NetworkSolver solver, CodeTable table, List<String> operatingPoints) {
        this(circuit, solver, table, operatingPoints, Dictionary.NONE);
    }

    /** @param dictionary what was solved before; networks are then made only when something else is asked */
    public Predictor(
            Circuit circuit,
            NetworkSolver solver,
            CodeTable table,
            List<String> operatingPoints,
            Dictionary dictionary) {
        this(
                circuit,
                table,
                operatingPoints.stream()
                        .map(id -> new PointConditions(
                                circuit, solver, circuit.operatingPoints().get(id), dictionary))
                        .toList());
    }

    private Predictor(Circuit circuit, CodeTable table, List<PointConditions> points) {
        this.table = table;
        this.points = points;
        this.circuit = circuit;
        this.sums = new CodeSums(
                table, points.stream().map(PointConditions::healthy).toList());
    }

    /** The same at one of its operating points alone, with what is solved there shared; empty when it is none of them. */
    public Optional<Predictor> alone(String operatingPoint) {
        return points.stream()
                .filter(p -> p.id().equals(operatingPoint))
                .findFirst()
                .map(p -> new Predictor(circuit, table, List.of(p)));
    }

    /**
     * The same for some codes alone, which solves only the phases that these need; what it predicts of other codes means
     * nothing. Codes that need the same phases share one, with what it has predicted.
     */
    public Predictor forCodes(List<Code> some) {
        int predicted = narrowed.values().stream().mapToInt(p -> p.known.size()).sum();
        if (predicted >= MOST_JOINT) narrowed.values().forEach(Predictor::forget);
        return byCodes.computeIfAbsent(some, this::narrowed);
    }

    private Predictor narrowed(List<Code> some) {
        BitSet watches = table.behind(some);
        List<Set<String>> phases = points.stream().map(p -> p.phases(watches)).toList();
        return narrowed.computeIfAbsent(
                phases,
                k -> new Predictor(
                        circuit,
                        table,
                        IntStream.range(0, points.size())
                                .mapToObj(i -> points.get(i).narrowed(phases.get(i)))
                                .toList()));
    }

    /** Has the dictionary keep what was solved beside the single faults, for the next command about the same complaint. */
    public void keep() {
        points.forEach(PointConditions::keep);
        narrowed.values().forEach(Predictor::keep);
    }

    /**
     * Makes the networks of every phase ready, which the first prediction that is in no dictionary does otherwise. May run
     * beside other uses of this predictor.
     */
    public void makeNetworks() {
        points.forEach(PointConditions::plan);
    }

    /** The codes that may be shown. */
    public CodeTable table() {
        return table;
    }

    /** Probability of each code on a healthy engine, by code number. */
    public double[] healthy() {
        return sums.healthy().clone();
    }

    /** True when some watch that can show this code runs at an operating point looked at. */
    public boolean[] lookedFor() {
        boolean[] out = new boolean[table.codes().size()];
        for (PointConditions p : points) for (int w : p.running()) for (int c : table.shownBy(w)) out[c] = true;
        return out;
    }

    /** The codes that these edits would show. */
    public Prediction predict(List<Edit> edits) {
        Prediction p = known.get(edits);
        if (p == null) {
            p = compute(List.of(edits), PointConditions::table, share -> {}).get(0);
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
        prepare(all, PointConditions::table, progress);
    }

    /** The same of many that no other command about the complaint will ask for, so that they are not kept for it. */
    public void sweep(Collection<List<Edit>> all) {
        prepare(all, PointConditions::sweep, share -> {});
    }

    private void prepare(Collection<List<Edit>> all, Source source, DoubleConsumer progress) {
        forgetMuch();
        List<List<Edit>> unknown = new LinkedHashSet<>(all)
                .stream().filter(edits -> !known.containsKey(edits)).toList();
        if (!unknown.isEmpty()) compute(unknown, source, progress);
    }

    /**
     * Predicts every single fault, from the dictionary where it has them.
     *
     * @param all lists of edits, each once, in the order in which the circuit gives them
     * @param progress told the share done, 0 to 1, from several threads
     * @return their predictions, in the same order
     */
    public List<Prediction> singles(List<List<Edit>> all, DoubleConsumer progress) {
        if (singlesOf != all) {
            singles = compute(all, PointConditions::lookUp, progress);
            singlesOf = all;
            kept = known.size();
        }
        return singles;
    }

    /**
     * Solves many faults one by one for {@link PairTable}: what any two of them may show together.
     *
     * @param codes which are looked at; of others only what shows in the quietest phase
     * @param both the edits of two of them together, by their numbers
     */
    public PairTable pairs(
            List<List<Edit>> all, Collection<Code> codes, BiFunction<Integer, Integer, List<Edit>> both) {
        BitSet watches = table.behind(codes);
        return new PairTable(
                points.stream()
                        .parallel()
                        .map(p -> p.plan().pairs(all, watches, both))
                        .toList(),
                () -> new CodeSums(
                        table, points.stream().map(PointConditions::healthy).toList()));
    }

    private interface Source {
        PointTable table(PointConditions point, List<List<Edit>> all, DoubleConsumer progress);
    }

    /** Drops what was predicted beside the single faults once it is much, so that memory does not grow with every case. */
    private void forgetMuch() {
        if (known.size() >= kept + MOST_JOINT) forget();
    }

    /** Drops what was predicted beside the single faults, so that asking again solves again. */
    public void forget() {
        narrowed.clear();
        byCodes.clear();
        known.clear();
        for (int i = 0; i < singlesOf.size(); i++) known.put(singlesOf.get(i), singles.get(i));
    }

    private List<Prediction> compute(List<List<Edit>> all, Source source, DoubleConsumer progress) {
        double[] done = new double[points.size()];
        List<PointTable> tables = IntStream.range(0, points.size())
                .parallel()
                .mapToObj(i -> source.table(points.get(i), all, share -> progress.accept(together(done, i, share))))
                .toList();
        List<Prediction> out = new ArrayList<>();
        for (int e = 0; e < all.size(); e++) {
            int row = e;
            Prediction p = sums.prediction(tables.stream().map(t -> t.row(row)).toList());
            known.put(all.get(e), p);
            out.add(p);
        }
        return out;
    }

    /** The share of the whole that is done, 0 to 1, when one point has got so far. */
    private static double together(double[] done, int point, double share) {
        synchronized (done) {
            done[point] = share;
            return Arrays.stream(done).sum() / done.length;
        }
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
        for (PointConditions point : points) {
            PointPlan plan = point.plan();
            PointSolver.Measured m = plan.measure(edits);
            for (int w : point.running())
                if (Arrays.stream(table.shownBy(w)).anyMatch(c -> c == code))
                    out.add(new Reading(
                            circuit.watches().get(w), point.id(), plan.value(m, w, 0), plan.healthyValue(w)));
        }
        return out;
    }
}
