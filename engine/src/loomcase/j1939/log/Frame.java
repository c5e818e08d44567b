package loomcase.j1939.log;

import java.util.OptionalDouble;

/** The frame of the current line; one object is filled again for every line, so that a log costs no garbage. */
final class Frame {
    static final int MAX_BYTES = 8;

    /** What a line turned out to be. */
    enum Sort {
        DATA,
        STANDARD,
        REMOTE,
        ERROR,
        FLEXIBLE,
        DROPPED,
        BLANK,
        TRUNCATED,
        UNREADABLE
    }

    /** The 29 bit identifier; meaningful for DATA only. */
    int id;
    /** How many bytes of {@link #data} were sent. */
    int length;

    final byte[] data = new byte[MAX_BYTES];

    /** Whether the line has a time stamp. */
    boolean timed;
    /** The stamp, nanoseconds since its own zero. */
    long nanos;

    /** Where the interface name stands in {@link #text}; empty if both are equal. */
    int networkFrom;

    int networkTo;

    /** The line itself, for warnings. */
    byte[] text = new byte[0];

    int from;
    int to;
    long line;

    int at(int index) {
        return data[index] & 0xFF;
    }

    OptionalDouble seconds() {
        return timed ? OptionalDouble.of(seconds(nanos)) : OptionalDouble.empty();
    }

    static double seconds(long nanos) {
        return nanos / 1e9;
    }
}
