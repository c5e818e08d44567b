package loomcase.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.function.DoubleConsumer;
import java.util.function.Predicate;
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
import loomcase.rank.Evidence;
import loomcase.rank.Ranker;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/**
 * Entry of this package: plants faults in a world that differs from what the engine assumes, lets the control unit show its
 * codes, ranks them, and scores the ranking.
 *
 * <p>Every third case gets its voltages from ngspice, the others from our solver without its shortcuts. A case that shows
 * no code, or whose network has no single operating point, is counted and left out.
 */
public final class Study {
    private static final int CHUNK = 12;

    /** Cases drawn for each one wanted before the rest is given up: on some harnesses a kind shows hardly any code. */
    private static final int MOST_DRAWN = 5;

    private final Circuit circuit;
    private final Ranker ranker;
    private final World world;
    private final long seed;
    private final List<OperatingPoint> points;
    private final CaseDraw draw;
    private final ControlUnitLogic unit;
    private final Truth own;
    private final Truth independent;

    /**
     * @param circuit the harness
     * @param layout its layout
     * @param priors as the engine uses them
     * @param policy as the engine uses it
     * @param ranker the engine under study
     * @param points ids of the operating points at which codes are read
     * @param world how the truth differs from what the engine assumes
     * @param seed same seed, same cases on any machine
     */
    public Study(
            Circuit circuit,
            Layout layout,
            Priors priors,
            PolicyOutcome policy,
            Ranker ranker,
            List<String> points,
            World world,
            long seed) {
        this.circuit = circuit;
        this.ranker = ranker;
        this.world = world;
        this.seed = seed;
        this.points = points.stream().map(circuit.operatingPoints()::get).toList();
        NetworkSolver solver = new NetworkSolver(circuit, layout);
        this.draw = new CaseDraw(
                circuit,
                new FaultGenerator(circuit, layout, priors).generate(),
                world,
                shows(new Predictor(circuit, solver, new CodeTable(circuit.watches(), policy, List.of(), 0), points)),
                seed);
        this.unit = new ControlUnitLogic(circuit, policy, solver, world);
        this.own = new Truth.Own(solver);
        this.independent = new Truth.Independent(solver);
    }

    private static Predicate<Hypothesis> shows(Predictor predictor) {
        return h -> {
            Prediction p = predictor.predict(((Hypothesis.Fixed) h.cause()).edits());
            for (double q : p.probability()) if (q > 0.5) return true;
            return false;
        };
    }

    /**
     * Runs cases of one kind.
     *
     * @param kind how they are drawn
     * @param wanted how many that show codes
     * @param progress told the share done
     */
    Outcome run(Planted.Kind kind, int wanted, DoubleConsumer progress) {
        List<Score> scores = new ArrayList<>();
        int silent = 0;
        int unsolved = 0;
        int simulated = 0;
        for (int chunk = 0; scores.size() < wanted && chunk * CHUNK < MOST_DRAWN * wanted; chunk++) {
            boolean byNgspice = chunk % 3 == 0;
            List<Drawn> drawn = new ArrayList<>();
            for (int i = 0; i < CHUNK; i++) drawn.add(new Drawn(kind, chunk * CHUNK + i));
            List<Optional<Evidence>> seen = observe(drawn, byNgspice ? independent : own);
            for (int i = 0; i < CHUNK && scores.size() < wanted; i++) {
                if (seen.get(i).isEmpty()) {
                    unsolved++;
                    continue;
                }
                Evidence e = seen.get(i).get();
                if (!drawn.get(i).showed) {
                    silent++;
                    continue;
                }
                if (byNgspice) simulated++;
                scores.add(Score.of(
                        ranker.rank(e, share -> {}), drawn.get(i).planted.truth()));
                progress.accept(scores.size() / (double) wanted);
            }
        }
        return new Outcome(kind, scores, silent, unsolved, simulated);
    }

    /** One case on its way from the fault to the codes. */
    private final class Drawn {
        private final SplittableRandom random;
        private final Planted planted;
        private final double[] limits;
        private final TreeSet<Code> shown = new TreeSet<>();
        private boolean solved = true;
        private boolean showed;

        Drawn(Planted.Kind kind, int number) {
            random = new SplittableRandom(seed * 1_000_003 + kind.ordinal() * 100_000_007L + number);
            planted = draw.draw(kind, random);
            limits = unit.limits(random);
        }

        void look(OperatingPoint at, Optional<Map<String, Solution>> phases) {
            if (phases.isEmpty()) solved = false;
            else shown.addAll(unit.shown(at, phases.get(), limits, random));
        }

        Optional<Evidence> evidence() {
            showed = !shown.isEmpty();
            if (!solved) return Optional.empty();
            return Optional.of(new Evidence(
                    unit.read(shown, planted, planted.present(), random),
                    points.stream().map(OperatingPoint::id).toList()));
        }
    }

    private List<Optional<Evidence>> observe(List<Drawn> drawn, Truth truth) {
        for (OperatingPoint at : points) {
            List<List<Edit>> edits =
                    drawn.stream().map(d -> draw.edits(d.planted, at)).toList();
            List<Optional<Map<String, Solution>>> solved = truth.solve(at, edits);
            for (int i = 0; i < drawn.size(); i++) drawn.get(i).look(at, solved.get(i));
        }
        return drawn.stream().map(Drawn::evidence).toList();
    }

    /**
     * What cases of one kind gave.
     *
     * @param kind how they were drawn
     * @param scores one for each case
     * @param silent cases drawn that showed no code
     * @param unsolved cases whose network has no single operating point
     * @param simulated cases whose voltages came from ngspice
     */
    record Outcome(Planted.Kind kind, List<Score> scores, int silent, int unsolved, int simulated) {}

    /** Runs every kind, {@code eachKind} cases of each that show codes. */
    public List<KindResult> run(int eachKind, DoubleConsumer progress) {
        List<KindResult> out = new ArrayList<>();
        int kinds = Planted.Kind.values().length;
        for (Planted.Kind kind : Planted.Kind.values()) {
            double from = out.size();
            out.add(KindResult.of(run(kind, eachKind, share -> progress.accept((from + share) / kinds))));
        }
        return List.copyOf(out);
    }

    /** Runs lasting single faults drawn from the priors only. */
    public KindResult runSingle(int cases, DoubleConsumer progress) {
        return KindResult.of(run(Planted.Kind.SINGLE, cases, progress));
    }
}
