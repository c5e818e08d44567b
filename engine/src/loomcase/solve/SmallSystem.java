package loomcase.solve;

/** A few linear equations in as many unknowns, factorised once with row pivoting for all their right sides. */
final class SmallSystem {
    private static final double SINGULAR = 1e-300;

    private final double[][] rows;
    private final int[] order;
    private final double pivot;

    /** @param rows k of k, in any order; overwritten by the factors and kept */
    SmallSystem(double[][] rows) {
        int k = rows.length;
        this.rows = rows;
        this.order = new int[k];
        for (int r = 0; r < k; r++) order[r] = r;
        double least = 1;
        for (int c = 0; c < k && least > 0; c++) {
            swap(c, largest(c));
            double[] row = rows[c];
            double largest = 1;
            for (int j = c; j < k; j++) largest = Math.max(largest, Math.abs(row[j]));
            least = Math.abs(row[c]) > SINGULAR ? Math.min(least, Math.abs(row[c]) / largest) : 0;
            for (int r = c + 1; r < k; r++) {
                double[] other = rows[r];
                if (other[c] == 0) continue;
                double f = other[c] /= row[c];
                for (int j = c + 1; j < k; j++) other[j] -= f * row[j];
            }
        }
        this.pivot = least;
    }

    private int largest(int column) {
        int best = column;
        for (int r = column + 1; r < rows.length; r++)
            if (Math.abs(rows[r][column]) > Math.abs(rows[best][column])) best = r;
        return best;
    }

    private void swap(int a, int b) {
        double[] row = rows[b];
        rows[b] = rows[a];
        rows[a] = row;
        int place = order[b];
        order[b] = order[a];
        order[a] = place;
    }

    /** The smallest pivot as a share of its row's largest entry or of one: digits left; 0 when singular to working precision. */
    double pivot() {
        return pivot;
    }

    /**
     * Solves in place; only where {@link #pivot} is above 0.
     *
     * @param right right side, overwritten by the unknowns
     */
    void solve(double[] right) {
        int k = rows.length;
        double[] b = new double[k];
        for (int r = 0; r < k; r++) {
            double sum = right[order[r]];
            double[] row = rows[r];
            for (int j = 0; j < r; j++) sum -= row[j] * b[j];
            b[r] = sum;
        }
        for (int r = k - 1; r >= 0; r--) {
            double sum = b[r];
            double[] row = rows[r];
            for (int j = r + 1; j < k; j++) sum -= row[j] * right[j];
            right[r] = sum / row[r];
        }
    }
}
