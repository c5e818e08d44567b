package loomcase.predict;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Many faults, each solved by itself, and what any two of them would show together without a joint solve.
 *
 * <p>Two faults that can be laid over each other at every instant (see {@link loomcase.solve.Overlay}) give the sum of what
 * each does, less what the two take from each other: a watch that only one of them changes has its probability under that
 * one, the others are read of both. On a harness this is within a few millionths of a volt of the joint solution. Not
 * thread-safe.
 */
public final class PairTable {
    private final List<PointPairs> points;
    private final CodeSums sums;

    PairTable(List<PointPairs> points, CodeSums sums) {
        this.points = points;
        this.sums = sums;
    }

    /**
     * The codes that a fault would show together with each of some others.
     *
     * @param a its number in the list asked about
     * @param others theirs
     * @return in their order; empty where the two must be solved jointly
     */
    public List<Optional<Prediction>> together(int a, List<Integer> others) {
        List<BitSet> apart = points.stream().map(p -> new BitSet()).toList();
        List<PointTable> tables = IntStream.range(0, points.size())
                .parallel()
                .mapToObj(p -> points.get(p).together(a, others, apart.get(p)))
                .toList();
        List<Optional<Prediction>> out = new ArrayList<>();
        for (int k = 0; k < others.size(); k++) {
            int row = k;
            out.add(
                    apart.stream().allMatch(set -> set.get(row))
                            ? Optional.of(sums.prediction(tables, row))
                            : Optional.empty());
        }
        return out;
    }
}
