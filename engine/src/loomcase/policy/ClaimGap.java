package loomcase.policy;

import java.util.Comparator;
import java.util.List;

/**
 * What a claim lacks, or says twice in different ways.
 *
 * @param severity how much it matters
 * @param field part of the claim that it is about: one of {@link #FIELDS}
 * @param text what is wrong and what would put it right, in plain words
 * @param rule name of the rule that says so
 * @param source where the rule comes from, or {@code common practice, no source}
 */
public record ClaimGap(Severity severity, String field, String text, String rule, String source) {
    /** How much a gap matters. */
    public enum Severity {
        /** The claim is not to be sent like this. */
        BLOCKS,
        /** It may be sent, and somebody will ask. */
        QUESTIONED,
        /** It would be stronger with this. */
        NICE
    }

    /** The parts of a claim, in the order in which it is read. */
    public static final List<String> FIELDS = List.of(
            "machine",
            "complaint",
            "cause",
            "correction",
            "codes-before",
            "codes-after",
            "readings-before",
            "readings-after",
            "photos",
            "causal-part",
            "parts-kept",
            "labour",
            "access",
            "approval",
            "damage-cause",
            "technician",
            "option",
            "costs",
            "evidence");

    /** By severity, then field in reading order, then rule. */
    static final Comparator<ClaimGap> ORDER = Comparator.comparing(ClaimGap::severity)
            .thenComparingInt(gap -> FIELDS.indexOf(gap.field()))
            .thenComparing(ClaimGap::rule)
            .thenComparing(ClaimGap::text);

    public ClaimGap {
        Listed.require("field", field, FIELDS);
        if (text.isBlank()) throw new IllegalArgumentException("the gap in " + field + " has no text");
    }
}
