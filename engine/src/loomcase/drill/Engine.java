package loomcase.drill;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeSet;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.j1939.Code;
import loomcase.j1939.Dtc;
import loomcase.journal.Fact;
import loomcase.meter.Distribution;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Observations;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.meter.Subject;
import loomcase.meter.Test;
import loomcase.meter.TypicalFindings;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Finding;
import loomcase.model.OperatingPoint;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;

/**
 * The engine of a drill: what a real one with these faults, and a real meter, would answer.
 *
 * <p>Readings are the network's, solved with the faults that are there at that moment and the meter's own load, plus a
 * normal error of the meter as {@code rules/observations.csv} states it. Every code has a fixed draw in each drill, so the
 * same unit always decides the same way at a soft threshold. What eye and hand notice is drawn from the same shares that
 * planning reckons with; a look answers the same each time, a wiggle anew. Not thread-safe.
 */
public final class Engine {
    private static final String OPERATING_POINTS = "operating point '";

    private final Circuit circuit;
    private final Dice dice;
    private final Map<String, Hypothesis> known;
    private final Observations observations = Observations.builtIn();
    private final MeterPrediction meter;
    private final NetworkSolver solver;
    private final CodeTable table;
    private final Map<String, Predictor> predictors;
    private final List<Planted> planted;
    private final double presentShare;
    private final double lastingMean;
    private final double passingMean;
    private final double hotFrom;

    /**
     * @throws InputProblem when the circuit has no such fault
     */
    public Engine(Bench bench, Truth truth) {
        this.circuit = bench.circuit();
        this.dice = new Dice(truth.seed());
        this.known = new LinkedHashMap<>();
        for (Hypothesis h : new FaultGenerator(circuit, bench.layout(), bench.priors()).generate())
            known.put(h.id(), h);
        this.solver = new NetworkSolver(circuit, bench.layout());
        this.predictors = new HashMap<>();
        this.presentShare = bench.priors().get("observe.intermittent-active-share");
        this.lastingMean = bench.priors().get("observe.count-mean-permanent");
        this.passingMean = bench.priors().get("observe.count-mean-intermittent");
        this.table = new CodeTable(
                circuit.watches(), bench.policy(), List.of(), bench.priors().get("observe.missed-code"));
        this.meter = new MeterPrediction(circuit, bench.layout(), solver, table, observations, presentShare);
        double coolest = wires().min().orElse(0);
        this.hotFrom = coolest + (wires().max().orElse(0) - coolest) / 2;
        this.planted = planted(truth);
    }

    private Engine(Engine other, Truth truth) {
        this.circuit = other.circuit;
        this.dice = new Dice(truth.seed());
        this.known = other.known;
        this.solver = other.solver;
        this.predictors = other.predictors;
        this.presentShare = other.presentShare;
        this.lastingMean = other.lastingMean;
        this.passingMean = other.passingMean;
        this.table = other.table;
        this.meter = other.meter;
        this.hotFrom = other.hotFrom;
        this.planted = planted(truth);
    }

    /** An engine of the same circuit with other faults, which shares what was solved; use one of them at a time. */
    public Engine with(Truth truth) {
        return new Engine(this, truth);
    }

    private List<Planted> planted(Truth truth) {
        return truth.faults().stream()
                .map(f -> Planted.of(hypothesis(f.hypothesis()), f.hits(), f.showing()))
                .toList();
    }

    private java.util.stream.DoubleStream wires() {
        return circuit.operatingPoints().values().stream().mapToDouble(OperatingPoint::wireCelsius);
    }

    private Hypothesis hypothesis(String id) {
        Hypothesis h = known.get(id);
        if (h == null) throw new InputProblem("circuit " + circuit.id() + " has no fault '" + id + "'");
        return h;
    }

    /** The circuit. */
    public Circuit circuit() {
        return circuit;
    }

    /** The faults planted at the start. */
    public List<Planted> planted() {
        return planted;
    }

    /** A fault that a harmful test made; empty when the circuit has no such hypothesis. */
    Optional<Planted> made(String hypothesis) {
        return Optional.ofNullable(known.get(hypothesis))
                .map(h -> Planted.of(h, List.of(), h.comesAndGoes() ? Showing.AT_RANDOM : Showing.ALWAYS));
    }

    /** Degrees Celsius of the wires from which a fault that shows hot is there. */
    double hotFromCelsius() {
        return hotFrom;
    }

    private List<Edit> there(List<Planted> faults, Setup setup, int turn) {
        OptionalDouble celsius = setup.wireCelsius();
        if (celsius.isEmpty() && setup.power() instanceof Setup.KeyOn on)
            celsius = OptionalDouble.of(point(on.operatingPoint()).wireCelsius());
        List<Edit> out = new ArrayList<>();
        for (Planted p : faults) if (isThere(p, celsius.orElse(hotFrom - 1), turn)) out.addAll(p.edits());
        return out;
    }

