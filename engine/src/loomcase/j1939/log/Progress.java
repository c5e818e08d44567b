package loomcase.j1939.log;

/** Told now and then how far a read has come. */
@FunctionalInterface
public interface Progress {
    /** Tells nobody. */
    Progress NONE = (bytesDone, bytesTotal) -> {};

    /**
     * Called from the reading thread, about once a {@value LogReader#BUFFER_BYTES} bytes and once at the end.
     *
     * @param bytesDone bytes read so far, never falling
     * @param bytesTotal size of the log, 0 where it is not known beforehand
     */
    void at(long bytesDone, long bytesTotal);
}
