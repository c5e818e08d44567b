package loomcase.predict;

import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import loomcase.Crc32c;
import loomcase.model.Edit;

/**
 * The probability of every watch's condition at one operating point, healthy and under each of many lists of edits.
 *
 * <p>A row holds only the watches whose probability differs from the healthy one, as the solver gave it: nothing is rounded,
 * so predictions from a table that was kept equal those from solving to the last bit.
 *
 * <p>Bytes, little-endian: magic, edits' hash, watches, rows, entries (int each); probability of each watch (double);
 * start of each row and the end of the last (int); probability of each entry (double); watch of each entry (short);
 * settled, one byte a row; CRC-32C of all before (int).
 */
final class PointTable {
    /** Changed whenever the form changes. */
    private static final int MAGIC = 0x4c435031;

    private static final int MOST_WATCHES = Short.MAX_VALUE;

    private final int editsHash;
    private final double[] healthy;
    private final int[] start;
    private final int[] watch;
    private final double[] probability;
    private final boolean[] settled;

    private PointTable(
            int editsHash, double[] healthy, int[] start, int[] watch, double[] probability, boolean[] settled) {
        this.editsHash = editsHash;
        this.healthy = healthy;
        this.start = start;
        this.watch = watch;
        this.probability = probability;
        this.settled = settled;
    }

    /** Collects rows in order. */
    static final class Builder {
        private final List<List<Edit>> edits;
        private final double[] healthy;
        private final int[] start;
        private final boolean[] settled;
        private int[] watch = new int[1024];
        private double[] probability = new double[1024];
        private int rows;
        private int entries;

        Builder(List<List<Edit>> edits, double[] healthy) {
            this(edits, edits.size(), healthy);
        }

        /** Of a table whose edits nobody will ask for. */
        Builder(int rows, double[] healthy) {
            this(List.of(), rows, healthy);
        }

        private Builder(List<List<Edit>> edits, int rows, double[] healthy) {
            this.edits = edits;
            this.healthy = healthy;
            this.start = new int[rows + 1];
            this.settled = new boolean[rows];
        }

        /** Adds an entry to the row under way where it differs from the healthy probability. */
        void entry(int w, double p) {
            if (p == healthy[w]) return;
            if (entries == watch.length) {
                watch = Arrays.copyOf(watch, 2 * entries);
                probability = Arrays.copyOf(probability, 2 * entries);
            }
            watch[entries] = w;
            probability[entries++] = p;
        }

        void endRow(boolean isSettled) {
            settled[rows++] = isSettled;
            start[rows] = entries;
        }

        PointTable build() {
            return new PointTable(
                    edits.hashCode(),
                    healthy,
                    start,
                    Arrays.copyOf(watch, entries),
                    Arrays.copyOf(probability, entries),
                    settled);
        }
    }

    /** True when the rows are those of these edits, in this order. */
    boolean isOf(List<List<Edit>> edits) {
        return edits.size() == settled.length && edits.hashCode() == editsHash;
    }

    /** Probability of each watch's condition on a healthy engine. */
    double[] healthy() {
        return healthy;
    }

    PointRow row(int row) {
        return new PointRow(watch, probability, start[row], start[row + 1], settled[row]);
    }

    /** The table as bytes; empty when the circuit has more watches than the form can name. */
    Optional<byte[]> bytes() {
        if (healthy.length > MOST_WATCHES) return Optional.empty();
        int size = 5 * 4 + healthy.length * 8 + start.length * 4 + watch.length * 10 + settled.length + 4;
        ByteBuffer out = ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
        out.putInt(MAGIC)
                .putInt(editsHash)
                .putInt(healthy.length)
                .putInt(settled.length)
                .putInt(watch.length);
        for (double p : healthy) out.putDouble(p);
        for (int s : start) out.putInt(s);
        for (double p : probability) out.putDouble(p);
        for (int w : watch) out.putShort((short) w);
        for (boolean s : settled) out.put((byte) (s ? 1 : 0));
        out.putInt(Crc32c.of(out.array(), size - 4));
        return Optional.of(out.array());
    }

    /**
     * Reads a table back.
     *
     * @param watches how many watches the circuit has
     * @return empty when the bytes are damaged or not of this form
     */
    static Optional<PointTable> of(byte[] bytes, int watches) {
        ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        try {
            if (bytes.length < 24
                    || in.getInt() != MAGIC
                    || in.getInt(bytes.length - 4) != Crc32c.of(bytes, bytes.length - 4)) return Optional.empty();
            int hash = in.getInt();
            if (in.getInt() != watches) return Optional.empty();
            int rows = in.getInt();
            int entries = in.getInt();
            double[] healthy = doubles(in, watches);
            int[] start = new int[rows + 1];
            in.asIntBuffer().get(start);
            in.position(in.position() + 4 * start.length);
            double[] probability = doubles(in, entries);
            int[] watch = new int[entries];
            for (int i = 0; i < entries; i++) watch[i] = in.getShort();
            boolean[] settled = new boolean[rows];
            for (int r = 0; r < rows; r++) settled[r] = in.get() == 1;
            if (in.remaining() != 4) return Optional.empty();
            return Optional.of(new PointTable(hash, healthy, start, watch, probability, settled));
        } catch (BufferUnderflowException | IllegalArgumentException | NegativeArraySizeException e) {
            return Optional.empty();
        }
    }

    private static double[] doubles(ByteBuffer in, int n) {
        double[] out = new double[n];
        in.asDoubleBuffer().get(out);
        in.position(in.position() + 8 * n);
        return out;
    }
}
