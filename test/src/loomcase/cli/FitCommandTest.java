package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import loomcase.Schemas;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The command {@code fit}: answers, exit codes, the published form, mistakes word for word. */
class FitCommandTest {
    private static final String OLD = "demo-cases/fit/year-1.json";
    private static final Path HELD = Path.of("test", "data", "cli");

    @TempDir
    private Path folder;

    @ParameterizedTest
    @CsvSource({
        "year-2.json, 0, FITS: alder-year-2 in place of alder-year-1.",
        "year-3.json, 0, FITS WITH TRANSFER: alder-year-3 in place of alder-year-1.",
        "year-4.json, 0, DOES NOT FIT: alder-year-4 in place of alder-year-1.",
        "year-5-j1.csv, 1, 'FITS WITH TRANSFER, AS FAR AS IS KNOWN: year-5-j1 in place of alder-year-1.'"
    })
    void firstLineSaysTheAnswer(String neu, int code, String line) throws IOException {
        Ran text = Ran.of("fit", OLD, "demo-cases/fit/" + neu);
        assertEquals("", text.err());
        assertEquals(code, text.code());
        assertEquals(line, text.out().lines().findFirst().orElseThrow());
        Ran json = Ran.of("fit", OLD, "demo-cases/fit/" + neu, "--json");
        assertEquals(code, json.code());
        assertEquals(List.of(), Schemas.errors(Schemas.of("fit.schema.json"), json.out()));
        JsonNode answer = new ObjectMapper().readTree(json.out());
        assertEquals(code == 0, answer.get("settled").asBoolean());
        assertTrue(
                line.toLowerCase(java.util.Locale.ROOT)
                        .startsWith(answer.get("answer").asText() + ":"),
                line);
        String words = text.out().replaceAll("\\s+", " ");
        for (JsonNode d : answer.get("differences"))
            assertTrue(words.contains(d.get("what").asText()), d.get("what").asText());
        for (JsonNode n : answer.get("notKnown"))
            assertTrue(words.contains(
                    n.get("what").asText() + ": " + n.get("where").asText()));
        for (JsonNode t : answer.get("transfers"))
            for (JsonNode s : t.get("steps"))
                assertTrue(words.contains(s.get("work").asText()), s.toString());
    }

    /** Held word for word; written anew with {@code -Dloomcase.regenerate=true}. */
    @Test
    void theCautionAboutOpenCavitiesStandsOnceAPlug() {
        String text = Ran.of("fit", "circuits/larch-13.json", "demo-cases/fit/larch-13-j1-later.csv")
                .out();
        assertEquals(2, text.split("An open cavity is a way for water").length, text);
        assertTrue(text.contains("Put a sealing plug into empty cavity 48."), text);
    }

    @Test
    void transferTextIsTheHeldOne() throws IOException {
        Path file = HELD.resolve("fit-year-3.txt");
        String out = Ran.of("fit", OLD, "demo-cases/fit/year-3.json").out();
        if (Boolean.getBoolean("loomcase.regenerate")) Files.writeString(file, out);
        assertEquals(Files.readString(file), out);
    }

    @Test
    void pictureAndPageAreWrittenAndSayWhatMoves() throws Exception {
        Path svg = folder.resolve("faces.svg");
        Path html = folder.resolve("sheet.html");
        Ran ran = Ran.of(
                "fit",
                OLD,
                "demo-cases/fit/year-3.json",
                "--svg",
                svg.toString(),
                "--html",
                html.toString(),
                "--date",
                "2026-03-01");
        assertEquals("", ran.err());
        var xml = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(svg.toFile());
        int moved = 0;
        var groups = xml.getElementsByTagName("g");
        for (int i = 0; i < groups.getLength(); i++) {
            var g = (org.w3c.dom.Element) groups.item(i);
            if (!g.getAttribute("data-mark").equals("moved")
                    || g.getAttribute("data-cavity").equals("n")) continue;
            moved++;
            // the mark is told without colour: by an arrow and a name
            assertTrue(g.getTextContent().matches("(?s).*[\u2190\u2192][0-9]+.*"), g.getTextContent());
        }
        assertEquals(6, moved);
        Path pdf = folder.resolve("sheet.pdf");
        assertEquals(
                0,
                Ran.of("fit", OLD, "demo-cases/fit/year-3.json", "--pdf", pdf.toString())
                        .code());
        assertEquals("%PDF", new String(Files.readAllBytes(pdf), 0, 4, java.nio.charset.StandardCharsets.US_ASCII));
        String page = Files.readString(html);
        assertTrue(page.contains("7 → 6, AWG18 yellow (coolant temperature signal)"));
        assertTrue(page.contains("2026-03-01") || page.contains("1 March 2026"), "date");
    }

    @Test
    void mistakesAreOneClearSentence() throws IOException {
        Ran.of("fit", OLD, "nowhere.json").refusedWith("nowhere.json: no such file");
        Ran.of("fit", OLD, "nowhere.csv").refusedWith("nowhere.csv: no such file");
        Ran.of("fit", OLD, OLD, "--plug", "J1").refusedWith("--plug says which plug to draw; give it with --svg FILE");
        Ran.of("fit", OLD, OLD, "--svg", folder.resolve("x.svg").toString(), "--plug", "J9")
                .refusedWith("--plug J9: no such plug of both harnesses; there are J1, C1, C2, C3, C4, CB");
        list("connector,cavity,circuits\nJ1,1,x\n")
                .refusedWith(
                        "%s: line 1: column 'circuits' is not known; allowed are connector, cavity, and if wanted circuit,"
                                + " wire, size, colour, insulation, metres, terminal, keying, housing, latch, seal, secondaryLock");
        list("connector,cavity,keying\nJ1,1,2\nJ1,2,3\n")
                .refusedWith("%s: line 3: keying '3' of connector J1 differs from '2' in an earlier line");
        list("connector,cavity\nJ1,1\nJ1,1\n").refusedWith("%s: line 3: cavity 'J1/1' is also in line 2");
        list("connector,cavity,secondaryLock\nJ1,1,maybe\n")
                .refusedWith("%s: line 2: secondaryLock 'maybe' is not one of yes, no");
        list("connector,cavity,size\nJ1,1,thick\n")
                .refusedWith("%s: line 2: size 'thick' is not a size; write it as AWG18 (0 to 40) or 1.5mm2");
        list("connector,cavity\n").refusedWith("%s: has no cavities below its first line");
        list("").refusedWith(
                        "%s: is empty; its first line must name connector, cavity, and if wanted circuit, wire, size,"
                                + " colour, insulation, metres, terminal, keying, housing, latch, seal, secondaryLock");
    }

    private record Refused(Path file, Ran ran) {
        void refusedWith(String sentence) {
            ran.refusedWith(String.format(sentence, file));
        }
    }

    private Refused list(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("part.csv"), text);
        return new Refused(file, Ran.of("fit", OLD, file.toString()));
    }

    @Test
    void aListOfAnotherPlugSaysThatNothingWasCompared() throws IOException {
        Path file = Files.writeString(folder.resolve("other.csv"), "connector,cavity,circuit\nZ9,1,sunroof motor\n");
        Ran ran = Ran.of("fit", OLD, file.toString());
        assertEquals(1, ran.code());
        assertTrue(ran.out().contains("plugs that the list does not name: J1, C1, C2, C3, C4, CB"), ran.out());
    }
}