    private boolean isThere(Planted p, double celsius, int turn) {
        return switch (p.showing()) {
            case ALWAYS -> true;
            case HOT -> celsius >= hotFrom;
            case MOVED -> false;
            case AT_RANDOM -> dice.uniform("there " + turn + " " + p.id()) < presentShare;
        };
    }

    private OperatingPoint point(String id) {
        OperatingPoint op = circuit.operatingPoints().get(id);
        if (op == null)
            throw new InputProblem(OPERATING_POINTS + id + "' is not one of "
                    + circuit.operatingPoints().keySet());
        return op;
    }

    private static Subject lasting(List<Edit> edits) {
        return new Subject("planted", List.of(), false, edits);
    }

    /** What the network gives between two points, before the meter's own error: volts or ohms, infinite for over range. */
    double exact(Test.Numeric test, List<Planted> faults, int turn) {
        Distribution d = meter.predict(test, lasting(there(faults, test.setup(), turn)));
        double mean = d.mean();
        return Double.isNaN(mean) ? Double.POSITIVE_INFINITY : mean;
    }

    /**
     * Any test, as one without the journal asks for it.
     *
     * @param faults faults in the engine now
     * @param turn number of the action, on which the random numbers hang
     */
    public Outcome answer(Test test, List<Planted> faults, int turn) {
        if (test instanceof Test.Numeric n) return number(n, faults, turn, true);
        if (test instanceof Test.Watched w) {
            List<Code> all = active(w.setup(), faults, turn);
            return new Outcome.CodesActive(
                    all.stream().filter(w.codes()::contains).toList());
        }
        if (test instanceof Test.Gauge g) return condition(g, faults);
        if (test instanceof Test.Look l) return new Outcome.Seen(finding(l, faults));
        boolean yes;
        if (test instanceof Test.Wiggle w) yes = responds(w, faults, Fact.Action.WIGGLE, turn);
        else yes = noticed(test, faults);
        return new Outcome.Noticed(Signs.of(test, yes));
    }

    /** A reading as the meter shows it. */
    Outcome number(Test.Numeric test, List<Planted> faults, int turn, boolean leadsZeroed) {
        double exact = exact(test, faults, turn);
        boolean ohms = test instanceof Test.Ohms || test instanceof Test.Isolation;
        if (Double.isInfinite(exact)) return new Outcome.OverRange();
        if (ohms && !leadsZeroed) exact += test.setup().meter().leadOhms();
        double error = sigma(test, exact) * dice.normal("meter " + turn + " " + test.id());
        double shown = ohms ? Math.max(0, exact + error) : exact + error;
        if (ohms && shown > test.setup().meter().fullScaleOhms()) return new Outcome.OverRange();
        return new Outcome.Reading(shown, ohms ? Outcome.Unit.OHMS : Outcome.Unit.VOLTS);
    }

    /** Standard deviation of the meter alone, volts or ohms. */
    double sigma(Test.Numeric test, double value) {
        boolean ohms = test instanceof Test.Ohms || test instanceof Test.Isolation;
        String quantity = ohms ? "ohms" : "volts";
        double absolute = observations.get("meter." + (test instanceof Test.Drop ? "drop" : quantity) + ".absolute");
        return Math.hypot(absolute, observations.get("meter." + quantity + ".relative") * Math.abs(value));
    }

    /** Codes active with the key on in this setup; none with the key off. */
    List<Code> active(Setup setup, List<Planted> faults, int turn) {
        if (!(setup.power() instanceof Setup.KeyOn on)) return List.of();
        point(on.operatingPoint());
        return shown(on.operatingPoint(), setup.over(circuit, there(faults, setup, turn)));
    }

    private List<Code> shown(String operatingPoint, List<Edit> edits) {
        Predictor predictor =
                predictors.computeIfAbsent(operatingPoint, op -> new Predictor(circuit, solver, table, List.of(op)));
        Prediction p = predictor.predict(List.copyOf(edits));
        double[] healthy = predictor.healthy();
        List<Code> out = new ArrayList<>();
        for (int c = 0; c < healthy.length; c++) {
            Code code = table.codes().get(c);
            if (p.of(c, healthy[c]) > dice.uniform("code " + code)) out.add(code);
        }
        return out;
    }

    /** Every code that could be shown; for strays. */
    List<Code> codes() {
        return table.codes();
    }

    /** True when moving or heating a place makes the value jump or a code come and go. */
    boolean responds(Test.Wiggle test, List<Planted> faults, Fact.Action how, int turn) {
        double none = 1;
        List<Subject> subjects = new ArrayList<>(List.of(Subject.NOTHING));
        for (Planted p : faults) {
            boolean fits = how == Fact.Action.WIGGLE
                    ? p.showing() != Showing.HOT
                    : how == Fact.Action.HEAT && p.showing() != Showing.MOVED;
            boolean goes = p.showing() != Showing.ALWAYS && fits;
            subjects.add(new Subject(p.family(), p.places(), goes, p.edits()));
        }
        for (Subject s : subjects)
            none *= 1 - meter.predict(test, s).probability(new Outcome.Noticed(Outcome.Sign.RESPONDS));
        return dice.uniform("moved " + turn + " " + how + " " + test.id()) > none;
    }

