package loomcase.print;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.MessageFormat;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.MissingResourceException;
import java.util.Properties;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The words of every package in every language, read from the files themselves. */
class WordingTest {
    private static final Path RESOURCES = Path.of("engine/resources");
    private static final Path SOURCES = Path.of("engine/src");

    private static List<Path> english() throws IOException {
        try (Stream<Path> all = Files.walk(RESOURCES)) {
            List<Path> found = all.filter(p -> p.endsWith("words.properties")).toList();
            assertFalse(found.isEmpty());
            return found;
        }
    }

    private static Properties read(Path file) throws IOException {
        Properties p = new Properties();
        try (Reader in = Files.newBufferedReader(file)) {
            p.load(in);
        }
        return p;
    }

    private static Path in(Path english, Locale language) {
        return language.equals(Locale.ENGLISH)
                ? english
                : english.resolveSibling("words_" + language.getLanguage() + ".properties");
    }

    @Test
    void everyKeyStandsInEveryLanguageWithTheSameArguments() throws IOException {
        for (Path file : english()) {
            Properties first = read(file);
            for (Locale language : Wording.LANGUAGES) {
                Properties other = read(in(file, language));
                String where = in(file, language).toString();
                assertEquals(
                        new TreeSet<>(first.stringPropertyNames()), new TreeSet<>(other.stringPropertyNames()), where);
                for (String key : first.stringPropertyNames()) {
                    assertFalse(other.getProperty(key).isBlank(), where + ": " + key);
                    assertEquals(
                            arguments(first.getProperty(key)), arguments(other.getProperty(key)), where + ": " + key);
                    new MessageFormat(other.getProperty(key), language);
                    // A single apostrophe would swallow what follows it.
                    assertFalse(other.getProperty(key).replace("''", "").contains("'"), where + ": " + key);
                }
            }
        }
    }

    private static TreeSet<String> arguments(String pattern) {
        return new TreeSet<>(Pattern.compile("\\{(\\d+)")
                .matcher(pattern)
                .results()
                .map(m -> m.group(1))
                .toList());
    }

    /** Keys named in the code as {@code say("key"} exist, and each key is named somewhere in its package. */
    @Test
    void codeAndWordsNameTheSameKeys() throws IOException {
        for (Path file : english()) {
            TreeSet<String> keys = new TreeSet<>(read(file).stringPropertyNames());
            String code = code(SOURCES.resolve(RESOURCES.relativize(file.getParent())));
            Pattern.compile("\\bsay\\(\\s*\"([^\"]+)\"\\s*[,)]")
                    .matcher(code)
                    .results()
                    .forEach(m -> assertTrue(keys.contains(m.group(1)), file + " has no words for " + m.group(1)));
            List<String> unused = new ArrayList<>();
            for (String key : keys) if (!named(code, key)) unused.add(key);
            assertEquals(List.of(), unused, file + " has words that nobody says");
        }
    }

    /** A key is named whole, or by its family, as in {@code "fact." + kind}. */
    private static boolean named(String code, String key) {
        if (code.contains("\"" + key + "\"")) return true;
        int dot = key.lastIndexOf('.');
        return dot > 0 && code.contains("\"" + key.substring(0, dot + 1) + "\"");
    }

    private static String code(Path folder) throws IOException {
        StringBuilder code = new StringBuilder();
        try (Stream<Path> all = Files.list(folder)) {
            for (Path p :
                    all.filter(f -> f.toString().endsWith(".java")).sorted().toList()) code.append(Files.readString(p));
        }
        return code.toString();
    }

    @Test
    void wordsAreInTheLanguageAskedForOrInEnglish() {
        assertEquals("Vorsicht", Wording.of(Html.class, Locale.GERMANY).say("caution"));
        assertEquals(
                "Caution", Wording.of(Html.class, Locale.forLanguageTag("fi")).say("caution"));
        assertEquals(
                Locale.ENGLISH,
                Wording.of(Html.class, Locale.forLanguageTag("fi")).language());
        assertEquals("6,5 min", Wording.of(Html.class, Locale.GERMAN).say("minutes", 6.5));
        assertThrows(MissingResourceException.class, () -> Wording.of(Html.class, Locale.GERMAN)
                .say("none"));
    }

    @Test
    void theMachinesLanguageChangesNothing() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            assertEquals("Caution", Wording.of(Html.class, Locale.ENGLISH).say("caution"));
        } finally {
            Locale.setDefault(before);
        }
    }
}
