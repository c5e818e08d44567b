package loomcase.meter;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.predict.CodeTable;
import loomcase.predict.Dictionary;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;

/**
 * Entry of this stage: what any test would show under any hypothesis, from the same network that gives the codes.
 *
 * <pre>{@code
 * MeterPrediction meter = new MeterPrediction(circuit, layout, solver, table, Observations.builtIn(), 0.3);
 * Distribution d = meter.predict(new Test.Volts("C-ECT/1", "chassis", Setup.on("key-on", "rest")), subject);
 * double likelihood = d.likelihood(new Outcome.Reading(4.98, Outcome.Unit.VOLTS));
 * }</pre>
 *
 * <p>A fault that comes and goes is present during a reading or a watch with probability ρ, so its distribution is the
 * mixture of the faulty and the healthy one. Setups with their plugs apart are factorised once and kept. Not thread-safe;
 * make one per thread.
 */
public final class MeterPrediction {
    private final NumericPrediction numeric;
    private final WatchPrediction watched;
    private final NoticePrediction noticed;
    private final double presentShare;

    /**
     * @param circuit the circuit
     * @param layout where its wires run
     * @param solver its networks
     * @param table codes that may be shown, with the policy's reading of them
     * @param observations how sure meter, eye and model are
     * @param presentShare ρ, probability that a fault that comes and goes is present at a given moment, 0 to 1
     */
    public MeterPrediction(
            Circuit circuit,
            Layout layout,
            NetworkSolver solver,
            CodeTable table,
            Observations observations,
            double presentShare) {
        this(
                circuit,
                layout,
                solver,
                table,
                observations,
                presentShare,
                Dictionary.NONE,
                op -> new Predictor(circuit, solver, table, List.of(op)));
    }

    /**
     * The same with what was solved before.
     *
     * @param codes predicts codes for the same circuit
     * @param dictionary what earlier runs have solved of the circuit
     */
    public MeterPrediction(
            Circuit circuit,
            Layout layout,
            NetworkSolver solver,
            Predictor codes,
            Observations observations,
            double presentShare,
            Dictionary dictionary) {
        this(circuit, layout, solver, codes.table(), observations, presentShare, dictionary, op -> codes.alone(op)
                .orElseGet(() -> new Predictor(circuit, solver, codes.table(), List.of(op), dictionary)));
    }

    private MeterPrediction(
            Circuit circuit,
            Layout layout,
            NetworkSolver solver,
            CodeTable table,
            Observations observations,
            double presentShare,
            Dictionary dictionary,
            Function<String, Predictor> predicting) {
        if (!(presentShare >= 0 && presentShare <= 1))
            throw new IllegalArgumentException("presentShare is " + presentShare + "; allowed is 0 to 1");
        this.numeric = new NumericPrediction(circuit, solver, observations, dictionary);
        this.watched = new WatchPrediction(circuit, table, observations, predicting);
        this.noticed = new NoticePrediction(circuit, layout, observations);
        this.presentShare = presentShare;
    }

    /** Has the dictionary keep what was predicted, for the next command about the same complaint. */
    public void keep() {
        numeric.keep();
        watched.keep();
    }

    /**
     * What the test would show.
     *
     * @throws loomcase.InputProblem when the circuit has no such point, connector, operating point or phase
     */
    public Distribution predict(Test test, Subject subject) {
        if (test instanceof Test.Numeric n) return mixed(subject, e -> numeric.predict(n, e));
        if (test instanceof Test.Watched w) return mixed(subject, e -> watched.predict(w, e));
        if (test instanceof Test.Wiggle w) return noticed.wiggle(w, subject);
        if (test instanceof Test.Look l) return noticed.look(l, subject);
        if (test instanceof Test.SwapWithNeighbour s) return noticed.swap(s, subject);
        if (test instanceof Test.Gauge g) return noticed.gauge(g, subject);
        throw new IllegalStateException("unknown test " + test);
    }

    private Distribution mixed(Subject subject, Function<List<Edit>, Distribution> by) {
        Distribution present = by.apply(subject.edits());
        if (subject.both().isEmpty()) return mixed(present, subject.comesAndGoes(), List.of(), by);
        Subject first = subject.both().get(0);
        Subject second = subject.both().get(1);
        Distribution out = mixed(present, first.comesAndGoes(), second.edits(), by);
        if (!second.comesAndGoes()) return out;
        return out.mixed(presentShare, mixed(by.apply(first.edits()), first.comesAndGoes(), List.of(), by));
    }

    /** @param away what is left while the fault that may come and go is not there */
    private Distribution mixed(
            Distribution present, boolean comesAndGoes, List<Edit> away, Function<List<Edit>, Distribution> by) {
        return comesAndGoes ? present.mixed(presentShare, by.apply(away)) : present;
    }

    /**
     * Likelihood of what was observed: a density per volt or ohm for a reading, a probability otherwise. A resistance
     * above the meter's full scale counts as over range, whatever the meter used was able to show.
     */
    public double likelihood(Test test, Subject subject, Outcome observed) {
        Outcome seen = observed;
        if (test instanceof Test.Numeric n
                && observed instanceof Outcome.Reading r
                && r.unit() == Outcome.Unit.OHMS
                && r.value() > n.setup().meter().fullScaleOhms()) seen = new Outcome.OverRange();
        return predict(test, subject).likelihood(seen);
    }

    /**
     * Outcomes that each test can tell apart among these hypotheses, in the order of the tests. They are predicted on all cores.
     *
     * @param weights probability of each hypothesis, need not add up to 1
     */
    public List<List<Outcomes.Likely>> outcomes(List<Test> tests, List<Subject> subjects, List<Double> weights) {
        List<List<Distribution>> readings = tests.parallelStream()
                .map(t -> t instanceof Test.Numeric ? all(t, subjects) : List.<Distribution>of())
                .toList();
        prepareWatched(tests, subjects);
        double resolution = noticed.observations().get("meter.resolution");
        List<List<Outcomes.Likely>> out = new ArrayList<>();
        for (int i = 0; i < tests.size(); i++) {
            Test t = tests.get(i);
            out.add(Outcomes.of(t instanceof Test.Numeric ? readings.get(i) : all(t, subjects), weights, resolution));
        }
        return out;
    }

    private void prepareWatched(List<Test> tests, List<Subject> subjects) {
        watched.prepare(
                tests.stream()
                        .filter(Test.Watched.class::isInstance)
                        .map(Test.Watched.class::cast)
                        .toList(),
                subjects.stream().map(Subject::edits).toList());
    }

    /** The same for one test. */
    public List<Outcomes.Likely> outcomes(Test test, List<Subject> subjects, List<Double> weights) {
        return outcomes(List.of(test), subjects, weights).get(0);
    }

    /** What the test would show under each; hypotheses that do the same to the network are asked about once. */
    private List<Distribution> all(Test test, List<Subject> subjects) {
        Map<List<Edit>, Distribution> known = new HashMap<>();
        if (test instanceof Test.Numeric n)
            return mixed(subjects, e -> known.computeIfAbsent(e, x -> numeric.predict(n, x)));
        if (test instanceof Test.Watched w)
            return mixed(subjects, e -> known.computeIfAbsent(e, x -> watched.predict(w, x)));
        return subjects.stream().map(s -> predict(test, s)).toList();
    }

    private List<Distribution> mixed(List<Subject> subjects, Function<List<Edit>, Distribution> by) {
        return subjects.stream().map(s -> mixed(s, by)).toList();
    }
}
