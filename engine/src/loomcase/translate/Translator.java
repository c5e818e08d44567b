package loomcase.translate;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import loomcase.print.Wording;

/** Entry of this package: says English sentences in one language; what it does not know stays as it is. */
public final class Translator {
    private static final Pattern ARGUMENT = Pattern.compile("\\{(\\d+)}");

    private final Wording english = Wording.of(Translator.class, Locale.ENGLISH);
    private final Wording words;
    private final UnaryOperator<String> argument;

    /**
     * A translator into a language.
     *
     * @param language as {@link Wording#of} takes it; into English every sentence stays as it is
     * @param argument says a word that stands in the place of an argument; gives back what it does not know
     */
    public Translator(Locale language, UnaryOperator<String> argument) {
        this.words = Wording.of(Translator.class, language);
        this.argument = argument;
    }

    /** What a rule says, by its name; a shop's rule of that name that says something else keeps its words. */
    public String rule(String name, String text) {
        String key = "rule." + name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
        return english.has(key) ? say(key, text, argument).orElse(text) : text;
    }

    /** A sentence of the verdict's reasons, of its conflicts, or about the whole harness. */
    public String verdict(String text) {
        return oneOf("verdict.", text, argument);
    }

    /** What a remedy does; where more is done beside it the remedy stands in the place of an argument. */
    public String remedy(String text) {
        return oneOf("remedy.", text, this::remedyOrWord);
    }

    private String remedyOrWord(String text) {
        String said = text.contains(" ") ? remedy(text) : text;
        return said.equals(text) ? argument.apply(text) : said;
    }

    /** The pattern with the most words of its own goes first, for a shorter one may hold it. */
    private String oneOf(String family, String text, UnaryOperator<String> argument) {
        List<String> keys = english.keys(family).stream()
                .sorted(Comparator.comparingInt((String k) -> -ARGUMENT.matcher(english.pattern(k))
                                .replaceAll("")
                                .length())
                        .thenComparing(Comparator.naturalOrder()))
                .toList();
        return keys.stream()
                .flatMap(k -> say(k, text, argument).stream())
                .findFirst()
                .orElse(text);
    }

    private Optional<String> say(String key, String text, UnaryOperator<String> argument) {
        if (words.language().equals(Locale.ENGLISH)) return Optional.of(text);
        Matcher found = regex(english.pattern(key)).matcher(text);
        if (!found.matches()) return Optional.empty();
        Object[] arguments = new Object[found.groupCount()];
        for (int i = 0; i < arguments.length; i++) arguments[i] = argument.apply(found.group(i + 1));
        return Optional.of(words.say(key, arguments));
    }

    /** A pattern as an expression with a group for each argument; they stand in their order in English. */
    static Pattern regex(String pattern) {
        StringBuilder out = new StringBuilder();
        Matcher m = ARGUMENT.matcher(pattern);
        int from = 0;
        for (int next = 0; m.find(); next++) {
            if (Integer.parseInt(m.group(1)) != next)
                throw new IllegalArgumentException("arguments of \"" + pattern + "\" stand out of order");
            out.append(literal(pattern.substring(from, m.start()))).append("(.*?)");
            from = m.end();
        }
        return Pattern.compile(out.append(literal(pattern.substring(from))).toString(), Pattern.DOTALL);
    }

    private static String literal(String piece) {
        return Pattern.quote(piece.replace("''", "'"));
    }
}
