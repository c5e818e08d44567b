package loomcase.policy;

import java.util.Comparator;

/**
 * What one rule says about one remedy. Rulings that contradict each other are all kept: the verdict shows them.
 *
 * @param remedy id of the remedy
 * @param effect what follows
 * @param text the reason in plain words, with the figures of this case
 * @param rule name of the rule
 * @param source where the rule comes from, or {@code common practice, no source}
 */
public record RemedyRuling(String remedy, Effect effect, String text, String rule, String source) {
    /** What a rule can say. */
    public enum Effect {
        /** The remedy may not be chosen. */
        FORBID,
        /** The remedy must be chosen when the fault is where it cures it; cheaper ones do not do. */
        REQUIRE,
        /** The remedy may be chosen once somebody with the authority agrees. */
        APPROVAL,
        /** The remedy may be chosen with this in mind. */
        CAUTION
    }

    public RemedyRuling {
        if (text.isBlank()) throw new IllegalArgumentException("the ruling on remedy " + remedy + " has no text");
    }

    /** The same said about another remedy. */
    public RemedyRuling about(String other) {
        return new RemedyRuling(other, effect, text, rule, source);
    }

    /** By remedy, then effect, then rule. */
    static final Comparator<RemedyRuling> ORDER = Comparator.comparing(RemedyRuling::remedy)
            .thenComparing(RemedyRuling::effect)
            .thenComparing(RemedyRuling::rule)
            .thenComparing(RemedyRuling::text);
}
