package loomcase.solve;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.faults.Priors;
import loomcase.model.Circuit;
import loomcase.model.Edit;
import loomcase.model.Layout;
import loomcase.model.read.CircuitReader;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.ejml.data.DMatrixRMaj;
import org.ejml.data.DMatrixSparseCSC;
import org.ejml.data.DMatrixSparseTriplet;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverSparse;
import org.ejml.ops.DConvertMatrixStruct;
import org.ejml.sparse.FillReducing;
import org.ejml.sparse.csc.factory.LinearSolverFactory_DSCC;

/**
 * What one hypothesis costs at one instant of the reference harness: ours, beside refactorising with other libraries and
 * beside ngspice.
 *
 * <p>Ours solves every distinct single fault, searching the regions of all parts, on one core. The libraries factorise and
 * solve the edited matrix once, with the regions given by our solution, which spares them the search; EJML's sparse LU gets
 * the matrix in our order of elimination as well, since it has no ordering of its own that keeps fill low. ngspice reads a
 * sample of decks in one process and finds each operating point; the cost of an empty batch is taken off. Every result is
 * compared with ours before it is timed, so nobody is faster by being wrong.
 */
public final class SolverComparison {
    private static final int DENSE_SAMPLE = 5;
    private static final int SPARSE_SAMPLE = 400;
    private static final int DECKS = 40;
    private static final int ROUNDS = 5;
    private static final double SAME_VOLTS = 1e-4;

    private final NetworkSolver.Instant instant;
    private final List<List<Edit>> faults;

    private SolverComparison(Circuit circuit) {
        Layout layout = new Layout(circuit);
        this.instant = new NetworkSolver(circuit, layout).at("key-on", "rest");
        Set<List<Edit>> distinct = new LinkedHashSet<>();
        for (Hypothesis h : new FaultGenerator(circuit, layout, Priors.builtIn()).generate())
            if (h.cause() instanceof Hypothesis.Fixed f && !f.edits().isEmpty()) distinct.add(f.edits());
        this.faults = List.copyOf(distinct);
    }

    public static void print() throws IOException, InterruptedException {
        SolverComparison c = new SolverComparison(CircuitReader.read(Path.of("circuits/larch-13.json")));
        double pins = c.ours(false);
        double all = c.ours(true);
        System.out.printf(
                Locale.ROOT, "%d distinct faults, one instant, one core; microseconds a fault:%n", c.faults.size());
        row("ours, what the codes need", pins, pins);
        row("ours, every node refined", all, pins);
        row("ours, factorised from nothing", c.direct(), pins);
        row("EJML sparse LU, our order", c.sparse(true), pins);
        row("EJML sparse LU, as it stands", c.sparse(false), pins);
        row("EJML dense LU", c.dense(), pins);
        row("Commons Math LU", c.commons(), pins);
        row("ngspice, " + DECKS + " decks", c.ngspice(), pins);
    }

    private static void row(String name, double micros, double ours) {
        System.out.printf(Locale.ROOT, "  %-32s %12.1f  %10.1f x%n", name, micros, micros / ours);
    }

    private interface Work {
        void run() throws IOException, InterruptedException;
    }

    private static double median(int times, int units, Work work) throws IOException, InterruptedException {
        double[] micros = new double[times];
        for (int i = 0; i < times; i++) {
            long start = System.nanoTime();
            work.run();
            micros[i] = (System.nanoTime() - start) / 1e3 / units;
        }
        Arrays.sort(micros);
        return micros[times / 2];
    }

    /** Columns are solved for anew in every round, as in a first ranking. */
    private double ours(boolean everyNode) throws IOException, InterruptedException {
        Work once = () -> {
            instant.forgetBeyond(0);
            for (List<Edit> f : faults)
                if (everyNode) instant.solve(f);
                else instant.solveActive(f);
        };
        once.run();
        once.run();
        return median(ROUNDS, faults.size(), once);
    }

    private List<Solution> sample(int n) {
        return Stream.iterate(0, i -> i + 1)
                .limit(n)
                .map(i -> instant.solve(faults.get((int) ((long) i * faults.size() / n))))
                .filter(s -> s.settled() && s.openedFuses().isEmpty())
                .toList();
    }

