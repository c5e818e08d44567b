package loomcase.j1939.log;

import java.util.Objects;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.j1939.CodeReading;

/**
 * One code of one sender over the whole log.
 *
 * @param reading which code it is, or which it may be
 * @param count highest occurrence count seen, empty where the sender never gave one
 * @param state as the log leaves it
 * @param appearances how often it came up in a DM1 that followed one without it, the first DM1 included; 0 if only in DM2
 * @param firstSeenSeconds stamp of the first message that held it, empty without stamps
 * @param lastSeenSeconds stamp of the last message that held it
 */
public record CodeSeen(
        CodeReading reading,
        OptionalInt count,
        State state,
        int appearances,
        OptionalDouble firstSeenSeconds,
        OptionalDouble lastSeenSeconds) {

    /** Whether a fault is there now. */
    public enum State {
        /** In the last DM1 of its sender. */
        ACTIVE,
        /** In a DM2, or in an earlier DM1 and no longer in the last one. */
        STORED
    }

    public CodeSeen {
        Objects.requireNonNull(reading, "reading");
        Objects.requireNonNull(count, "count");
        Objects.requireNonNull(state, "state");
        Objects.requireNonNull(firstSeenSeconds, "firstSeenSeconds");
        Objects.requireNonNull(lastSeenSeconds, "lastSeenSeconds");
        if (appearances < 0) {
            throw new IllegalArgumentException("appearances " + appearances + " is below 0");
        }
    }
}
