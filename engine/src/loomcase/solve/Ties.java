package loomcase.solve;

/**
 * What two faults have to do with each other.
 *
 * @param meet both change an element, or a part or its region, or one of them has no steady state or opens a fuse
 * @param firstDiffers what the first one does is another thing because of the second
 * @param secondDiffers what the second one does is another thing because of the first
 */
public record Ties(boolean meet, boolean firstDiffers, boolean secondDiffers) {
    /** Nothing. */
    public static final Ties NONE = new Ties(false, false, false);

    /** Everything. */
    public static final Ties ALL = new Ties(true, true, true);

    /** What holds in either of two phases. */
    public Ties or(Ties other) {
        return new Ties(meet || other.meet, firstDiffers || other.firstDiffers, secondDiffers || other.secondDiffers);
    }
}
