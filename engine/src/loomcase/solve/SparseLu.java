package loomcase.solve;

import java.util.Arrays;
import java.util.BitSet;
import java.util.PriorityQueue;

/**
 * LU factors of a sparse matrix with symmetric pattern, {@code A = L·U} in a minimum-degree order, unit L, no pivoting.
 *
 * <p>A harness network is nearly a tree and its matrix nearly a diagonally dominant M-matrix, so diagonal pivots are
 * stable and minimum degree keeps the fill close to none: both factoring and solving cost about linear in nodes. The
 * pattern is analysed once ({@link Pattern}) and reused for every matrix of the same shape. Not thread-safe: a solve uses
 * room that the factors keep.
 *
 * <p>Sources: W. F. Tinney and J. W. Walker, "Direct solutions of sparse network equations by optimally ordered
 * triangular factorization", Proc. IEEE 55 (1967); T. A. Davis, "Direct Methods for Sparse Linear Systems" (2006).
 */
final class SparseLu {

    /** Pivot order, fill and update schedule of a matrix shape; immutable and shared between factorisations. */
    static final class Pattern {
        final int n;
        final int[] position;
        final int[] start;
        final int[] index;
        final int[] target;

        /** Of each pivot the first later one that it changes, n for none: the elimination tree. */
        final int[] parent;

        private static final int GONE = -1;

        /**
         * @param n order of the matrix
         * @param rows row numbers of the entries off the diagonal
         * @param cols their column numbers; the transposed entry is taken to exist too
         */
        Pattern(int n, int[] rows, int[] cols) {
            this.n = n;
            BitSet[] near = new BitSet[n];
            for (int i = 0; i < n; i++) near[i] = new BitSet(n);
            for (int k = 0; k < rows.length; k++) {
                if (rows[k] == cols[k]) continue;
                near[rows[k]].set(cols[k]);
                near[cols[k]].set(rows[k]);
            }
            this.position = new int[n];
            int[][] later = eliminate(near);
            this.start = new int[n + 1];
            for (int k = 0; k < n; k++) start[k + 1] = start[k] + later[k].length;
            this.index = new int[start[n]];
            for (int k = 0; k < n; k++) {
                int[] row =
                        Arrays.stream(later[k]).map(i -> position[i]).sorted().toArray();
                System.arraycopy(row, 0, index, start[k], row.length);
            }
            this.parent = new int[n];
            for (int k = 0; k < n; k++) parent[k] = start[k] < start[k + 1] ? index[start[k]] : n;
            this.target = schedule();
        }

        private int[][] eliminate(BitSet[] near) {
            int[] degree = new int[n];
            // Every row waits under each degree it has had; an entry whose degree is no longer true is passed over.
            PriorityQueue<Long> waiting = new PriorityQueue<>(2 * n + 1);
            for (int i = 0; i < n; i++) {
                degree[i] = near[i].cardinality();
                waiting.add(entry(degree[i], i));
            }
            int[][] later = new int[n][];
            for (int k = 0; k < n; k++) {
                int best = next(waiting, degree);
                position[best] = k;
                degree[best] = GONE;
                later[k] = near[best].stream().toArray();
                for (int i : later[k]) {
                    near[i].or(near[best]);
                    near[i].clear(i);
                    near[i].clear(best);
                    if (degree[i] == near[i].cardinality()) continue;
                    degree[i] = near[i].cardinality();
                    waiting.add(entry(degree[i], i));
                }
            }
            return later;
        }

        private static long entry(int degree, int row) {
            return (long) degree << Integer.SIZE | row;
        }

        /** The row of least degree, of those the first. */
        private static int next(PriorityQueue<Long> waiting, int... degree) {
            while (true) {
                long entry = waiting.remove();
                int row = (int) entry;
                if (degree[row] == entry >> Integer.SIZE) return row;
            }
        }

        /** For every pivot and every pair of its later neighbours, where the product is subtracted. */
        private int[] schedule() {
            int total = 0;
            for (int k = 0; k < n; k++) {
                int m = start[k + 1] - start[k];
                total += m * m;
            }
            int[] out = new int[total];
            int at = 0;
            for (int k = 0; k < n; k++)
                for (int p = start[k]; p < start[k + 1]; p++)
                    for (int q = start[k]; q < start[k + 1]; q++) out[at++] = slot(index[p], index[q]);
            return out;
        }

