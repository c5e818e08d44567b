package loomcase.journal;

import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Optional;

/**
 * One line of a case.
 *
 * @param n its number, from 1 without gaps
 * @param stamp when, by whom
 * @param fact what it says
 * @param previous digest of the line before, {@link Digest#NONE} for the first
 * @param digest digest of this line; what it covers is said in {@link EntryLine}
 */
public record Entry(int n, Stamp stamp, Fact fact, Digest previous, Digest digest) {

    /**
     * Who says it, and when.
     *
     * @param at when it was written, to the second
     * @param by who wrote it
     * @param confirmed the oddity that was pointed out and confirmed, empty for none
     */
    public record Stamp(OffsetDateTime at, String by, Optional<String> confirmed) {
        public Stamp {
            at = at.truncatedTo(ChronoUnit.SECONDS);
            if (at.getYear() < 1970 || at.getYear() > 9999)
                throw new IllegalArgumentException("year " + at.getYear() + " is not within 1970 to 9999");
            Words.some("by", by);
            confirmed.ifPresent(c -> Words.some("confirmed", c));
        }

        /** A stamp of something that was not odd. */
        public static Stamp of(OffsetDateTime at, String by) {
            return new Stamp(at, by, Optional.empty());
        }
    }

    public Entry {
        if (n < 1) throw new IllegalArgumentException("lines count from 1, not " + n);
    }
}
