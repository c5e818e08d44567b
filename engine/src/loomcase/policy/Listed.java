package loomcase.policy;

import java.util.List;

/** Checks that a word in a fact or a conclusion is one of those that there are. */
final class Listed {
    private Listed() {}

    /** @throws IllegalArgumentException naming the field, the word and the words allowed */
    static void require(String field, String word, List<String> allowed) {
        if (!allowed.contains(word))
            throw new IllegalArgumentException(
                    field + " is \"" + word + "\"; allowed are " + String.join(", ", allowed));
    }

    /** The same, where the word may also be empty: not said. */
    static void requireOrEmpty(String field, String word, List<String> allowed) {
        if (!word.isEmpty()) require(field, word, allowed);
    }
}
