package loomcase.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.function.Predicate;
import loomcase.casework.Bench;
import loomcase.faults.FaultGenerator;
import loomcase.j1939.Code;
import loomcase.model.Edit;
import loomcase.model.OperatingPoint;
import loomcase.predict.CodeTable;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import loomcase.rank.Evidence;
import loomcase.solve.NetworkSolver;
import loomcase.solve.Solution;

/** Cases of one world, a dozen at a time: planted, solved, and their codes read. */
final class Cases {
    /** Cases that are solved together. */
    static final int CHUNK = 12;

    /** Of how many cases one goes through ngspice. */
    private static final int BY_NGSPICE = 3;

    private final long seed;
    private final List<OperatingPoint> points;
    private final CaseDraw draw;
    private final ControlUnitLogic unit;
    private final Replies replies;
    private final Truth own;
    private final Truth independent;

    Cases(Bench bench, List<String> points, World world, long seed) {
        this.seed = seed;
        this.points =
                points.stream().map(bench.circuit().operatingPoints()::get).toList();
        NetworkSolver solver = new NetworkSolver(bench.circuit(), bench.layout());
        CodeTable table = new CodeTable(bench.circuit().watches(), bench.policy(), List.of(), 0);
        this.draw = new CaseDraw(
                bench.circuit(),
                new FaultGenerator(bench.circuit(), bench.layout(), bench.priors()).generate(),
                world,
                shows(new Predictor(bench.circuit(), solver, table, points)),
                seed);
        this.unit = new ControlUnitLogic(bench.circuit(), bench.policy(), solver, world);
        this.own = new Truth.Own(solver);
        this.independent = new Truth.Independent(solver);
        this.replies = new Replies(bench, draw, unit, own);
    }

    private static Predicate<List<Edit>> shows(Predictor predictor) {
        return edits -> {
            Prediction p = predictor.predict(edits);
            for (double q : p.probability()) if (q > 0.5) return true;
            return false;
        };
    }

    /** How large faults are, and which of the engine's are the same but for that. */
    Sizes sizes() {
        return draw.sizes();
    }

    /** What tests show in these cases. */
    Replies replies() {
        return replies;
    }

    /**
     * One case with its codes read.
     *
     * @param planted what is wrong
     * @param number of the case within its kind
     * @param limits how far the limits of its control unit lie from nominal
     * @param evidence what is read; empty when the network has no single operating point
     * @param shows whether some code that its faults set is read
     * @param simulated whether its voltages came from ngspice
     */
    record Case(
            Planted planted,
            int number,
            double[] limits,
            Optional<Evidence> evidence,
            boolean shows,
            boolean simulated) {}

    /** The n-th dozen of a kind; every third case gets its voltages from ngspice. */
    List<Case> dozen(Planted.Kind kind, int n) {
        List<Drawn> drawn = new ArrayList<>();
        for (int i = 0; i < CHUNK; i++) drawn.add(new Drawn(kind, n * CHUNK + i));
        solve(drawn.stream().filter(d -> d.simulated).toList(), independent);
        solve(drawn.stream().filter(d -> !d.simulated).toList(), own);
        return drawn.stream().map(Drawn::read).toList();
    }

    private void solve(List<Drawn> drawn, Truth truth) {
        for (OperatingPoint at : points) {
            List<List<Edit>> edits = drawn.stream()
                    .map(d -> draw.edits(d.planted, d.planted.faults(), at))
                    .toList();
            List<Optional<Map<String, Solution>>> solved = truth.solve(at, edits);
            for (int i = 0; i < drawn.size(); i++) drawn.get(i).look(at, solved.get(i));
        }
    }

    /** One case on its way from the fault to the codes. */
    private final class Drawn {
        private final int number;
        private final boolean simulated;
        private final SplittableRandom random;
        private final Planted planted;
        private final double[] limits;
        private final TreeSet<Code> shown = new TreeSet<>();
        private boolean solved = true;

        Drawn(Planted.Kind kind, int number) {
            this.number = number;
            this.simulated = number % BY_NGSPICE == 0;
            long own = seed * 1_000_003 + kind.ordinal() * 100_000_007L + number;
            random = new SplittableRandom(own);
            planted = draw.draw(kind, random, new SplittableRandom(~own));
            limits = unit.limits(random);
        }

        void look(OperatingPoint at, Optional<Map<String, Solution>> phases) {
            if (phases.isEmpty()) solved = false;
            else shown.addAll(unit.shown(at, phases.get(), limits, random));
        }

        Case read() {
            List<Evidence.Seen> read = unit.read(shown, planted, planted.present(), random);
            Optional<Evidence> evidence = solved
                    ? Optional.of(new Evidence(
                            read, points.stream().map(OperatingPoint::id).toList()))
                    : Optional.empty();
            boolean shows = read.stream().anyMatch(s -> shown.contains(s.code()));
            return new Case(planted, number, limits, evidence, shows, simulated);
        }
    }
}
