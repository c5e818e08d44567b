package loomcase.policy;

import java.util.Comparator;

/**
 * What the rules say of tests that may do one kind of harm.
 *
 * @param harm the kind of harm, as in the fact
 * @param forbidden true when such tests are never proposed, false when they carry the text as a caution
 * @param text what to do or why not, one sentence
 * @param rule name of the rule that says so
 * @param source where it comes from
 */
public record TestRuling(String harm, boolean forbidden, String text, String rule, String source) {
    static final Comparator<TestRuling> ORDER = Comparator.comparing(TestRuling::harm)
            .thenComparing(TestRuling::rule)
            .thenComparing(TestRuling::text);

    public TestRuling {
        if (text.isBlank()) throw new IllegalArgumentException("the ruling on tests with " + harm + " has no text");
    }
}
