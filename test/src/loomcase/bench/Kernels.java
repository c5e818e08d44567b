package loomcase.bench;

import java.util.List;
import java.util.concurrent.TimeUnit;
import loomcase.demo.Harness;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.intake.Intake;
import loomcase.j1939.CodeList;
import loomcase.model.Edit;
import loomcase.plan.CaseSoFar;
import loomcase.plan.NextTest;
import loomcase.plan.Planner;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.rank.Evidence;
import loomcase.rank.Ranker;
import loomcase.rank.Ranking;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** The stages on the reference harness, warm: solve, predict, rank, plan. Run by {@link Jmh}. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 6, time = 2)
@Fork(1)
public class Kernels {
    /** Complaints of one common supply, one short, one network, two things at once. */
    private static final List<String> COMPLAINTS =
            List.of("94/4x3,98/4,100/4x3,101/4,157/4x3", "110/3", "100/4,110/3", "639/9");

    private List<List<Edit>> faults;
    private NetworkSolver.Instant instant;
    private Predictor predictor;
    private List<Evidence> evidence;
    private Ranker ranker;
    private Planner planner;
    private Ranking ranking;
    private int next;

    @Setup(Level.Trial)
    public void prepare() {
        Harness larch = Harness.LARCH;
        faults = larch.hypotheses().stream()
                .filter(h ->
                        h.cause() instanceof Hypothesis.Fixed f && !f.edits().isEmpty())
                .map(h -> ((Hypothesis.Fixed) h.cause()).edits())
                .distinct()
                .toList();
        instant = new NetworkSolver(larch.circuit(), larch.layout()).at("key-on", "rest");
        evidence = COMPLAINTS.stream()
                .map(c -> Intake.typed(larch.circuit(), CodeList.parse(c), CodeList.parse(""), List.of())
                        .evidence())
                .toList();
        ranker = larch.ranker();
        evidence.forEach(e -> ranker.rank(e, share -> {}));
        planner = new Planner(
                larch.circuit(),
                larch.layout(),
                Priors.builtIn(),
                java.util.Set.of(),
                larch.circuit().costs()::partMinutes);
        ranking = ranker.rank(evidence.get(0), share -> {});
    }

    private List<Edit> fault() {
        next = (next + 7) % faults.size();
        return faults.get(next);
    }

    /** One fault at one instant, as codes need it. */
    @Benchmark
    public Solution solve() {
        return instant.solveActive(fault());
    }

    /** The codes of one fault over sixteen instants; a new predictor now and then, for a predictor remembers. */
    @Benchmark
    public Prediction predict() {
        if (predictor == null || next < 7)
            predictor = Harness.LARCH.predictor(List.of(), 0.02, List.of("key-on", "idle-warm"));
        return predictor.predict(fault());
    }

    /** One of a few complaints again: every single fault weighed, common causes and pairs found among what is known. */
    @Benchmark
    public Ranking rank() {
        next = (next + 1) % evidence.size();
        return ranker.rank(evidence.get(next), share -> {});
    }

    /** The next test of one complaint, its networks solved. */
    @Benchmark
    public List<NextTest> plan() {
        return planner.plan(new CaseSoFar(ranking, ranker.meter(evidence.get(0)), List.of(), List.of()));
    }
}
