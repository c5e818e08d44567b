package loomcase.print;

import java.text.MessageFormat;
import java.util.List;
import java.util.Locale;
import java.util.ResourceBundle;

/**
 * The fixed words of one package in one language, from its files {@code words.properties} (English) and {@code
 * words_de.properties} (German), UTF-8, beside its classes.
 *
 * <p>A value is a pattern of {@link MessageFormat}: {@code {0}} stands for the first argument, and an apostrophe is written
 * twice. Arguments that are numbers are formatted for the language; text stays as it is. A test holds that each file of a
 * package has the same keys and arguments.
 */
public final class Wording {
    /** Languages that every package's words are written in; the first is used when another is asked for. */
    public static final List<Locale> LANGUAGES = List.of(Locale.ENGLISH, Locale.GERMAN);

    private final ResourceBundle bundle;
    private final Locale language;

    private Wording(ResourceBundle bundle, Locale language) {
        this.bundle = bundle;
        this.language = language;
    }

    /**
     * The words of a package.
     *
     * @param stage any class of the package
     * @param wanted the language; country and variant are passed over
     * @throws java.util.MissingResourceException when the package has no words
     */
    public static Wording of(Class<?> stage, Locale wanted) {
        Locale language = LANGUAGES.stream()
                .filter(l -> l.getLanguage().equals(wanted.getLanguage()))
                .findFirst()
                .orElse(LANGUAGES.get(0));
        // The machine's own language must not change a document that was asked for in another.
        var control = ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES);
        String name = stage.getPackageName() + ".words";
        return new Wording(ResourceBundle.getBundle(name, language, stage.getClassLoader(), control), language);
    }

    /** The language that the words are in, one of {@link #LANGUAGES}. */
    public Locale language() {
        return language;
    }

    /** Whether there are words for a key. */
    public boolean has(String key) {
        return bundle.containsKey(key);
    }

    /** The keys that begin so, in alphabetical order. */
    public List<String> keys(String prefix) {
        return bundle.keySet().stream()
                .filter(k -> k.startsWith(prefix))
                .sorted()
                .toList();
    }

    /**
     * The pattern for a key, as it stands in the file.
     *
     * @throws java.util.MissingResourceException when there is none
     */
    public String pattern(String key) {
        return bundle.getString(key);
    }

    /**
     * The words for a key.
     *
     * @throws java.util.MissingResourceException when there are none
     */
    public String say(String key, Object... arguments) {
        return new MessageFormat(bundle.getString(key), language).format(arguments);
    }
}