    private double direct() throws IOException, InterruptedException {
        List<Solution> sample = sample(SPARSE_SAMPLE);
        List<Netlist> nets = sample.stream().map(Solution::net).toList();
        SparseLu.Pattern pattern = DirectSolver.patternOf(nets.get(0));
        Work once = () -> {
            for (int i = 0; i < nets.size(); i++)
                if (DirectSolver.fits(nets.get(i), pattern))
                    new DirectSolver(nets.get(i), pattern).solve(sample.get(i).regions());
        };
        once.run();
        return median(ROUNDS, nets.size(), once);
    }

    /** The nodal equations of a solution, chassis left out. */
    private record Equations(List<double[]> entries, double[] right, double[] ours) {
        static Equations of(Solution s) {
            Netlist net = s.net();
            List<double[]> entries = new ArrayList<>();
            double[] right = new double[net.size() - 1];
            for (int i = 0; i < right.length; i++) entries.add(new double[] {i, i, 1 / Netlist.LEAK_OHMS});
            for (Netlist.Element e : net.elements()) stamp(e.stamp(), entries, right);
            for (int p = 0; p < net.parts().size(); p++)
                for (Stamp x : net.parts().get(p).stamps(s.regions()[p])) stamp(x, entries, right);
            return new Equations(entries, right, Arrays.copyOfRange(s.nodeVolts(), 1, net.size()));
        }

        private static void stamp(Stamp s, List<double[]> entries, double[] right) {
            entry(entries, s.from(), s.plus(), s.siemens());
            entry(entries, s.from(), s.minus(), -s.siemens());
            entry(entries, s.to(), s.plus(), -s.siemens());
            entry(entries, s.to(), s.minus(), s.siemens());
            if (s.from() > 0) right[s.from() - 1] -= s.amperes();
            if (s.to() > 0) right[s.to() - 1] += s.amperes();
        }

        private static void entry(List<double[]> entries, int row, int col, double g) {
            if (row > 0 && col > 0 && g != 0) entries.add(new double[] {row - 1, col - 1, g});
        }

        double[][] dense() {
            double[][] a = new double[right.length][right.length];
            for (double[] e : entries) a[(int) e[0]][(int) e[1]] += e[2];
            return a;
        }

        /** Rows and columns moved to other places. */
        Equations ordered(int[] position) {
            List<double[]> moved = entries.stream()
                    .map(e -> new double[] {position[(int) e[0]], position[(int) e[1]], e[2]})
                    .toList();
            double[] r = new double[right.length];
            double[] v = new double[right.length];
            for (int i = 0; i < r.length; i++) {
                r[position[i]] = right[i];
                v[position[i]] = ours[i];
            }
            return new Equations(moved, r, v);
        }

        void check(double[] volts, String who) {
            for (int i = 0; i < ours.length; i++)
                if (Math.abs(volts[i] - ours[i]) > SAME_VOLTS * Math.max(1, Math.abs(ours[i])))
                    throw new IllegalStateException(who + " finds " + volts[i] + " V, we " + ours[i] + " V");
        }
    }

    private double commons() throws IOException, InterruptedException {
        List<Equations> sample =
                sample(DENSE_SAMPLE).stream().map(Equations::of).toList();
        Work once = () -> {
            for (Equations e : sample)
                e.check(
                        new LUDecomposition(new Array2DRowRealMatrix(e.dense(), false))
                                .getSolver()
                                .solve(new ArrayRealVector(e.right, false))
                                .toArray(),
                        "Commons Math");
        };
        return median(2, sample.size(), once);
    }

    private double dense() throws IOException, InterruptedException {
        List<Equations> sample =
                sample(DENSE_SAMPLE).stream().map(Equations::of).toList();
        Work once = () -> {
            for (Equations e : sample) {
                var solver = LinearSolverFactory_DDRM.lu(e.right.length);
                DMatrixRMaj x = new DMatrixRMaj(e.right.length, 1);
                solver.setA(new DMatrixRMaj(e.dense()));
                solver.solve(new DMatrixRMaj(e.right.length, 1, true, e.right.clone()), x);
                e.check(x.data, "EJML");
            }
        };
        return median(2, sample.size(), once);
    }

