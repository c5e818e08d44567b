package loomcase.solve;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;

/** Columns of the inverse of one matrix, each solved for when first asked for and kept. Several threads may ask at once. */
final class KeptColumns {
    /** Above this share of the larger self-resistance, a pair's column is the difference of its nodes' columns. */
    private static final double WELL_APART = 1e-2;

    /** Self-resistance in ohms above which a node hangs on its insulation. */
    private static final double FLOATING = 1e6;

    /** Numbers in the columns kept, 32 MiB; a harness of a thousand nodes needs no more for all its hypotheses. */
    private static final int MOST_KEPT = 1 << 22;

    private final SparseLu factors;
    private final int nodes;
    private final int blocks;
    private final Map<Long, Column> columns = new ConcurrentHashMap<>();

    /** Numbers in them: a column by node, a difference of two by block of parts. */
    private final AtomicLong numbers = new AtomicLong();

    /**
     * @param nodes how many the network has, chassis included
     * @param blocks of its parts
     */
    KeptColumns(SparseLu factors, int nodes, int blocks) {
        this.factors = factors;
        this.nodes = nodes;
        this.blocks = blocks;
    }

    /** {@code A⁻¹(e[from] − e[to])}, chassis entry 0 first. */
    Column of(int from, int to) {
        // Not shifted by 32 bits: the hash of such a number would be the same for many pairs.
        long key = (long) from * nodes + to;
        Column known = columns.get(key);
        if (known != null) return known;
        Column column = from == 0 || to == 0 ? Column.solved(factors, from, to) : ofPair(from, to);
        if (numbers.addAndGet(column.isDifference() ? blocks : nodes) > MOST_KEPT) forget();
        columns.put(key, column);
        return column;
    }

    /** Drops all when they are more than {@code most}, to give back their memory. */
    void forgetBeyond(int most) {
        if (columns.size() > most) forget();
    }

    private void forget() {
        columns.clear();
        numbers.set(0);
    }

    /** The difference of two nodes' columns where that keeps its digits, else solved for by itself. */
    private Column ofPair(int from, int to) {
        Column a = of(from, 0);
        Column b = of(to, 0);
        double larger = Math.max(a.at(from), b.at(to));
        double apart = a.at(from) - a.at(to) - b.at(from) + b.at(to);
        return larger < FLOATING && apart > WELL_APART * larger ? a.minus(b) : Column.solved(factors, from, to);
    }
}
