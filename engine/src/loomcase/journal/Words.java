package loomcase.journal;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** Small matters of text that the values of a case share. */
final class Words {
    /** Longest text in one field. */
    static final int MOST_LETTERS = 4000;

    private Words() {}

    /** The word of a constant in files and on screens. */
    static String of(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The words of a kind, in the order of its constants. */
    static List<String> all(Class<? extends Enum<?>> kind) {
        return Arrays.stream(kind.getEnumConstants()).map(Words::of).toList();
    }

    /** A text that a case can hold; may be empty. */
    static String text(String what, String text) {
        if (text.length() > MOST_LETTERS)
            throw new IllegalArgumentException(
                    what + " has " + text.length() + " letters; allowed are " + MOST_LETTERS);
        if (!StandardCharsets.UTF_8.newEncoder().canEncode(text))
            throw new IllegalArgumentException(what + " holds half a letter that UTF-8 cannot write");
        return text;
    }

    /** A text that a case can hold and that says something. */
    static String some(String what, String text) {
        if (text.isBlank()) throw new IllegalArgumentException(what + " is empty");
        return text(what, text);
    }
}