        /**
         * Slot of the entry in permuted row i, column j: diagonal slots come first, then upper, then lower ones.
         *
         * @return slot number, or −1 when the pattern has no such entry
         */
        int slot(int i, int j) {
            if (i == j) return i;
            int lo = Math.min(i, j);
            int found = Arrays.binarySearch(index, start[lo], start[lo + 1], Math.max(i, j));
            if (found < 0) return -1;
            return i < j ? n + found : n + index.length + found;
        }

        /**
         * The places whose unknowns must be found to know the first rows', last first: those rows and all above them in the
         * elimination tree.
         */
        int[] upTo(int rows) {
            BitSet needed = new BitSet(n);
            for (int i = 0; i < rows; i++)
                for (int k = position[i]; k < n && !needed.get(k); k = parent[k]) needed.set(k);
            int[] out = new int[needed.cardinality()];
            int at = out.length;
            for (int k = needed.nextSetBit(0); k >= 0; k = needed.nextSetBit(k + 1)) out[--at] = k;
            return out;
        }

        int slots() {
            return n + 2 * index.length;
        }
    }

    private final Pattern pattern;
    private final double[] values;

    /** Smallest pivot met, relative to the largest; 0 or less means the matrix is singular to working precision. */
    private final double pivotRatio;

    private SparseLu(Pattern pattern, double[] values, double pivotRatio) {
        this.pattern = pattern;
        this.values = values;
        this.pivotRatio = pivotRatio;
    }

    /**
     * Factorises in place.
     *
     * @param values entries by {@link Pattern#slot}; overwritten by the factors and kept
     */
    static SparseLu factor(Pattern pattern, double[] values) {
        int n = pattern.n;
        int upper = n;
        int lower = n + pattern.index.length;
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        int at = 0;
        for (int k = 0; k < n; k++) {
            double pivot = values[k];
            least = Math.min(least, Math.abs(pivot));
            most = Math.max(most, Math.abs(pivot));
            int from = pattern.start[k];
            int to = pattern.start[k + 1];
            for (int p = from; p < to; p++) {
                double factor = values[lower + p] / pivot;
                values[lower + p] = factor;
                for (int q = from; q < to; q++) values[pattern.target[at++]] -= factor * values[upper + q];
            }
        }
        return new SparseLu(pattern, values, most == 0 ? 0 : least / most);
    }

    boolean singular() {
        return !(pivotRatio > 1e-18);
    }

    /**
     * Solves {@code A·x = b}.
     *
     * @param b right side in original order, length n; overwritten by x
     */
    void solve(double[] b) {
        solve(b, 0);
    }

    /**
     * Solves {@code A·x = b}.
     *
     * @param b right side in original order from place {@code first} on; overwritten by x
     */
    void solve(double[] b, int first) {
        int n = pattern.n;
        int lower = n + pattern.index.length;
        int[] position = pattern.position;
        int[] start = pattern.start;
        int[] index = pattern.index;
        double[] a = values;
        double[] y = new double[n];
        for (int i = 0; i < n; i++) y[position[i]] = b[first + i];
        for (int k = 0; k < n; k++) {
            double yk = y[k];
            if (yk == 0) continue;
            int end = start[k + 1];
            for (int p = start[k]; p < end; p++) y[index[p]] -= a[lower + p] * yk;
        }
        backward(y, b, first);
    }

    /**
     * Solves {@code A·x = e[plus] − e[minus]}. Forward elimination touches only what stands above the two in the elimination
     * tree (J. R. Gilbert and T. Peierls, "Sparse partial pivoting in time proportional to arithmetic operations", 1988, from
     * memory), so it costs the depth of the tree, not its size.
     *
     * @param plus row that gets 1, −1 for none
     * @param minus row that gets −1, −1 for none
     * @param first place of the first unknown in what is returned; those before it are 0
     */
    double[] difference(int plus, int minus, int first) {
        double[] y = new double[pattern.n];
        climb(plus, minus, false, y);
        double[] out = new double[first + pattern.n];
        backward(y, out, first);
        return out;
    }