    /** Building the compressed matrix is not timed. */
    private double sparse(boolean inOurOrder) throws IOException, InterruptedException {
        List<Solution> solutions = sample(inOurOrder ? SPARSE_SAMPLE : 4 * DENSE_SAMPLE);
        int[] position = DirectSolver.patternOf(solutions.get(0).net()).position;
        List<Equations> sample = solutions.stream()
                .map(Equations::of)
                .map(e -> inOurOrder ? e.ordered(position) : e)
                .toList();
        List<DMatrixSparseCSC> matrices =
                sample.stream().map(SolverComparison::csc).toList();
        int n = sample.get(0).right.length;
        Work once = () -> {
            for (int i = 0; i < matrices.size(); i++) {
                LinearSolverSparse<DMatrixSparseCSC, DMatrixRMaj> solver =
                        LinearSolverFactory_DSCC.lu(FillReducing.NONE);
                DMatrixRMaj x = new DMatrixRMaj(n, 1);
                if (!solver.setA(matrices.get(i))) throw new IllegalStateException("EJML finds the matrix singular");
                solver.solve(new DMatrixRMaj(n, 1, true, sample.get(i).right.clone()), x);
                sample.get(i).check(x.data, "EJML sparse");
            }
        };
        once.run();
        return median(ROUNDS, matrices.size(), once);
    }

    private static DMatrixSparseCSC csc(Equations e) {
        DMatrixSparseTriplet t = new DMatrixSparseTriplet(e.right.length, e.right.length, e.entries.size());
        for (double[] x : e.entries) t.addItem((int) x[0], (int) x[1], x[2]);
        DMatrixSparseCSC out = DConvertMatrixStruct.convert(t, (DMatrixSparseCSC) null);
        out.sortIndices(null);
        return org.ejml.sparse.csc.CommonOps_DSCC.add(1, duplicatesSummed(out), 0, out.createLike(), null, null, null);
    }

    /** Converting keeps entries given twice apart; each column's are added up here. */
    private static DMatrixSparseCSC duplicatesSummed(DMatrixSparseCSC a) {
        DMatrixSparseTriplet t = new DMatrixSparseTriplet(a.numRows, a.numCols, a.nz_length);
        for (int c = 0; c < a.numCols; c++)
            for (int i = a.col_idx[c]; i < a.col_idx[c + 1]; i++) {
                double sum = a.nz_values[i];
                while (i + 1 < a.col_idx[c + 1] && a.nz_rows[i + 1] == a.nz_rows[i]) sum += a.nz_values[++i];
                t.addItem(a.nz_rows[i], c, sum);
            }
        DMatrixSparseCSC out = DConvertMatrixStruct.convert(t, (DMatrixSparseCSC) null);
        out.sortIndices(null);
        return out;
    }

    private double ngspice() throws IOException, InterruptedException {
        Path folder = Files.createTempDirectory("decks");
        try {
            for (int i = 0; i < DECKS; i++)
                Files.writeString(folder.resolve("d" + i + ".cir"), instant.spiceDeck(faults.get((int)
                        ((long) i * faults.size() / DECKS))));
            double empty = median(3, 1, () -> batch(folder, 0));
            double full = median(3, 1, () -> batch(folder, DECKS));
            return (full - empty) / DECKS;
        } finally {
            try (Stream<Path> files = Files.list(folder)) {
                for (Path f : files.toList()) Files.delete(f);
            }
            Files.delete(folder);
        }
    }

    private static void batch(Path folder, int decks) throws IOException, InterruptedException {
        StringBuilder script = new StringBuilder("* batch\n.control\n");
        for (int i = 0; i < decks; i++) script.append("source d" + i + ".cir\nop\nremcirc\ndestroy all\n");
        script.append("quit 0\n.endc\n.end\n");
        Files.writeString(folder.resolve("batch.cir"), script);
        Process p = new ProcessBuilder("ngspice", "-b", "batch.cir")
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        if (p.waitFor() != 0) throw new IOException("ngspice ended with " + p.exitValue());
    }
}
