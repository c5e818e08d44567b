package loomcase.print;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.jsoup.parser.Parser;
import org.junit.jupiter.api.Test;
import org.xml.sax.InputSource;

/** The page as two parsers that are not ours read it: jsoup (the HTML standard's algorithm) and the JDK's XML parser. */
class HtmlTest {
    private static final String PAGE = Html.write(Sheets.full());
    private static final Document READ = Jsoup.parse(PAGE);

    @Test
    void theHtmlStandardFindsNoErrorInIt() {
        for (String page : List.of(PAGE, Html.write(Hostile.document()), Html.write(Sheets.lengthy(3)))) {
            Parser parser = Parser.htmlParser().setTrackErrors(20);
            Jsoup.parse(page, "", parser);
            // HTML lets an element without content be written <br/>, which jsoup counts; nothing else may be counted.
            List<String> errors =
                    parser.getErrors().stream().map(Object::toString).toList();
            assertEquals(
                    List.of(),
                    errors.stream().filter(e -> !e.contains("Self closing")).toList());
        }
    }

    @Test
    void itIsWellFormedXml() throws Exception {
        for (String page : List.of(PAGE, Html.write(Hostile.document()))) {
            var factory = DocumentBuilderFactory.newInstance();
            factory.setNamespaceAware(true);
            var root = factory.newDocumentBuilder()
                    .parse(new InputSource(new StringReader(page)))
                    .getDocumentElement();
            assertEquals("html", root.getLocalName());
        }
    }

    @Test
    void itFetchesAndRunsNothing() {
        for (String page : List.of(PAGE, Html.write(Hostile.document()))) {
            Document read = Jsoup.parse(page);
            assertEquals(
                    0,
                    read.select("script, link, iframe, object, embed, base, form, input")
                            .size());
            for (Element e : read.getAllElements())
                e.attributes().forEach(a -> {
                    assertFalse(a.getKey().startsWith("on"), a.toString());
                    if (a.getKey().equals("href")) assertTrue(a.getValue().startsWith("#"), a.toString());
                    if (a.getKey().equals("src")) assertTrue(a.getValue().startsWith("data:image/"), a.getKey());
                });
            String css = read.select("style").first().data();
            assertFalse(css.contains("url(") || css.contains("@import"), css);
        }
    }

    @Test
    void headingsStandInOrderUnderOneTitle() {
        assertEquals("en", READ.select("html").attr("lang"));
        assertEquals(List.of("Job sheet"), READ.select("h1").eachText());
        assertEquals(
                List.of("What to do", "Readings", "Proof"),
                READ.select("main > section > h2").eachText());
        assertTrue(READ.title().startsWith("Job sheet – Yard tractor 7"));
    }

    @Test
    void everyTableHasACaptionAndScopedHeads() {
        for (Element table : READ.select("table")) {
            assertEquals(1, table.select("caption").size());
            assertEquals(
                    table.select("thead th").size(),
                    table.select("thead th[scope=col]").size());
            for (Element row : table.select("tbody tr"))
                assertEquals(1, row.select("th[scope=row]").size(), row.html());
        }
    }

    @Test
    void everyPictureHasWords() {
        assertEquals("Harness with splice S5V marked", READ.select("svg").attr("aria-label"));
        for (Element e : READ.select("img")) assertFalse(e.attr("alt").isBlank());
        for (Element e : READ.select("[role=img]"))
            assertFalse(e.attr("aria-label").isBlank(), e.outerHtml());
    }

    @Test
    void eachCitedLineIsLinkedToItsEvidence() {
        List<String> cited = READ.select("a").eachAttr("href");
        assertEquals(List.of("#line-1", "#line-2", "#line-3", "#line-4", "#line-3"), cited);
        for (String c : cited) assertEquals(1, READ.select(c).size(), c);
        assertEquals(List.of("reading: 5.10 V at CTS"), READ.select("del").eachText());
    }

    @Test
    void noIdStandsTwiceEvenWhenADrawingDoes() {
        Block.Figure figure = new Block.Figure(Sheets.drawing(100, 50), "the loom", "");
        String page = Html.write(new loomcase.print.Document(
                "Two",
                "",
                java.util.Locale.ENGLISH,
                java.time.LocalDate.EPOCH,
                List.of(),
                List.of(Section.of("S", figure, figure)),
                ""));
        Set<String> ids = new HashSet<>();
        List<Element> marked = Jsoup.parse(page).select("[id]");
        assertEquals(4, marked.size());
        for (Element e : marked) assertTrue(ids.add(e.id()), e.id());
    }

    /** The longest option in German has 15 letters; a longer word may be broken, for it would starve the other columns. */
    @Test
    void aColumnOfShortWordsKeepsThemWhole() {
        for (String word : List.of("Spleißreparatur", "Leitungsabgleich")) {
            Block.Table table = new Block.Table(
                    "Lösungen",
                    List.of(Block.Column.text("Lösung"), Block.Column.text("Was")),
                    List.of(Block.Row.of(word, "und so weiter")));
            String page = Html.write(new loomcase.print.Document(
                    "One",
                    "",
                    java.util.Locale.GERMAN,
                    java.time.LocalDate.EPOCH,
                    List.of(),
                    List.of(Section.of("S", table)),
                    ""));
            Element cell = Jsoup.parse(page).select("tbody th").first();
            assertEquals(word, cell.text());
            assertEquals(word.length() <= 15, cell.hasClass("whole"), word);
        }
    }

    @Test
    void aCautionStandsInItsStepBeforeTheWork() {
        Element step = READ.select("ol.steps > li").first();
        assertEquals(List.of("caution", "work", "tools"), step.select("> p").eachAttr("class"));
        assertTrue(step.text().startsWith("⚠ Caution: The turbocharger stays hot"));
        assertTrue(Jsoup.parse(Html.write(Sheets.lengthy(1))).text().contains("⚠ Vorsicht: Careful 1."));
    }

    @Test
    void harmfulTextIsReadBackAsTheTextItWas() {
        Document read = Jsoup.parse(Html.write(Hostile.document()));
        assertEquals(Hostile.SCRIPT, read.select("h1").text());
        assertEquals(Hostile.SCRIPT, read.select("h2").text());
        String paragraph = read.select("section > p").first().wholeText();
        assertTrue(paragraph.contains(Hostile.SCRIPT) && paragraph.contains(Hostile.LONG), paragraph);
        assertTrue(paragraph.contains(Hostile.RIGHT_TO_LEFT) && paragraph.contains(Hostile.ELSEWHERE), paragraph);
        assertTrue(paragraph.contains("bell \ufffd escape \ufffd[2J null \ufffd end"), paragraph);
    }

    @Test
    void allRowsOfALongTableAreThere() {
        Document read = Jsoup.parse(Html.write(Sheets.lengthy(500)));
        assertEquals(500, read.select("table tbody tr").size());
        assertEquals(500, read.select("ol.steps > li").size());
    }

    @Test
    void theSameDocumentGivesTheSamePage() {
        assertEquals(PAGE, Html.write(Sheets.full()));
    }
}
