package loomcase.j1939.log;

import loomcase.j1939.CanId;
import loomcase.j1939.TroubleMessage;

/**
 * Puts trouble messages together that were sent in many frames on one network.
 *
 * <p>Start: control byte 32 (BAM, to all) or 16 (RTS, to one), size low and high, packets, a limit, PGN low, mid, high.
 * Packets: number from 1, seven bytes. The receiver of an RTS answers 17 (CTS) and 19 (end of message); either side may send
 * 255 (abort). A sender may have one transfer to each receiver at once, and one to all. Messages of other PGNs are followed
 * only so far that their packets are not taken for ours.
 */
final class Transport {
    private static final int RTS = 16;
    private static final int CTS = 17;
    private static final int END_OF_MESSAGE = 19;
    private static final int BAM = 32;
    private static final int ABORT = 255;

    private static final long BAM_GAP_NANOS = 750_000_000L;
    private static final long RTS_GAP_NANOS = 1_250_000_000L;
    /** Only an attack or junk has this many transfers open at once; it bounds the memory. */
    private static final int MAX_OPEN = 2048;

    /** Receives whole messages. */
    interface Sink {
        void message(TroubleMessage.Kind kind, int source, byte[] body, int length, Frame last);
    }

    private final Session[][] sessions = new Session[256][];
    private final Warnings warnings;
    private final Sink sink;
    private int open;

    Transport(Warnings warnings, Sink sink) {
        this.warnings = warnings;
        this.sink = sink;
    }

    /** A TP.CM frame. */
    void control(Frame frame) {
        int source = CanId.source(frame.id);
        int destination = CanId.destination(frame.id);
        int pgn = frame.length < 8 ? -1 : frame.at(5) | frame.at(6) << 8 | frame.at(7) << 16;
        if (pgn < 0) {
            warnings.note(Warning.Kind.TRUNCATED_FRAME, frame);
            return;
        }
        switch (frame.at(0)) {
            case BAM, RTS -> start(frame, source, destination, pgn);
            case CTS -> answered(session(destination, source), frame, pgn);
            case END_OF_MESSAGE -> finished(session(destination, source), pgn);
            case ABORT -> {
                aborted(session(source, destination), frame, pgn);
                aborted(session(destination, source), frame, pgn);
            }
            default -> {
                // Reserved control bytes say nothing about a message.
            }
        }
    }

    /** A TP.DT frame. */
    void data(Frame frame) {
        Session session = session(CanId.source(frame.id), CanId.destination(frame.id));
        if (session.phase == Session.Phase.OPEN && late(session, frame)) {
            fail(session, Warning.Kind.TRANSFER_TIMED_OUT);
        }
        if (session.phase == Session.Phase.NONE) {
            warnings.note(Warning.Kind.TRANSFER_WITHOUT_START, frame);
        } else if (session.phase == Session.Phase.OPEN) {
            packet(session, frame);
        }
    }

    /** The log is over: what is still open stays unfinished. */
    void end() {
        for (Session[] row : sessions) {
            for (int i = 0; row != null && i < row.length; i++) {
                if (row[i] != null && row[i].phase == Session.Phase.OPEN) {
                    fail(row[i], Warning.Kind.TRANSFER_INCOMPLETE);
                }
            }
        }
    }

    private void start(Frame frame, int source, int destination, int pgn) {
        Session session = session(source, destination);
        if (session.phase == Session.Phase.OPEN) {
            boolean late = late(session, frame);
            fail(session, late ? Warning.Kind.TRANSFER_TIMED_OUT : Warning.Kind.TRANSFER_INCOMPLETE);
        }
        session.end(Session.Phase.IGNORED);
        TroubleMessage.Kind kind = kind(pgn);
        if (kind == null) {
            return;
        }
        boolean toAll = frame.at(0) == BAM;
        int size = frame.at(1) | frame.at(2) << 8;
        int packets = frame.at(3);
        boolean agrees = size >= Session.MIN_BYTES
                && size <= Session.MAX_BYTES
                && packets == (size + Session.PACKET_BYTES - 1) / Session.PACKET_BYTES
                && toAll == (destination == CanId.EVERYBODY);
        if (!agrees || open >= MAX_OPEN) {
            warnings.note(Warning.Kind.TRANSFER_MALFORMED, frame);
            return;
        }
        session.open(kind, frame, toAll, packets, size);
        open++;
    }

    private void packet(Session session, Frame frame) {
        int number = frame.length == 0 ? 0 : frame.at(0);
        // An RTS receiver may ask for a packet again, so there only the range counts; a BAM has no second chance.
        boolean expected = session.broadcast ? number == session.last + 1 : number >= 1;
        if (!expected || number > session.packets || frame.length < session.frameBytes(number)) {
            fail(session, Warning.Kind.TRANSFER_OUT_OF_ORDER, frame);
            return;
        }
        session.store(frame, number);
        session.touch(frame);
        if (session.complete()) {
            byte[] body = session.body;
            close(session);
            sink.message(session.kind, session.source, body, body.length, frame);
        }
    }

    private void answered(Session session, Frame frame, int pgn) {
        if (session.phase == Session.Phase.OPEN && session.pgn == pgn && !session.broadcast) {
            if (late(session, frame)) {
                fail(session, Warning.Kind.TRANSFER_TIMED_OUT);
            } else {
                session.touch(frame);
            }
        }
    }

    /** The receiver says that it has all; if we have not, our recording has a hole. */
    private void finished(Session session, int pgn) {
        if (session.phase == Session.Phase.OPEN && session.pgn == pgn && !session.broadcast) {
            fail(session, Warning.Kind.TRANSFER_INCOMPLETE);
        }
    }

    private void aborted(Session session, Frame frame, int pgn) {
        if (session.phase == Session.Phase.OPEN && session.pgn == pgn && !session.broadcast) {
            fail(session, Warning.Kind.TRANSFER_ABORTED, frame);
        }
    }

    private boolean late(Session session, Frame frame) {
        long most = session.broadcast ? BAM_GAP_NANOS : RTS_GAP_NANOS;
        return session.timed && frame.timed && frame.nanos - session.nanos > most;
    }

    private void fail(Session session, Warning.Kind why) {
        warnings.note(why, session.startLine, session.kind + " of source " + session.source + " started here");
        close(session);
    }

    private void fail(Session session, Warning.Kind why, Frame frame) {
        warnings.note(why, frame);
        close(session);
    }

    /** Packets that still come for an ended transfer are passed over in silence. */
    private void close(Session session) {
        session.end(Session.Phase.IGNORED);
        open--;
    }

    private Session session(int source, int destination) {
        Session[] row = sessions[source];
        if (row == null) {
            row = sessions[source] = new Session[256];
        }
        Session session = row[destination];
        if (session == null) {
            session = row[destination] = new Session();
        }
        return session;
    }

    /** Which trouble message a PGN is, or null for any other; kept inside this class. */
    private static TroubleMessage.Kind kind(int pgn) {
        for (TroubleMessage.Kind kind : TroubleMessage.Kind.values()) {
            if (kind.pgn() == pgn) {
                return kind;
            }
        }
        return null;
    }
}
