package loomcase.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeSet;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.stat.inference.KolmogorovSmirnovTest;
import org.junit.jupiter.api.Test;

/** The study itself: what it draws, what its control unit shows, and that its scores are those of the literature. */
class StudyTest {
    private static final Bench BENCH = new Casework(Shop.BUILT_IN).circuit(Path.of("circuits/teaching.json"));
    private static final Circuit CIRCUIT = BENCH.circuit();
    private static final Layout LAYOUT = BENCH.layout();
    private static final PolicyOutcome POLICY = BENCH.policy();
    private static final List<Hypothesis> ALL = new FaultGenerator(CIRCUIT, LAYOUT, Priors.builtIn()).generate();
    private static final World EXACT = new World(0, 0, 0, 0, 0);

    private static Study.Outcome run(long seed, int ranked, int worked) {
        return BENCH.solving(ranker -> new Study(BENCH, ranker, List.of("key-on"), World.USUAL, seed)
                .run(Planted.Kind.SINGLE, new Study.Size(ranked, worked), share -> {}));
    }

    /** Kolmogorov and Smirnov against the normal distribution of Apache Commons Math. */
    @Test
    void numbersAreNormal() {
        SplittableRandom random = new SplittableRandom(5);
        double[] drawn = new double[5000];
        for (int i = 0; i < drawn.length; i++) drawn[i] = Numbers.normal(random);
        double p = new KolmogorovSmirnovTest().kolmogorovSmirnovTest(new NormalDistribution(0, 1), drawn);
        assertTrue(p > 0.01, "p " + p);
    }

    @Test
    void countsHaveTheMeanAskedFor() {
        SplittableRandom random = new SplittableRandom(6);
        double sum = 0;
        for (int i = 0; i < 20_000; i++) sum += Numbers.geometric(4, random);
        assertEquals(4, sum / 20_000, 0.1);
    }

    @Test
    void sameSeedSameCases() {
        CaseDraw draw = new CaseDraw(CIRCUIT, ALL, World.USUAL, h -> true, 3);
        for (Planted.Kind kind : Planted.Kind.values())
            for (int i = 0; i < 20; i++) {
                Planted first = draw.draw(kind, new SplittableRandom(i));
                assertEquals(
                        first,
                        new CaseDraw(CIRCUIT, ALL, World.USUAL, h -> true, 3).draw(kind, new SplittableRandom(i)));
            }
    }

    @Test
    void placesAreDrawnAlikeWhenPriorsAreLeftOut() {
        CaseDraw draw = new CaseDraw(CIRCUIT, ALL, EXACT, h -> true, 1);
        SplittableRandom random = new SplittableRandom(9);
        Map<Object, Integer> count = new java.util.TreeMap<>();
        int n = 20_000;
        for (int i = 0; i < n; i++)
            count.merge(
                    draw.draw(Planted.Kind.UNIFORM, random)
                            .truth()
                            .get(0)
                            .place()
                            .toString(),
                    1,
                    Integer::sum);
        double expected = n / (double) count.size();
        count.forEach((place, times) ->
                assertEquals(expected, times, 6 * Math.sqrt(expected), place + " of " + count.size()));
    }

    /** In an exact world the codes of a fault are those the predictor is sure of; half-sure ones may go either way. */
    @Test
    void exactControlUnitShowsWhatIsPredicted() {
        CodeTable table = new CodeTable(CIRCUIT.watches(), POLICY, List.of(), 0);
        Predictor predictor = new Predictor(CIRCUIT, new NetworkSolver(CIRCUIT, LAYOUT), table, List.of("key-on"));
        ControlUnitLogic unit = new ControlUnitLogic(CIRCUIT, POLICY, new NetworkSolver(CIRCUIT, LAYOUT), EXACT);
        Truth truth = new Truth.Own(new NetworkSolver(CIRCUIT, LAYOUT));
        OperatingPoint at = CIRCUIT.operatingPoints().get("key-on");
        int checked = 0;
        for (Hypothesis h : ALL) {
            if (!(h.cause() instanceof Hypothesis.Fixed f)) continue;
            Optional<Map<String, Solution>> solved =
                    truth.solve(at, List.of(f.edits())).get(0);
            if (solved.isEmpty()) continue;
            TreeSet<Code> shown =
                    unit.shown(at, solved.get(), new double[CIRCUIT.watches().size()], new SplittableRandom(1));
            Prediction p = predictor.predict(f.edits());
            for (int c = 0; c < table.codes().size(); c++) {
                double q = p.of(c, predictor.healthy()[c]);
                if (q > 1e-6 && q < 0.999) continue;
                assertEquals(
                        q > 0.5,
                        shown.contains(table.codes().get(c)),
                        h.id() + " " + table.codes().get(c));
                checked++;
            }
        }
        assertTrue(checked > 1000, "checked " + checked);
    }

    /** Voltages from ngspice (independent simulator) and from our solver let the same control unit show the same codes. */
    @Test
    void bothTruthsShowTheSameCodes() {
        NetworkSolver solver = new NetworkSolver(CIRCUIT, LAYOUT);
        CaseDraw draw = new CaseDraw(CIRCUIT, ALL, World.USUAL, h -> true, 11);
        ControlUnitLogic unit = new ControlUnitLogic(CIRCUIT, POLICY, solver, World.USUAL);
        OperatingPoint at = CIRCUIT.operatingPoints().get("key-on");
        List<List<Edit>> edits = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            Planted p = draw.draw(Planted.Kind.SINGLE, new SplittableRandom(i));
            edits.add(draw.edits(p, p.faults(), at));
        }
        var ours = new Truth.Own(solver).solve(at, edits);
        var theirs = new Truth.Independent(solver).solve(at, edits);
        int compared = 0;
        for (int i = 0; i < edits.size(); i++) {
            if (ours.get(i).isEmpty() || theirs.get(i).isEmpty()) continue;
            double[] limits = unit.limits(new SplittableRandom(i));
            assertEquals(
                    unit.shown(at, ours.get(i).get(), limits, new SplittableRandom(i)),
                    unit.shown(at, theirs.get(i).get(), limits, new SplittableRandom(i)),
                    "case " + i);
            compared++;
        }
        assertTrue(compared >= 11, "compared " + compared);
    }

    /** The expected calibration error of a worked example: 2 of 4 right at 0.75, 4 of 4 right at 0.95. */
    @Test
    void calibrationErrorOfAWorkedExample() {
        List<Score> scores = new ArrayList<>();
        for (int i = 0; i < 4; i++) scores.add(new Score(1, 1, 0.75, i < 2, 0.5, 0, false));
        for (int i = 0; i < 4; i++) scores.add(new Score(1, 1, 0.95, true, 0.5, 0, false));
        assertEquals(0.5 * 0.25 + 0.5 * 0.05, Score.calibrationError(scores), 1e-12);
    }

    @Test
    void aWholeStudyOfASmallHarnessIsTheSameTwice() {
        Study.Outcome first = run(4, 20, 4);
        assertEquals(first, run(4, 20, 4));
        assertEquals(20, first.scores().size());
        assertTrue(first.simulated() >= 5, "by ngspice: " + first.simulated());
        assertEquals(4, first.repair().orElseThrow().cases());
    }
}
