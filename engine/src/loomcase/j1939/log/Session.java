package loomcase.j1939.log;

import loomcase.j1939.TroubleMessage;

/** One transfer from one sender to one receiver, open or just ended. */
final class Session {
    static final int PACKET_BYTES = 7;
    static final int MIN_BYTES = 9;
    static final int MAX_BYTES = 1785;

    private static final byte[] NOTHING = new byte[0];

    /** What to make of a data packet that comes now. */
    enum Phase {
        /** No start was seen. */
        NONE,
        /** A trouble message is being put together. */
        OPEN,
        /** A start was seen that is of no interest, or the transfer failed; its packets are passed over. */
        IGNORED
    }

    Phase phase = Phase.NONE;
    TroubleMessage.Kind kind = TroubleMessage.Kind.DM1;
    boolean broadcast;
    int pgn;
    int size;
    int packets;
    /** Last packet in sequence; for a BAM every packet must be the next one. */
    int last;

    int received;
    boolean[] seen = new boolean[0];
    byte[] body = NOTHING;
    boolean timed;
    long nanos;
    long startLine;
    int source;

    void open(TroubleMessage.Kind opened, Frame start, boolean toAll, int packetCount, int bytes) {
        phase = Phase.OPEN;
        kind = opened;
        pgn = opened.pgn();
        broadcast = toAll;
        size = bytes;
        packets = packetCount;
        last = 0;
        received = 0;
        seen = new boolean[packetCount + 1];
        body = new byte[bytes];
        startLine = start.line;
        source = start.id & 0xFF;
        touch(start);
    }

    /** Stores a packet; the caller has checked its number and length. */
    void store(Frame packet, int number) {
        int offset = (number - 1) * PACKET_BYTES;
        System.arraycopy(packet.data, 1, body, offset, Math.min(PACKET_BYTES, size - offset));
        if (!seen[number]) {
            seen[number] = true;
            received++;
        }
        last = number;
    }

    boolean complete() {
        return received == packets;
    }

    /** How many bytes the packet of this number must bring, its number included. */
    int frameBytes(int number) {
        return 1 + Math.min(PACKET_BYTES, size - (number - 1) * PACKET_BYTES);
    }

    void touch(Frame frame) {
        timed = frame.timed;
        nanos = frame.nanos;
    }

    void end(Phase then) {
        phase = then;
        body = NOTHING;
        seen = new boolean[0];
    }
}