    /**
     * A vector that is 0 but along two ways up the elimination tree.
     *
     * @param at places in the order of elimination, from the leaves up
     * @param value by place
     */
    record Climb(int[] at, double[] value) {
        /** Adds this times a number to a vector in the order of elimination. */
        void addTo(double[] y, double times) {
            for (int i = 0; i < at.length; i++) y[at[i]] += times * value[i];
        }

        /** The product with such a vector. */
        double times(double[] y) {
            double sum = 0;
            for (int i = 0; i < at.length; i++) sum += value[i] * y[at[i]];
            return sum;
        }

        /** Makes such a vector 0 where this is not. */
        void clear(double[] y) {
            for (int place : at) y[place] = 0;
        }
    }

    /**
     * {@code L⁻¹·(e[plus] − e[minus])} or {@code U⁻ᵀ·(e[plus] − e[minus])}. The product of one of these with one of those is
     * the voltage across two rows for one ampere through two others, with no column solved for.
     *
     * @param plus row that gets 1, −1 for none
     * @param minus row that gets −1, −1 for none
     * @param ofUpper true for the second
     * @param room as many zeros as there are rows; zeros again afterwards
     */
    Climb climbed(int plus, int minus, boolean ofUpper, double[] room) {
        int[] at = climb(plus, minus, ofUpper, room);
        double[] value = new double[at.length];
        for (int i = 0; i < at.length; i++) value[i] = room[at[i]];
        Climb out = new Climb(at, value);
        out.clear(room);
        return out;
    }

    /** Eliminates forward; returns the places that may have become other than 0. */
    private int[] climb(int plus, int minus, boolean ofUpper, double[] y) {
        int n = pattern.n;
        int factors = ofUpper ? n : n + pattern.index.length;
        int[] start = pattern.start;
        int[] index = pattern.index;
        int[] places = new int[16];
        int count = 0;
        int one = plus < 0 ? n : pattern.position[plus];
        int other = minus < 0 ? n : pattern.position[minus];
        if (one < n) y[one] = 1;
        if (other < n) y[other] = -1;
        while (one < n || other < n) {
            int k = Math.min(one, other);
            if (ofUpper) y[k] /= values[k];
            int end = start[k + 1];
            for (int p = start[k]; p < end; p++) y[index[p]] -= values[factors + p] * y[k];
            if (one == k) one = pattern.parent[k];
            if (other == k) other = pattern.parent[k];
            if (count == places.length) places = Arrays.copyOf(places, 2 * count);
            places[count++] = k;
        }
        return Arrays.copyOf(places, count);
    }

    /**
     * Solves {@code U·x = y} for some rows.
     *
     * @param y in the order of elimination; overwritten by x in the same order
     * @param places as {@link Pattern#upTo} gives them
     */
    void backward(double[] y, int[] places) {
        int n = pattern.n;
        int[] start = pattern.start;
        int[] index = pattern.index;
        for (int k : places) {
            double sum = y[k];
            int end = start[k + 1];
            for (int p = start[k]; p < end; p++) sum -= values[n + p] * y[index[p]];
            y[k] = sum / values[k];
        }
    }

    /**
     * Solves {@code U·x = y}.
     *
     * @param y in the order of elimination; overwritten by x in the same order
     */
    void backward(double[] y) {
        int n = pattern.n;
        int[] start = pattern.start;
        int[] index = pattern.index;
        double[] a = values;
        for (int k = n - 1; k >= 0; k--) {
            double sum = y[k];
            int end = start[k + 1];
            for (int p = start[k]; p < end; p++) sum -= a[n + p] * y[index[p]];
            y[k] = sum / a[k];
        }
    }

    /** @param y what forward elimination has left, in the order of elimination; overwritten */
    private void backward(double[] y, double[] b, int first) {
        backward(y);
        int[] position = pattern.position;
        for (int i = 0; i < y.length; i++) b[first + i] = y[position[i]];
    }
}
