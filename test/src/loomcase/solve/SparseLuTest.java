package loomcase.solve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.OperatingPoint;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.junit.jupiter.api.Test;

/** Sparse factors against the dense LU with row pivoting of Apache Commons Math 3.6.1. */
class SparseLuTest {
    private static final double RELATIVE = 1e-9;

    @Test
    void randomNetworksOfEverySize() {
        Random random = new Random(5);
        for (int n : new int[] {1, 2, 3, 5, 10, 40, 120})
            for (int repeat = 0; repeat < 20; repeat++) {
                double[][] a = new double[n][n];
                List<int[]> entries = new ArrayList<>();
                for (int i = 0; i < n; i++) a[i][i] = 0.01 + random.nextDouble();
                for (int k = 0; k < 2 * n; k++) {
                    int i = random.nextInt(n);
                    int j = random.nextInt(n);
                    if (i == j) continue;
                    double g = Math.pow(10, 3 * random.nextDouble() - 2);
                    entries.add(new int[] {i, j});
                    a[i][j] -= g;
                    a[j][i] -= g * (random.nextInt(4) == 0 ? 0.5 : 1);
                    a[i][i] += g;
                    a[j][j] += g;
                }
                check(a, entries, random);
            }
    }

    @Test
    void matrixOfTheReferenceHarness() {
        Circuit circuit = RandomEdits.circuit("larch-13");
        OperatingPoint op = circuit.operatingPoints().get("loaded-hot");
        for (OperatingPoint.Phase phase : op.phases().subList(0, 2)) {
            Netlist net = NetlistBuilder.build(circuit, new Layout(circuit), op, phase);
            int n = net.size() - 1;
            double[][] a = new double[n][n];
            List<int[]> entries = new ArrayList<>();
            for (int i = 0; i < n; i++) a[i][i] = 1e-3;
            for (Netlist.Element e : net.elements()) stamp(a, entries, e.stamp());
            for (Part p : net.parts())
                if (!p.regions().isEmpty()) for (Stamp s : p.stamps(p.breaks().length / 2)) stamp(a, entries, s);
            check(a, entries, new Random(6));
        }
    }

    @Test
    void singularMatrixSaysSo() {
        SparseLu.Pattern p = new SparseLu.Pattern(2, new int[] {0}, new int[] {1});
        double[] values = new double[p.slots()];
        values[p.slot(0, 0)] = 1;
        values[p.slot(1, 1)] = 1;
        values[p.slot(0, 1)] = -1;
        values[p.slot(1, 0)] = -1;
        assertTrue(SparseLu.factor(p, values).singular());
    }

    private static void stamp(double[][] a, List<int[]> entries, Stamp s) {
        add(a, entries, s.from(), s.plus(), s.siemens());
        add(a, entries, s.from(), s.minus(), -s.siemens());
        add(a, entries, s.to(), s.plus(), -s.siemens());
        add(a, entries, s.to(), s.minus(), s.siemens());
    }

    private static void add(double[][] a, List<int[]> entries, int row, int col, double siemens) {
        if (row == 0 || col == 0) return;
        a[row - 1][col - 1] += siemens;
        entries.add(new int[] {row - 1, col - 1});
    }

    private static void check(double[][] a, List<int[]> entries, Random random) {
        int n = a.length;
        SparseLu.Pattern p = new SparseLu.Pattern(
                n,
                entries.stream().mapToInt(e -> e[0]).toArray(),
                entries.stream().mapToInt(e -> e[1]).toArray());
        double[] values = new double[p.slots()];
        for (int i = 0; i < n; i++)
            for (int j = 0; j < n; j++) if (a[i][j] != 0) values[p.slot(p.position[i], p.position[j])] = a[i][j];
        SparseLu lu = SparseLu.factor(p, values);
        assertFalse(lu.singular());
        double[] b = random.doubles(n, -1, 1).toArray();
        DecompositionSolver dense = new LUDecomposition(new Array2DRowRealMatrix(a, false)).getSolver();
        double[] expected = dense.solve(new ArrayRealVector(b)).toArray();
        lu.solve(b);
        near(expected, 0, b);
        for (int repeat = 0; repeat < 3; repeat++) {
            int plus = random.nextInt(n + 1) - 1;
            int minus = random.nextInt(n + 1) - 1;
            double[] e = new double[n];
            if (plus >= 0) e[plus] += 1;
            if (minus >= 0 && minus != plus) e[minus] -= 1;
            if (minus == plus) continue;
            near(dense.solve(new ArrayRealVector(e)).toArray(), 1, lu.difference(plus, minus, 1));
        }
    }

    private static void near(double[] expected, int first, double[] found) {
        assertEquals(first + expected.length, found.length);
        for (int i = 0; i < first; i++) assertEquals(0, found[i]);
        double largest = 1e-12;
        for (double x : expected) largest = Math.max(largest, Math.abs(x));
        for (int i = 0; i < expected.length; i++)
            assertEquals(expected[i], found[first + i], RELATIVE * largest, "n = " + expected.length);
    }
}
