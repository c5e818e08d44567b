package loomcase.j1939;

/**
 * A 29 bit identifier, taken apart.
 *
 * <p>Bits 28..26 priority, 25 extended data page, 24 data page, 23..16 PDU format, 15..8 PDU specific, 7..0 source. Below
 * PDU format 240 the specific byte is the destination and counts as 0 in the parameter group number (PGN); from 240 up it
 * is part of the PGN and the message goes to everybody. Source: SAE J1939-21, as in the kernel documentation of
 * SocketCAN ("SAE J1939 kernel module", networking/j1939).
 *
 * @param priority 0 (most urgent) .. 7
 * @param pgn 0..0x3FFFF
 * @param source 0..255
 * @param destination 0..255, {@value #EVERYBODY} for everybody
 */
public record CanId(int priority, int pgn, int source, int destination) {
    /** The destination that means all. */
    public static final int EVERYBODY = 255;

    private static final int FIRST_BROADCAST_FORMAT = 240;

    public CanId {
        check("priority", priority, 7);
        check("PGN", pgn, 0x3FFFF);
        check("source", source, 255);
        check("destination", destination, 255);
        boolean addressed = (pgn >>> 8 & 0xFF) < FIRST_BROADCAST_FORMAT;
        if (addressed && (pgn & 0xFF) != 0) {
            throw new IllegalArgumentException("PGN " + pgn + " is addressed, so its low byte must be 0");
        }
        if (!addressed && destination != EVERYBODY) {
            throw new IllegalArgumentException("PGN " + pgn + " goes to everybody, not to " + destination);
        }
    }

    /** From the 29 bits of an identifier. */
    public static CanId ofBits(int id) {
        return new CanId(id >>> 26 & 7, pgn(id), source(id), destination(id));
    }

    /** The 29 bits. */
    public int bits() {
        boolean addressed = (pgn >>> 8 & 0xFF) < FIRST_BROADCAST_FORMAT;
        return priority << 26 | pgn << 8 | (addressed ? destination << 8 : 0) | source;
    }

    /** Parameter group number of an identifier, without making a record. */
    public static int pgn(int id) {
        int pgn = id >>> 8 & 0x3FFFF;
        return (pgn >>> 8 & 0xFF) < FIRST_BROADCAST_FORMAT ? pgn & 0x3FF00 : pgn;
    }

    /** Source address of an identifier. */
    public static int source(int id) {
        return id & 0xFF;
    }

    /** Destination address of an identifier, {@value #EVERYBODY} where the message goes to all. */
    public static int destination(int id) {
        return (id >>> 16 & 0xFF) < FIRST_BROADCAST_FORMAT ? id >>> 8 & 0xFF : EVERYBODY;
    }

    /** Whether both data page bits are set, which J1939-21 leaves to ISO 15765-3: such a frame is not J1939. */
    public static boolean foreign(int id) {
        return (id >>> 24 & 3) == 3;
    }

    private static void check(String what, int value, int most) {
        if (value < 0 || value > most) {
            throw new IllegalArgumentException(what + " " + value + " is outside 0.." + most);
        }
    }
}