    /** What a swap shows; the same each time. */
    boolean noticed(Test test, List<Planted> faults) {
        Outcome.Noticed yes = new Outcome.Noticed(Signs.of(test, true));
        double none = 1 - meter.predict(test, Subject.NOTHING).probability(yes);
        for (Planted p : faults)
            none = Math.min(none, 1 - meter.predict(test, p.subject()).probability(yes));
        return dice.uniform("noticed " + test.id() + " "
                        + faults.stream().map(Planted::id).toList())
                > none;
    }

    /** What a gauge shows; the same each time. */
    Outcome.Condition condition(Test.Gauge test, List<Planted> faults) {
        Subject there = faults.stream()
                .map(Planted::subject)
                .filter(s -> meter.predict(test, s).probability(Outcome.Condition.HEALTHY) < 0.5)
                .findFirst()
                .orElse(Subject.NOTHING);
        double left = dice.uniform(
                "gauged " + test.id() + " " + faults.stream().map(Planted::id).toList());
        for (Distribution.Part part : meter.predict(test, there).parts()) {
            left -= part.weight();
            if (left < 0 && part instanceof Distribution.Atom a && a.outcome() instanceof Outcome.Condition c) return c;
        }
        return Outcome.Condition.HEALTHY;
    }

    /**
     * What somebody who looks at a place writes down; the same each time. Of a fault the most usual: damage that spreads, such
     * as a melted tube, would be another fault than the one planted.
     */
    Finding finding(Test.Look look, List<Planted> faults) {
        String all = faults.stream().map(Planted::id).toList().toString();
        String family = Subject.NOTHING.family();
        Distribution best = meter.predict(look, Subject.NOTHING);
        for (Planted p : faults) {
            Distribution d = meter.predict(look, p.subject());
            if (d.likelihood(Outcome.Seen.CLEAN) >= best.likelihood(Outcome.Seen.CLEAN)) continue;
            best = d;
            family = p.family();
        }
        double clean = best.likelihood(Outcome.Seen.CLEAN);
        double drawn = dice.uniform("noticed " + look.id() + " " + all);
        if (drawn < clean) return Finding.CLEAN;
        List<Finding> usual = TypicalFindings.of(family);
        if (drawn < 1 - best.outlier() && !usual.isEmpty()) return usual.get(0);
        List<Finding> old = TypicalFindings.oldMarks(look.place());
        return old.get((int) (dice.uniform("mark " + look.id() + " " + all) * old.size()));
    }

    /**
     * The engine run at operating points and its codes read.
     *
     * @param before codes in memory, from the reading before; none after clearing
     * @return what the reader shows now: active codes, and those in memory that are not
     */
    List<Fact.ReadCode> read(List<String> points, List<Fact.ReadCode> before, List<Planted> faults, int turn) {
        TreeSet<Code> active = new TreeSet<>();
        for (String p : points) active.addAll(active(Setup.on(p, ""), faults, turn * 100 + points.indexOf(p)));
        Map<Code, Fact.ReadCode> out = new java.util.TreeMap<>();
        for (Fact.ReadCode c : before) out.put(c.code(), new Fact.ReadCode(c.code(), c.count(), Fact.State.STORED));
        for (Code c : active) {
            Fact.ReadCode old = out.get(c);
            boolean stayed = before.stream().anyMatch(b -> b.code().equals(c) && b.state() == Fact.State.ACTIVE);
            int count = old == null ? 1 : old.count().orElse(1) + (stayed ? 0 : 1);
            out.put(c, new Fact.ReadCode(c, OptionalInt.of(Math.min(Dtc.MAX_COUNT, count)), Fact.State.ACTIVE));
        }
        return List.copyOf(out.values());
    }

    /** The codes that stood in the unit when the engine came in: lasting ones active, those of passing faults stored. */
    List<Fact.ReadCode> first(List<String> points, List<Truth.Stray> strays) {
        TreeSet<Code> active = new TreeSet<>();
        TreeSet<Code> ever = new TreeSet<>();
        List<Edit> lasting = new ArrayList<>();
        List<Edit> all = new ArrayList<>();
        for (Planted p : planted) {
            if (p.showing() == Showing.ALWAYS) lasting.addAll(p.edits());
            all.addAll(p.edits());
        }
        for (String p : points) {
            active.addAll(shown(p, lasting));
            ever.addAll(shown(p, all));
        }
        ever.addAll(active);
        List<Fact.ReadCode> out = new ArrayList<>();
        for (Code c : ever) {
            boolean now = active.contains(c);
            int count = dice.count("count " + c, now ? lastingMean : passingMean, Dtc.MAX_COUNT);
            out.add(new Fact.ReadCode(c, OptionalInt.of(count), now ? Fact.State.ACTIVE : Fact.State.STORED));
        }
        for (Truth.Stray s : strays)
            if (!ever.contains(s.code()))
                out.add(new Fact.ReadCode(s.code(), OptionalInt.of(s.count()), Fact.State.STORED));
        return List.copyOf(out);
    }
}
