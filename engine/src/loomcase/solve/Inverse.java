package loomcase.solve;

import java.util.Arrays;
import java.util.List;

/**
 * {@code W = A⁻¹·U} of a change of few stamps, A the healthy matrix: volts by node for one ampere through each of them. Either
 * whole columns, which others have use for too, or what little of them one solution needs.
 */
sealed interface Inverse {
    /** {@code VᵀW} in ohms, row by row as the stamps are. */
    double[][] across();

    /**
     * Adds {@code W·times}.
     *
     * @param volts by node, chassis first: all nodes or the active ones
     * @param times amperes by stamp
     */
    void addTo(double[] volts, double[] times);

    /** Columns of W, as many as there are stamps. */
    List<Column> columns();

    /** Columns that somebody keeps: the cheaper, the more often nodes and pairs of nodes come back. */
    record Kept(List<Stamp> change, List<Column> columns) implements Inverse {
        @Override
        public double[][] across() {
            int k = change.size();
            double[][] out = new double[k][k];
            for (int c = 0; c < k; c++) {
                Column column = columns.get(c);
                for (int r = 0; r < k; r++) out[r][c] = column.across(change.get(r));
            }
            return out;
        }

        @Override
        public void addTo(double[] volts, double[] times) {
            for (int c = 0; c < times.length; c++)
                if (times[c] != 0) columns.get(c).addTo(volts, times[c]);
        }
    }

    /**
     * No columns. With {@code A = L·U}, {@code VᵀW = (U⁻ᵀV)ᵀ·(L⁻¹U)}, and both factors are 0 but on the ways from the stamps'
     * nodes up the elimination tree, a few dozen rows; {@code W·times} is one backward substitution for all columns
     * together. Cost: ways times columns squared, and once all rows that the nodes asked for depend on.
     */
    final class Climbing implements Inverse {
        private final List<Stamp> change;
        private final SparseLu factors;
        private final int[] position;
        private final int[] forActive;
        private final SparseLu.Climb[] entering;
        private final double[] room;

        /**
         * @param forActive places that the active nodes depend on, see {@link SparseLu.Pattern#upTo}
         */
        Climbing(SparseLu factors, SparseLu.Pattern pattern, int[] forActive, List<Stamp> change) {
            this.change = change;
            this.factors = factors;
            this.position = pattern.position;
            this.forActive = forActive;
            this.room = new double[pattern.n];
            this.entering = change.stream()
                    .map(s -> factors.climbed(s.from() - 1, s.to() - 1, false, room))
                    .toArray(SparseLu.Climb[]::new);
        }

        @Override
        public double[][] across() {
            int k = entering.length;
            double[][] out = new double[k][k];
            for (int r = 0; r < k; r++) {
                Stamp s = change.get(r);
                SparseLu.Climb looking = factors.climbed(s.plus() - 1, s.minus() - 1, true, room);
                looking.addTo(room, 1);
                for (int c = 0; c < k; c++) out[r][c] = entering[c].times(room);
                looking.clear(room);
            }
            return out;
        }

        @Override
        public void addTo(double[] volts, double[] times) {
            for (int c = 0; c < times.length; c++) if (times[c] != 0) entering[c].addTo(room, times[c]);
            boolean all = volts.length > room.length;
            if (all) factors.backward(room);
            else factors.backward(room, forActive);
            for (int i = 1; i < volts.length; i++) volts[i] += room[position[i - 1]];
            Arrays.fill(room, 0);
        }

        @Override
        public List<Column> columns() {
            return change.stream()
                    .map(s -> Column.solved(factors, s.from(), s.to()))
                    .toList();
        }
    }
}
