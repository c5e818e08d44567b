package loomcase.journal;

import java.util.OptionalInt;

/**
 * What holds of one line after corrections.
 *
 * @param n number of the line; it keeps its place in the order however late it was corrected
 * @param stamp when it was written, by whom
 * @param fact what holds
 * @param correctedBy number of the correction that holds, empty when the line stands as written
 */
public record Standing(int n, Entry.Stamp stamp, Fact fact, OptionalInt correctedBy) {}
