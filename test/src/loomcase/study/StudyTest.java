package loomcase.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.j1939.Code;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Observations;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.meter.Subject;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;
import loomcase.model.PlaceId;
import loomcase.policy.PolicyOutcome;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.rank.Ranking;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;
import loomcase.verdict.HarnessNeed;
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
    private static final Sizes SIZES = new Sizes(CIRCUIT, 0.4);
    private static final World EXACT = new World(0, 0, 0, 0, 0, 0);

    /** Workers share nothing, as on the command line. */
    private static List<Study.Outcome> run(int workers, List<Planted.Kind> kinds, Study.Size size) {
        List<Bench> benches = Stream.generate(
                        () -> new Casework(Shop.BUILT_IN).circuit(Path.of("circuits/teaching.json")))
                .limit(workers)
                .toList();
        return new Study(benches, List.of("key-on"), World.USUAL, 4).run(kinds, size, share -> {});
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
                Planted first = draw.draw(kind, new SplittableRandom(i), new SplittableRandom(~i));
                assertEquals(
                        first,
                        new CaseDraw(CIRCUIT, ALL, World.USUAL, h -> true, 3)
                                .draw(kind, new SplittableRandom(i), new SplittableRandom(~i)));
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
                    draw.draw(Planted.Kind.UNIFORM, random, random)
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

    /** Two independent faults come together as often as the product of their probabilities, whichever is drawn first. */
    @Test
    void faultsComeTogetherAsOftenAsIndependentOnesDo() {
        List<Hypothesis> there = ALL.stream()
                .filter(h -> !h.comesAndGoes() && !h.id().equals(FaultGenerator.NOTHING))
                .toList();
        double all = ALL.stream()
                .filter(h -> !h.id().equals(FaultGenerator.NOTHING))
                .mapToDouble(Hypothesis::probability)
                .sum();
        double pairs = 0;
        for (int i = 0; i < there.size(); i++)
            for (int j = 0; j < i; j++)
                if (!there.get(i).place().equals(there.get(j).place()))
                    pairs += there.get(i).probability() * there.get(j).probability();
        CaseDraw draw = new CaseDraw(CIRCUIT, ALL, EXACT, h -> true, 1);
        SplittableRandom random = new SplittableRandom(20261128);
        int n = 40_000;
        int two = 0;
        for (int i = 0; i < n; i++)
            if (draw.draw(Planted.Kind.MIXED, random, random).truth().size() == 2) two++;
        double expected = n * pairs / all;
        assertTrue(expected > 300, "only " + expected + " expected");
        assertEquals(expected, two, 4 * Math.sqrt(expected), "pairs of " + n);
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
            Planted p = draw.draw(Planted.Kind.SINGLE, new SplittableRandom(i), new SplittableRandom(~i));
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

    @Test
    void aWholeStudyIsTheSameForAnyNumberOfWorkers() {
        List<Planted.Kind> kinds = List.of(Planted.Kind.values());
        assertEquals(run(1, kinds, new Study.Size(6, 0)), run(3, kinds, new Study.Size(6, 0)));
    }

    @Test
    void aWholeStudyOfASmallHarnessIsTheSameTwice() {
        Study.Size size = new Study.Size(30, 4);
        Study.Outcome first = run(1, List.of(Planted.Kind.SINGLE), size).get(0);
        assertEquals(first, run(2, List.of(Planted.Kind.SINGLE), size).get(0));
        assertEquals(30, first.scores().size());
        assertTrue(first.simulated() >= 5, "by ngspice: " + first.simulated());
        assertEquals(4, first.repair().orElseThrow().cases());
    }

    private static Hypothesis hypothesis(String place) {
        PlaceId at = new PlaceId(PlaceId.Kind.WIRE, place);
        return new Hypothesis(place, "wire.open", List.of(at), place, new Hypothesis.Fixed(List.of()), 0.5, false);
    }

    private static Ranking ranking(Map<Hypothesis, Double> stated) {
        List<Ranking.Suspect> out = new ArrayList<>();
        stated.forEach((h, p) -> out.add(new Ranking.Suspect(
                out.size() + 1,
                p,
                List.of(new Ranking.PlaceShare(h.place(), p)),
                h.words(),
                List.of(new Ranking.Member(
                        h.id(),
                        h.words(),
                        h.place(),
                        p,
                        List.of(),
                        new Subject(h.family(), h.places(), false, List.of()))),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                Set.of())));
        return new Ranking(List.of(), out, List.of(), 0, 0, 0, List.of(), out.size());
    }

    /**
     * Ten forecasts of rain and what came, with score 0.19: the example of G. W. Brier, "Verification of forecasts expressed
     * in terms of probability", Monthly Weather Review 78 (1950) 1 (forecasts from memory, the sum worked by hand: 0.98 +
     * 0.02 + 0.08 + 0.72 + 0.08 + 0.02 over ten).
     */
    @Test
    void brierScoreOfTheExampleOfItsPaper() {
        Hypothesis rain = hypothesis("rain");
        Hypothesis dry = hypothesis("dry");
        double[] stated = {0.7, 0.9, 0.8, 0.4, 0.2, 0, 0, 0, 0, 0.1};
        boolean[] came = {false, true, true, true, false, false, false, false, false, false};
        double sum = 0;
        for (int i = 0; i < 10; i++) {
            Map<Hypothesis, Double> forecast = new java.util.LinkedHashMap<>();
            forecast.put(rain, stated[i]);
            forecast.put(dry, 1 - stated[i]);
            sum += Score.of(ranking(forecast), List.of(came[i] ? rain : dry), SIZES::same)
                    .brier();
        }
        assertEquals(0.19, sum / 10, 1e-12);
    }

    /** A truth that no suspect names: the score of the stated places and 1 for the true one; log loss at its floor. */
    @Test
    void aTruthThatIsNotListedCostsMost() {
        Score s = Score.of(ranking(Map.of(hypothesis("W1"), 1.0)), List.of(hypothesis("W2")), SIZES::same);
        assertEquals(2, s.brier(), 1e-12);
        assertEquals(6 * Math.log(10), s.logLoss(), 1e-9);
        assertEquals(0, s.groupRank());
    }

    private static Worked worked(String codes, String tested, boolean mends, HarnessNeed needed) {
        return new Worked(1, 60, 100, false, Optional.of(ruled(codes, mends)), List.of(ruled(tested, mends)), needed);
    }

    private static Worked.Ruled ruled(String option, boolean mends) {
        boolean settled = !option.equals("not-enough-evidence") && !option.equals("ask");
        return new Worked.Ruled(option, settled, mends);
    }

    /** Five verdicts: a wrong harness, a right one, a missed one, one too early, one put to somebody. */
    @Test
    void verdictsAreCountedBesideTheTruth() {
        List<Worked> all = List.of(
                worked("full-harness", "full-harness", true, HarnessNeed.NONE),
                worked("full-harness", "full-harness", true, HarnessNeed.MONEY),
                worked("not-enough-evidence", "terminal", false, HarnessNeed.RULES),
                worked("not-enough-evidence", "device", true, HarnessNeed.NONE),
                worked("ask", "ask", false, HarnessNeed.MONEY));
        assertEquals(new RepairResult.Verdicts(2, 1, 2, 1, 0), RepairResult.Verdicts.of(all, w -> w.codes().stream()
                .toList()));
        assertEquals(new RepairResult.Verdicts(0, 1, 3, 1, 1), RepairResult.Verdicts.of(all, Worked::verdicts));
        RepairResult summed = RepairResult.of(
                all.stream()
                        .map(w -> Arrays.stream(Working.values())
                                .collect(Collectors.toMap(Function.identity(), way -> w)))
                        .toList(),
                0);
        assertEquals(3, summed.harnessNeeded());
        assertEquals(1, summed.onlyByRules());
    }

    /** Of 1 to 10 a tenth lies below 2, half below 6, nine tenths below 10; mean 5.5. */
    @Test
    void spreadsNameTheValueBelowWhichAShareLies() {
        double[] x = {10, 9, 8, 7, 6, 5, 4, 3, 2, 1};
        assertEquals(new RepairResult.Spread(5.5, 2, 6, 10), RepairResult.Spread.of(x));
    }

    /** In a world without tolerances a voltage lies within the meter's own error of the predicted one, and stays the same. */
    @Test
    void readingsOfAnExactWorldAreThePredictedOnes() {
        Cases cases = new Cases(BENCH, List.of("key-on"), EXACT, 2);
        MeterPrediction meter = new MeterPrediction(
                CIRCUIT,
                LAYOUT,
                new NetworkSolver(CIRCUIT, LAYOUT),
                new CodeTable(CIRCUIT.watches(), POLICY, List.of(), 0),
                Observations.builtIn(),
                0.3);
        var test = new loomcase.meter.Test.Volts("C1/1", "chassis", Setup.on("key-on", "rest"));
        for (Cases.Case one : cases.dozen(Planted.Kind.SINGLE, 0)) {
            var fault = one.planted().faults().get(0);
            Subject subject = new Subject(fault.family(), fault.places(), false, fault.edits());
            double predicted = meter.predict(test, subject).mean();
            Outcome shown = cases.replies().to(test, one, one.planted().faults());
            assertEquals(predicted, ((Outcome.Reading) shown).value(), 0.02 + 0.05 * Math.abs(predicted), fault.id());
            assertEquals(shown, cases.replies().to(test, one, one.planted().faults()));
        }
    }
}
