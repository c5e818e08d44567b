package loomcase.j1939;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/**
 * The body of a DM1 or DM2: two lamp bytes, then four bytes a code.
 *
 * <p>No code at all is sent as four zero bytes (older senders: FF). Up to one code fits a frame of 8 bytes, padded with
 * FF; more go through the transport protocol. Source: SAE J1939-73 by way of the libraries named in the tests.
 */
public record TroubleMessage(Lamps lamps, List<Dtc> codes) {
    /** Which list of codes a message carries. */
    public enum Kind {
        /** Active codes, sent once a second and on change. */
        DM1(Pgn.DM1),
        /** Previously active codes, sent on request. */
        DM2(Pgn.DM2);

        private final int pgn;

        Kind(int pgn) {
            this.pgn = pgn;
        }

        public int pgn() {
            return pgn;
        }
    }

    /** A frame carries at most this many bytes; longer bodies need the transport protocol. */
    public static final int FRAME_BYTES = 8;
    /** Fewest bytes of a body: lamps and one (possibly empty) code. */
    public static final int MIN_BYTES = 6;
    /** Most codes a body can carry: the transport protocol ends at 1785 bytes. */
    public static final int MAX_CODES = (1785 - 2) / 4;

    public TroubleMessage {
        Objects.requireNonNull(lamps, "lamps");
        codes = List.copyOf(codes);
        if (codes.size() > MAX_CODES) {
            throw new IllegalArgumentException(codes.size() + " codes; a message carries at most " + MAX_CODES);
        }
    }

    /**
     * Reads a body; entries that mean "no code" and bytes past the last full entry are left out.
     *
     * @param body at least {@code length} bytes
     * @param length how many bytes of it were sent, at least {@value #MIN_BYTES}
     */
    public static TroubleMessage ofBytes(byte[] body, int length) {
        if (length < MIN_BYTES || length > body.length) {
            throw new IllegalArgumentException("a trouble message of " + length + " bytes; it needs " + MIN_BYTES);
        }
        List<Dtc> codes = new ArrayList<>();
        for (int at = 2; at + 4 <= length; at += 4) {
            Dtc dtc = Dtc.of(body[at], body[at + 1], body[at + 2], body[at + 3]);
            if (!dtc.none()) {
                codes.add(dtc);
            }
        }
        return new TroubleMessage(Lamps.ofBytes(body[0], body[1]), codes);
    }

    /** The body as sent: 8 bytes with FF behind up to one code, else exactly 2 + 4 bytes a code. */
    public byte[] bytes() {
        byte[] body = new byte[codes.size() < 2 ? FRAME_BYTES : 2 + 4 * codes.size()];
        body[0] = (byte) lamps.stateByte();
        body[1] = (byte) lamps.flashByte();
        int at = 2;
        for (Dtc dtc : codes.isEmpty() ? List.of(new Dtc(0)) : codes) {
            for (int number = 1; number <= 4; number++) {
                body[at++] = (byte) dtc.byteAt(number);
            }
        }
        while (at < body.length) {
            body[at++] = (byte) 0xFF;
        }
        return body;
    }
}
