package loomcase.translate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import loomcase.print.Wording;
import org.junit.jupiter.api.Test;

class TranslatorTest {
    private static final Translator GERMAN = new Translator(Locale.GERMAN, UnaryOperator.identity());
    private static final Pattern RULE = Pattern.compile(
            "rule \"([^\"]+)\".*?conclude\\.(\\w+)\\((?:\\$r|\"[^;]*?), (.*?)\\);\\s*end", Pattern.DOTALL);
    private static final Pattern PIECE = Pattern.compile("\"((?:[^\"\\\\]|\\\\.)*)\"|[^\"+\\s][^\"+]*");

    /** What a rule says, from its file: the text between quotes, and {@code 7} for each figure. */
    private static TreeMap<String, String> said() throws IOException {
        TreeMap<String, String> out = new TreeMap<>();
        try (Stream<Path> files = Files.list(Path.of("rules"))) {
            for (Path file : files.filter(f -> f.getFileName().toString().matches("(claim|repair)-.*\\.drl"))
                    .toList()) {
                Matcher rule = RULE.matcher(Files.readString(file));
                while (rule.find()) if (!rule.group(2).equals("caution")) out.put(rule.group(1), spoken(rule.group(3)));
            }
        }
        return out;
    }

    private static String spoken(String expression) {
        StringBuilder out = new StringBuilder();
        Matcher piece = PIECE.matcher(expression);
        while (piece.find()) {
            if (piece.group(1) == null) out.append("7");
            else out.append(piece.group(1).replace("\\\"", "\"").replace("\\'", "'"));
        }
        return out.toString();
    }

    @Test
    void everyRuleThatAClaimShowsSpeaksGerman() throws IOException {
        TreeMap<String, String> said = said();
        assertTrue(said.size() > 100, said.size() + " rules");
        TreeSet<String> silent = new TreeSet<>();
        said.forEach((rule, text) -> {
            String german = GERMAN.rule(rule, text);
            if (german.equals(text)) silent.add(rule + ": " + text);
            assertEquals(count(text), count(german), rule + ": " + german);
        });
        assertEquals(new TreeSet<>(), silent, "rules without German words, or whose words differ from their file");
        assertEquals(
                said.size(),
                Wording.of(Translator.class, Locale.GERMAN).keys("rule.").size(),
                "words for rules that there are not");
    }

    /** Figures put in by {@link #spoken}, beside those that the sentence has anyway, whatever their place. */
    private static long count(String text) {
        return Pattern.compile("7").matcher(text).results().count();
    }

    @Test
    void whatTheBuiltInRuleDoesNotSayKeepsItsWords() {
        String own = "Our desk wants the serial number first.";
        assertEquals(own, GERMAN.rule("Unit and serial number", own));
        assertEquals(own, GERMAN.rule("A rule of our own", own));
        String built = "Unit or serial number is missing; read it from the machine.";
        assertNotEquals(built, GERMAN.rule("Unit and serial number", built));
        assertEquals(
                built, new Translator(Locale.ENGLISH, UnaryOperator.identity()).rule("Unit and serial number", built));
    }

    /** An argument may itself hold the full stop, the quotes or the brackets that the pattern goes on with. */
    @Test
    void argumentsAreWholeAndGoThroughTheWordsOfTheCaller() {
        assertEquals(
                "Nummer, Datum oder Name fehlt bei der Genehmigung für: Two. Sentences.",
                GERMAN.rule(
                        "An approval is whole",
                        "Number, date or name of the approval is missing for: Two. Sentences.."));
        assertEquals(
                "neuen Kontakt für Kammer C-A/1 crimpen; Stecker oil (hot) plug (C-A)",
                GERMAN.remedy("crimp a new terminal into cavity C-A/1 of the oil (hot) plug (C-A)"));
        Translator loud = new Translator(Locale.GERMAN, a -> a.equals("reseat") ? "NEU STECKEN" : a);
        assertEquals(
                "ließe sich nichts mehr prüfen, wäre am günstigsten: NEU STECKEN",
                loud.verdict("if nothing more could be tested, reseat would be the least cost"));
    }

    /** A remedy beside which the engine is seen to is said piece by piece. */
    @Test
    void aRemedyInTheSentenceOfAnotherIsSaidToo() {
        assertEquals(
                "Schaden an 1 Leitung in Zweig BE2 (trunk) herausschneiden und spleißen; dazu nach dem Motor sehen: zu heiß;"
                        + " mit eigenem Messmittel gezeigt (Flüssigkeiten sind heiß und unter Druck: die Anweisungen des"
                        + " Motorherstellers gehen vor)",
                new Translator(Locale.GERMAN, a -> a.equals("too hot") ? "zu heiß" : a)
                        .remedy(
                                "cut out the damage of 1 wire in branch BE2 (trunk) and splice; and see to the engine: too"
                                        + " hot, which was seen with an instrument of its own (fluids are hot and under pressure:"
                                        + " the engine maker's instructions come first)"));
    }

    /** Where a pattern may hold another's sentence, the one with more words of its own is taken. */
    @Test
    void theNarrowerPatternIsTaken() {
        assertEquals(
                "Schaden an 1 Leitung in Zweig BE2 (trunk) herausschneiden und spleißen",
                GERMAN.remedy("cut out the damage of 1 wire in branch BE2 (trunk) and splice"));
        assertEquals("Abschnitt rear ersetzen (Zweig BE17)", GERMAN.remedy("replace section rear (branch BE17)"));
        assertTrue(GERMAN.remedy("fit a new fuse F1 (unit) of 30 A; find what blew it before power comes on")
                .startsWith("neue Sicherung F1 (unit) mit 30 A"));
        assertFalse(GERMAN.verdict("Full replacement is justified: a rule requires it, and it is expected to cost 5 CU"
                        + " less than reseat X.")
                .contains("a rule"));
        assertEquals(List.of("something else"), List.of(GERMAN.verdict("something else")));
    }
}
