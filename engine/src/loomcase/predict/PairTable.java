package loomcase.predict;

import java.util.BitSet;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.Supplier;
import loomcase.solve.Ties;

/**
 * Many faults, each solved by itself in some phases of every operating point, and between what that which any two of them
 * would show together must lie.
 *
 * <p>In those phases two faults are laid over each other ({@link loomcase.solve.Overlay}) or, where they cannot be, solved
 * jointly; of what is read in other phases nothing is known, and the control unit may be silent for want of supply in any of
 * them. On a harness what is known is within a few millionths of a volt of the joint solution. Several threads may
 * look, each by itself.
 */
public final class PairTable {
    private final List<PointPairs> points;
    private final Supplier<CodeSums> sums;

    PairTable(List<PointPairs> points, Supplier<CodeSums> sums) {
        this.points = points;
        this.sums = sums;
    }

    /** The codes that a fault by itself may show, or keep from being shown, in the phases looked at. */
    public Touched touched(int fault) {
        CodeSums codes = sums.get();
        Touched out = Touched.none();
        for (PointPairs p : points) out = out.and(p.touched(fault).of(codes::reachedBy));
        return out;
    }

    /** The codes that may be shown, or kept from being shown, by what is read in phases not looked at. */
    public BitSet notLookedAt() {
        CodeSums codes = sums.get();
        BitSet out = new BitSet();
        for (PointPairs p : points) out.or(codes.reachedBy(p.notLookedAt()));
        return out;
    }

    /** For one thread. */
    public Look look() {
        return new Look();
    }

    /** What one thread looks at. Not thread-safe. */
    public final class Look {
        private final List<PointPairs.Look> looks =
                points.stream().map(PointPairs::look).toList();
        private final CodeSums ofThread = sums.get();

        private final PointRow[] rows = new PointRow[points.size()];
        private final BitSet[] open = new BitSet[points.size()];

        private Look() {}

        /** What two faults have to do with each other, in some phase looked at. */
        public Ties ties(int a, int b) {
            return looks.stream().map(look -> look.ties(a, b)).reduce(Ties.NONE, Ties::or);
        }

        /**
         * Between what the codes must lie that two faults would show together.
         *
         * @param a number of one in the list asked about
         * @param b of the other
         * @param matters asked of what is known after every few phases; when it says no no more are looked at
         * @return by case, of which one holds: the unit may have its supply, or be silent, at each operating point; empty
         *     when they do not matter
         */
        public List<Between> together(int a, int b, Predicate<List<Between>> matters) {
            looks.forEach(look -> look.turnTo(a, b));
            looks.forEach(PointPairs.Look::layFirst);
            List<Between> known = cases();
            if (!matters.test(known)) return List.of();
            looks.forEach(PointPairs.Look::layRest);
            known = cases();
            boolean stillMatters = matters.test(known);
            for (PointPairs.Look look : looks)
                while (stillMatters && look.solveNext()) {
                    known = cases();
                    stillMatters = matters.test(known);
                }
            return stillMatters ? known : List.of();
        }

        private List<Between> cases() {
            for (int p = 0; p < rows.length; p++) {
                rows[p] = looks.get(p).row();
                open[p] = looks.get(p).open();
            }
            return ofThread.cases(rows, open);
        }
    }
}
