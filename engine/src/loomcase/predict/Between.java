package loomcase.predict;

import java.util.BitSet;

/**
 * The codes that some edits would show where not everything has been looked at: each probability lies between two.
 *
 * @param codes numbers in the {@link CodeTable}, ascending
 * @param least the least that the probability of each may be, same order
 * @param most the most
 * @param open codes not among these that may have any probability; all others have a healthy engine's
 */
public record Between(int[] codes, double[] least, double[] most, BitSet open) {}
