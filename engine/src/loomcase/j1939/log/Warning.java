package loomcase.j1939.log;

import java.util.Objects;
import java.util.OptionalLong;

/**
 * Something in the log that was left out or that a reader should doubt.
 *
 * @param count how often
 * @param firstLine line of the first case, counted from 1; empty where it concerns the whole log
 * @param example text of that line, shortened, or a few words
 */
public record Warning(Kind kind, long count, OptionalLong firstLine, String example) {
    /** What happened; each says it in words, the count goes before them. */
    public enum Kind {
        UNREADABLE_LINE("lines are no CAN frame in a form that is known"),
        TRUNCATED_FRAME("frames have fewer bytes than they claim"),
        FRAMES_DROPPED("times the recorder says that it lost frames"),
        NOT_J1939("frames are not J1939 (11 bit, or ISO 15765-3) and were left out"),
        CAN_FD("CAN FD or XL frames were left out"),
        TIME_BACKWARDS("times the time stamps go back, so times and timeouts are in doubt"),
        TRANSFER_MALFORMED("transfers of a trouble message start with sizes that do not agree"),
        TRANSFER_WITHOUT_START("transfer packets have no start in this log"),
        TRANSFER_OUT_OF_ORDER("transfers of a trouble message have packets missing, out of order or too short"),
        TRANSFER_TIMED_OUT("transfers of a trouble message paused too long and were dropped"),
        TRANSFER_ABORTED("transfers of a trouble message were aborted by a partner"),
        TRANSFER_INCOMPLETE("transfers of a trouble message were never finished"),
        MESSAGE_MALFORMED("trouble messages have a length that does not fit whole codes"),
        TOO_MANY_NETWORKS("frames of further networks were left out"),
        TOO_MANY_CODES("codes were left out because the log has too many different ones"),
        UNKNOWN_LAYOUT("codes use an older layout and may mean several SPNs"),
        NO_TROUBLE_MESSAGES("log: it has CAN frames, but no complete DM1 or DM2 in it");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        public String words() {
            return words;
        }
    }

    public Warning {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(firstLine, "firstLine");
        Objects.requireNonNull(example, "example");
        if (count < 1) {
            throw new IllegalArgumentException("warning " + kind + " with count " + count);
        }
    }

    /** One line for a person. */
    @Override
    public String toString() {
        String where = firstLine.isPresent() ? " (first in line " + firstLine.getAsLong() + ": " + example + ")" : "";
        return count + " " + kind.words() + (where.isEmpty() && !example.isEmpty() ? " (" + example + ")" : where);
    }
}
