package loomcase.predict;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import loomcase.demo.Harness;
import loomcase.model.Edit;
import org.junit.jupiter.api.Test;

/** The sparse way to the codes beside the plain one, which works out every code of every watch; and tables as bytes. */
class CodeSumsTest {
    private final Random random = new Random(7);
    private final CodeTable table =
            new CodeTable(Harness.LARCH.circuit().watches(), Harness.LARCH.policy(), List.of(), 0.02);
    private final int watches = Harness.LARCH.circuit().watches().size();

    private double[] conditions() {
        double[] out = new double[watches];
        for (int w = 0; w < watches; w++) if (random.nextInt(3) == 0) out[w] = Math.pow(random.nextDouble(), 6);
        return out;
    }

    /** Some rows change nothing, some a few watches, some nearly all. */
    private double[][] rows(double[] healthy, int rows) {
        double[][] out = new double[rows][];
        for (int r = 0; r < rows; r++) {
            out[r] = healthy.clone();
            int changes = r % 5 == 0 ? 0 : 1 + random.nextInt(r % 7 == 0 ? watches : 6);
            for (int k = 0; k < changes; k++)
                out[r][random.nextInt(watches)] = random.nextInt(4) == 0 ? 0 : random.nextDouble();
        }
        return out;
    }

    private static PointTable table(double[] healthy, double[][] rows, List<List<Edit>> edits) {
        PointTable.Builder out = new PointTable.Builder(edits, healthy);
        for (int r = 0; r < rows.length; r++) {
            for (int w = 0; w < healthy.length; w++) out.entry(w, rows[r][w]);
            out.endRow(r % 11 != 0);
        }
        return out.build();
    }

    private static List<List<Edit>> edits(int rows) {
        List<List<Edit>> out = new ArrayList<>();
        for (int r = 0; r < rows; r++) out.add(List.of(new Edit.Dead("device " + r)));
        return out;
    }

    @Test
    void sparseSumsEqualPlainOnesToTheLastBit() {
        int rows = 300;
        double[][] healthy = {conditions(), conditions(), conditions()};
        double[][][] changed = new double[3][][];
        List<PointTable> points = new ArrayList<>();
        for (int p = 0; p < 3; p++) {
            changed[p] = rows(healthy[p], rows);
            points.add(table(healthy[p], changed[p], edits(rows)));
        }
        CodeSums sums = new CodeSums(table, List.of(healthy));
        double[] healthyShown = most(healthy);
        assertArrayEquals(healthyShown, sums.healthy());
        for (int r = 0; r < rows; r++) {
            double[] shown = most(changed[0][r], changed[1][r], changed[2][r]);
            Prediction plain = Prediction.of(shown, healthyShown, r % 11 != 0);
            Prediction sparse = sums.prediction(rowsOf(points, r));
            assertArrayEquals(plain.codes(), sparse.codes(), "row " + r);
            assertArrayEquals(plain.probability(), sparse.probability(), "row " + r);
            assertEquals(plain.settled(), sparse.settled());
        }
    }

    @Test
    void whateverIsOpenTurnsOutToBeOneOfTheCasesHolds() {
        for (int trial = 0; trial < 400; trial++) {
            double[][] healthy = {conditions(), conditions(), conditions()};
            CodeSums sums = new CodeSums(table, List.of(healthy));
            PointRow[] known = new PointRow[3];
            BitSet[] open = new BitSet[3];
            double[][] truth = new double[3][];
            for (int p = 0; p < 3; p++) {
                double[][] row = {rows(healthy[p], 2)[1]};
                open[p] = random.nextInt(4) == 0 ? new BitSet() : open();
                truth[p] = row[0].clone();
                boolean isSilent = !open[p].isEmpty() && random.nextInt(3) == 0;
                for (int w = 0; w < watches; w++) {
                    if (isSilent) truth[p][w] = 0;
                    else if (open[p].get(w)) truth[p][w] = random.nextDouble();
                    if (open[p].get(w)) row[0][w] = healthy[p][w];
                }
                known[p] = table(healthy[p], row, edits(1)).row(0);
            }
            double[] shown = most(truth);
            List<Between> cases = sums.cases(known, open);
            assertTrue(cases.stream().anyMatch(c -> holds(c, shown, sums.healthy())), "trial " + trial);
        }
    }

    private BitSet open() {
        BitSet out = new BitSet();
        for (int w = 0; w < watches; w++) if (random.nextInt(4) == 0) out.set(w);
        return out;
    }

    private static boolean holds(Between known, double[] shown, double[] healthy) {
        for (int c = 0; c < shown.length; c++) {
            int at = Arrays.binarySearch(known.codes(), c);
            if (at < 0 && known.open().get(c)) continue;
            double least = at < 0 ? healthy[c] : known.least()[at];
            double most = at < 0 ? healthy[c] : known.most()[at];
            if (shown[c] < least - 1e-6 || shown[c] > most + 1e-6) return false;
        }
        return true;
    }

    private static List<PointRow> rowsOf(List<PointTable> points, int row) {
        return points.stream().map(p -> p.row(row)).toList();
    }

    private double[] most(double[]... conditions) {
        double[] out = new double[table.codes().size()];
        for (double[] c : conditions) {
            double[] q = table.shown(c);
            for (int k = 0; k < q.length; k++) out[k] = Math.max(out[k], q[k]);
        }
        return out;
    }

    @Test
    void aTableComesBackFromItsBytesAsItWas() {
        double[] healthy = conditions();
        double[][] rows = rows(healthy, 60);
        byte[] bytes = table(healthy, rows, edits(60)).bytes().orElseThrow();
        PointTable back = PointTable.of(bytes, watches).orElseThrow();
        assertTrue(back.isOf(edits(60)));
        assertTrue(!back.isOf(edits(59)));
        assertArrayEquals(healthy, back.healthy());
        for (int r = 0; r < 60; r++) {
            double[] got = healthy.clone();
            PointRow row = back.row(r);
            for (int i = row.from(); i < row.to(); i++) got[row.watch()[i]] = row.probability()[i];
            assertArrayEquals(rows[r], got);
        }
        assertEquals(Optional.empty(), PointTable.of(bytes, watches + 1).map(t -> ""), "of another circuit");
    }

    @Test
    void bytesWithAnyBitFlippedOrAnyEndMissingAreRefused() {
        double[] healthy = conditions();
        byte[] bytes = table(healthy, rows(healthy, 5), edits(5)).bytes().orElseThrow();
        for (int i = 0; i < bytes.length; i++) {
            byte[] bad = bytes.clone();
            bad[i] ^= (byte) (1 << random.nextInt(8));
            assertTrue(PointTable.of(bad, watches).isEmpty(), "byte " + i);
            assertTrue(PointTable.of(java.util.Arrays.copyOf(bytes, i), watches).isEmpty(), "length " + i);
        }
    }
}
