package loomcase.policy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.Crc32c;

/**
 * A {@link PolicyOutcome} as bytes, so that what the rules that come with the program conclude for a circuit need not be
 * concluded again at every start: loading the rules takes longer than many a ranking.
 *
 * <p>Form, as {@link DataOutputStream} writes it: masks, readings, cautions, rulings on tests, each with its count (int)
 * before it; whether the shop differs; names of rules; CRC-32C of all before (int).
 */
public final class KeptOutcome {
    private KeptOutcome() {}

    private interface Write<T> {
        void to(DataOutputStream out, T each) throws IOException;
    }

    private interface Read<T> {
        T from(DataInputStream in) throws IOException;
    }

    /** The outcome as bytes. */
    public static byte[] bytes(PolicyOutcome outcome) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (DataOutputStream out = new DataOutputStream(bytes)) {
            write(out, outcome.masks(), KeptOutcome::mask);
            write(out, outcome.readings(), KeptOutcome::reading);
            write(out, outcome.cautions(), KeptOutcome::caution);
            write(out, outcome.tests(), KeptOutcome::ruling);
            out.writeBoolean(outcome.shopPolicyDiffers());
            write(out, outcome.ruleNamesFired(), DataOutputStream::writeUTF);
            out.writeInt(Crc32c.of(bytes.toByteArray(), bytes.size()));
            return bytes.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Reads an outcome back; empty when the bytes are damaged or not of this form. */
    public static Optional<PolicyOutcome> of(byte[] bytes) {
        int size = bytes.length - Integer.BYTES;
        if (size < 0) return Optional.empty();
        try (DataInputStream end = new DataInputStream(new ByteArrayInputStream(bytes, size, Integer.BYTES));
                DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes, 0, size))) {
            if (end.readInt() != Crc32c.of(bytes, size)) return Optional.empty();
            return Optional.of(new PolicyOutcome(
                    read(in, KeptOutcome::mask),
                    read(in, KeptOutcome::reading),
                    read(in, KeptOutcome::caution),
                    read(in, KeptOutcome::ruling),
                    in.readBoolean(),
                    read(in, from -> from.readUTF())));
        } catch (IOException | IllegalArgumentException damaged) {
            return Optional.empty();
        }
    }

    private static <T> void write(DataOutputStream out, List<T> all, Write<T> write) throws IOException {
        out.writeInt(all.size());
        for (T each : all) write.to(out, each);
    }

    private static <T> List<T> read(DataInputStream in, Read<T> read) throws IOException {
        int n = in.readInt();
        List<T> out = new ArrayList<>();
        for (int i = 0; i < n; i++) out.add(read.from(in));
        return out;
    }

    private static void mask(DataOutputStream out, Mask m) throws IOException {
        ints(out, m.bySpn(), m.byFmi(), m.hidesSpn(), m.hidesFmi());
        out.writeDouble(m.strength());
        texts(out, m.rule(), m.reason());
    }

    private static Mask mask(DataInputStream in) throws IOException {
        int[] codes = ints(in, 4);
        return new Mask(codes[0], codes[1], codes[2], codes[3], in.readDouble(), in.readUTF(), in.readUTF());
    }

    private static void reading(DataOutputStream out, FmiReading r) throws IOException {
        ints(out, r.conditionFmi(), r.shownFmi());
        out.writeDouble(r.weight());
        texts(out, r.circuitKind(), r.rule(), r.basis());
    }

    private static FmiReading reading(DataInputStream in) throws IOException {
        int[] fmis = ints(in, 2);
        double weight = in.readDouble();
        return new FmiReading(in.readUTF(), fmis[0], fmis[1], weight, in.readUTF(), in.readUTF());
    }

    private static void caution(DataOutputStream out, Caution c) throws IOException {
        texts(out, c.placeId(), c.text(), c.rule(), c.source());
    }

    private static Caution caution(DataInputStream in) throws IOException {
        return new Caution(in.readUTF(), in.readUTF(), in.readUTF(), in.readUTF());
    }

    private static void ruling(DataOutputStream out, TestRuling t) throws IOException {
        out.writeBoolean(t.forbidden());
        texts(out, t.harm(), t.text(), t.rule(), t.source());
    }

    private static TestRuling ruling(DataInputStream in) throws IOException {
        boolean forbidden = in.readBoolean();
        return new TestRuling(in.readUTF(), forbidden, in.readUTF(), in.readUTF(), in.readUTF());
    }

    private static void ints(DataOutputStream out, int... values) throws IOException {
        for (int v : values) out.writeInt(v);
    }

    private static int[] ints(DataInputStream in, int n) throws IOException {
        int[] out = new int[n];
        for (int i = 0; i < n; i++) out[i] = in.readInt();
        return out;
    }

    private static void texts(DataOutputStream out, String... values) throws IOException {
        for (String v : values) out.writeUTF(v);
    }
}
