package loomcase.predict;

import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import loomcase.Crc32c;
import loomcase.model.Edit;

/**
 * Bytes for a {@link Dictionary} that hold lists of edits: each text once, edits by the numbers of their texts.
 *
 * <p>Form, little-endian: magic (int); number of texts (int), each its length (short) and UTF-8; what the writer wrote;
 * CRC-32C of all before (int). An edit is its sort (byte), the numbers of its texts (int each), its numbers (double each).
 */
public final class KeptBytes {
    private static final Edit.Quantity[] QUANTITIES = Edit.Quantity.values();

    private KeptBytes() {}

    /** Collects what is to be kept. */
    public static final class Writer {
        private final Map<String, Integer> texts = new LinkedHashMap<>();
        private ByteBuffer body = ByteBuffer.allocate(1 << 16).order(ByteOrder.LITTLE_ENDIAN);

        private ByteBuffer room(int bytes) {
            if (body.remaining() < bytes) {
                byte[] larger = Arrays.copyOf(body.array(), 2 * body.capacity() + bytes);
                body = ByteBuffer.wrap(larger).order(ByteOrder.LITTLE_ENDIAN).position(body.position());
            }
            return body;
        }

        /** Adds a number. */
        public Writer number(int value) {
            room(Integer.BYTES).putInt(value);
            return this;
        }

        /** Adds a number. */
        public Writer number(double value) {
            room(Double.BYTES).putDouble(value);
            return this;
        }

        /** Adds a text of up to 32,767 bytes. */
        public Writer text(String text) {
            Integer known = texts.putIfAbsent(text, texts.size());
            return number(known == null ? texts.size() - 1 : known);
        }

        /** Adds a list of edits. */
        public Writer edits(List<Edit> edits) {
            number(edits.size());
            edits.forEach(this::edit);
            return this;
        }

        private void edit(Edit edit) {
            if (edit instanceof Edit.Series s) sort(0).text(s.element()).number(s.ohms());
            else if (edit instanceof Edit.Bridge b)
                sort(1).text(b.pointA()).text(b.pointB()).number(b.ohms());
            else if (edit instanceof Edit.Source s)
                sort(2).text(s.pointA()).text(s.pointB()).number(s.volts()).number(s.ohms());
            else if (edit instanceof Edit.Value v)
                sort(3).text(v.device()).number(v.quantity().ordinal()).number(v.value());
            else if (edit instanceof Edit.Dead d) sort(4).text(d.what());
            else throw new IllegalStateException("unknown edit " + edit);
        }

        private Writer sort(int sort) {
            room(1).put((byte) sort);
            return this;
        }

        /** Everything added, under a magic number that stands for its form. */
        public byte[] bytes(int magic) {
            List<byte[]> names = texts.keySet().stream()
                    .map(t -> t.getBytes(StandardCharsets.UTF_8))
                    .toList();
            int size = 8 + names.stream().mapToInt(n -> 2 + n.length).sum() + body.position() + 4;
            ByteBuffer out = ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
            out.putInt(magic).putInt(names.size());
            for (byte[] n : names) out.putShort((short) n.length).put(n);
            out.put(body.array(), 0, body.position());
            out.putInt(Crc32c.of(out.array(), size - 4));
            return out.array();
        }
    }

    /** Gives back what was written, in the same order. */
    public static final class Reader {
        private final ByteBuffer in;
        private final String[] texts;

        private Reader(ByteBuffer in, String... texts) {
            this.in = in;
            this.texts = texts;
        }

        /** The next whole number. */
        public int whole() {
            return in.getInt();
        }

        /** The next number. */
        public double number() {
            return in.getDouble();
        }

        /** The next text. */
        public String text() {
            return texts[in.getInt()];
        }

        /** The next list of edits. */
        public List<Edit> edits() {
            int n = in.getInt();
            List<Edit> out = new ArrayList<>(n);
            for (int i = 0; i < n; i++) out.add(edit());
            return out;
        }

        private Edit edit() {
            int sort = in.get();
            return switch (sort) {
                case 0 -> new Edit.Series(text(), number());
                case 1 -> new Edit.Bridge(text(), text(), number());
                case 2 -> new Edit.Source(text(), text(), number(), number());
                case 3 -> new Edit.Value(text(), QUANTITIES[in.getInt()], number());
                case 4 -> new Edit.Dead(text());
                default -> throw new IllegalArgumentException("no edit is of the sort " + sort);
            };
        }
    }

    /**
     * Reads bytes back.
     *
     * @param how makes of them what was written
     * @return empty when they are damaged or of another form
     */
    public static <T> Optional<T> read(byte[] bytes, int magic, Function<Reader, T> how) {
        ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        try {
            int end = bytes.length - 4;
            if (in.getInt() != magic || in.getInt(end) != Crc32c.of(bytes, end)) return Optional.empty();
            String[] texts = new String[in.getInt()];
            for (int i = 0; i < texts.length; i++) {
                int length = in.getShort();
                texts[i] = new String(bytes, in.position(), length, StandardCharsets.UTF_8);
                in.position(in.position() + length);
            }
            return Optional.of(how.apply(new Reader(in, texts)));
        } catch (BufferUnderflowException | IllegalArgumentException | IndexOutOfBoundsException damaged) {
            return Optional.empty();
        }
    }
}
