package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import loomcase.demo.Harness;
import loomcase.model.OperatingPoint;
import org.junit.jupiter.api.Test;

/** Both forms of the inverse against each other, and the bounds of columns against what they bound. */
class InverseTest {
    private static final Harness H = Harness.LARCH;

    /** Share of the largest number by which two ways of finding it may differ. */
    private static final double CLOSE = 1e-9;

    private final Netlist net = netlist();
    private final SparseLu.Pattern pattern = DirectSolver.patternOf(net);
    private final DirectSolver solver = new DirectSolver(net, pattern);
    private final Solution healthy = solver.solve();
    private final Random random = new Random(4);

    private static Netlist netlist() {
        OperatingPoint op = H.circuit().operatingPoints().get("idle-warm");
        return NetlistBuilder.build(H.circuit(), H.layout(), op, op.quietest());
    }

    @Test
    void withAndWithoutColumnsIsTheSame() {
        for (int draw = 0; draw < 300; draw++) {
            List<Stamp> change = stamps(1 + random.nextInt(6));
            Inverse climbing = new Inverse.Climbing(solver.factors(), pattern, pattern.upTo(net.active() - 1), change);
            Inverse kept = new Inverse.Kept(change, columns(change));
            double[][] across = kept.across();
            double most = Math.max(most(across), 1);
            for (int r = 0; r < across.length; r++) same(across[r], climbing.across()[r], most);
            for (int c = 0; c < change.size(); c++)
                assertEquals(
                        kept.columns().get(c).at(1), climbing.columns().get(c).at(1), CLOSE * most);
            double[] times = random.doubles(change.size(), -1, 1).toArray();
            for (int nodes : new int[] {net.active(), net.size()}) {
                double[] one = random.doubles(nodes).toArray();
                double[] other = one.clone();
                kept.addTo(one, times);
                climbing.addTo(other, times);
                same(one, other, Math.max(most(one), 1));
            }
        }
    }

    @Test
    void noPartMovesByMoreThanTheBoundOfItsBlock() {
        PartTable table = new PartTable(net.parts(), healthy.regions());
        double[] bounds = new double[table.blocks()];
        double[] none = new double[net.size()];
        double tightest = 0;
        for (int draw = 0; draw < 300; draw++) {
            Terms terms = new Terms();
            double[] sum = new double[net.size()];
            List<Column> columns = columns(stamps(5));
            for (Column c : columns) {
                Column taken = random.nextBoolean() ? c : c.minus(columns.get(0));
                double times = Math.pow(10, -random.nextInt(14));
                terms.add(taken, taken.most(net, table), times);
                taken.addTo(sum, times);
            }
            terms.boundBlocks(bounds);
            double[] moves = table.moves(sum, none);
            for (int p = 0; p < moves.length; p++) {
                double bound = bounds[PartTable.block(p)];
                assertEquals(
                        0,
                        Math.max(0, moves[p] - bound),
                        CLOSE * bound,
                        net.parts().get(p).name());
                if (bound > 0) tightest = Math.max(tightest, moves[p] / bound);
            }
        }
        assertEquals(1, tightest, 0.01, "a bound that nothing reaches is none of these columns");
    }

    @Test
    void partsLookAlikeWhenNoVoltageButTheOthersMattersToThem() {
        Part plain =
                net.parts().stream().filter(p -> p.gate().isEmpty()).findFirst().orElseThrow();
        Part gated = with(plain, new Part.Gate(1, 2, 5));
        assertTrue(plain.looksLike(gated), "a gate that is gone");
        assertTrue(gated.looksLike(with(plain, new Part.Gate(1, 2, 3))), "another limit");
        assertFalse(gated.looksLike(plain), "a gate that is new");
        assertFalse(gated.looksLike(with(plain, new Part.Gate(1, 3, 5))), "another node");
        assertFalse(gated.looksLike(plain.dead()), "a gate that was closed for good");
    }

    private static Part with(Part part, Part.Gate gate) {
        return new Part(part.name(), Optional.of(gate), part.probe(), part.breaks(), part.regions());
    }

    private List<Stamp> stamps(int count) {
        return IntStream.range(0, count)
                .mapToObj(i -> new Stamp(node(), node(), node(), node(), 1, 0))
                .filter(s -> s.from() != s.to() && s.plus() != s.minus())
                .toList();
    }

    private int node() {
        return random.nextInt(5) == 0 ? 0 : random.nextInt(net.size());
    }

    private List<Column> columns(List<Stamp> change) {
        return change.stream()
                .map(s -> new Column(solver.factors().difference(s.from() - 1, s.to() - 1, 1)))
                .toList();
    }

    private static double most(double[]... rows) {
        double found = 0;
        for (double[] row : rows) for (double x : row) found = Math.max(found, Math.abs(x));
        return found;
    }

    private static void same(double[] wanted, double[] got, double most) {
        for (int i = 0; i < wanted.length; i++) assertEquals(wanted[i], got[i], CLOSE * most, "at " + i);
    }
}
