package loomcase.j1939.log;

/**
 * Frames recognised in a log, by sort.
 *
 * @param j1939 29 bit data frames, decoded
 * @param otherData 11 bit data frames, and 29 bit ones that J1939 leaves to ISO 15765-3; not decoded
 * @param remote remote requests
 * @param error error frames
 * @param flexible CAN FD and CAN XL frames, not decoded
 */
public record FrameCounts(long j1939, long otherData, long remote, long error, long flexible) {
    public long total() {
        return j1939 + otherData + remote + error + flexible;
    }
}
