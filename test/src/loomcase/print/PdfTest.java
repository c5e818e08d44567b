package loomcase.print;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureNode;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

/** The PDF as PDFBox reads it back. */
class PdfTest {
    private static final byte[] FULL = Pdf.write(Sheets.full(), Pdf.Paper.A4);

    private static List<String> pages(PDDocument pdf) throws IOException {
        List<String> pages = new ArrayList<>();
        for (int i = 1; i <= pdf.getNumberOfPages(); i++) {
            PDFTextStripper stripper = new PDFTextStripper();
            stripper.setStartPage(i);
            stripper.setEndPage(i);
            pages.add(stripper.getText(pdf));
        }
        return pages;
    }

    @Test
    void textIsSelectableInReadingOrderWithAllSigns() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(FULL)) {
            String text = String.join("\n", pages(pdf)).replaceAll("\\s+", " ");
            int at = -1;
            for (String part : List.of(
                    "Job sheet",
                    "LX13-004411",
                    "What to do",
                    "Caution: The turbocharger stays hot",
                    "Take off the heat shield",
                    "4.75 ≤ U ≤ 5.25",
                    "OPS oil pressure",
                    "Proof",
                    "reading: 5.10 V at CTS")) {
                int next = text.indexOf(part);
                assertTrue(next > at, part + " in " + text);
                at = next;
            }
            assertTrue(text.contains(Sheets.SIGNS), text);
        }
    }

    @Test
    void everyFontIsInside() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(FULL)) {
            int fonts = 0;
            for (PDPage page : pdf.getPages())
                for (COSName name : page.getResources().getFontNames()) {
                    PDFont font = page.getResources().getFont(name);
                    assertTrue(font.isEmbedded(), font.getName());
                    assertTrue(font.getName().matches("[A-Z]{6}\\+DejaVuSans(-Bold)?"), font.getName());
                    fonts++;
                }
            assertTrue(fonts >= 2);
        }
    }

    @Test
    void pagesHaveTheSizeOfThePaper() throws IOException {
        // A4 and Letter as PDFBox's own constants, in points; page sizes are rounded to 1/20 px.
        checkSizes(Pdf.Paper.A4, PDRectangle.A4);
        checkSizes(Pdf.Paper.LETTER, PDRectangle.LETTER);
    }

    @Test
    void aBroadDrawingLiesAcrossWithItsHeading() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(Pdf.write(Sheets.full(Sheets.drawing(1500, 500)), Pdf.Paper.A4))) {
            List<String> pages = pages(pdf);
            for (int i = 0; i < pages.size(); i++) {
                PDRectangle box = pdf.getPage(i).getMediaBox();
                boolean drawing = pages.get(i).contains("The place, marked 1.");
                assertEquals(drawing, box.getWidth() > box.getHeight());
                assertEquals(drawing, pages.get(i).contains("Proof"));
            }
        }
    }

    private static void checkSizes(Pdf.Paper paper, PDRectangle size) throws IOException {
        try (PDDocument pdf = Loader.loadPDF(Pdf.write(Sheets.full(Sheets.drawing(1500, 500)), paper))) {
            int across = 0;
            for (PDPage page : pdf.getPages()) {
                PDRectangle box = page.getMediaBox();
                if (box.getWidth() > box.getHeight()) across++;
                assertEquals(
                        Math.min(size.getWidth(), size.getHeight()), Math.min(box.getWidth(), box.getHeight()), 0.5);
                assertEquals(
                        Math.max(size.getWidth(), size.getHeight()), Math.max(box.getWidth(), box.getHeight()), 0.5);
            }
            assertEquals(1, across, "the broad drawing lies across");
        }
    }

    @Test
    void tagsTellHeadingsTablesListsAndFigures() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(FULL)) {
            assertTrue(pdf.getDocumentCatalog().getMarkInfo().isMarked());
            assertEquals("en", pdf.getDocumentCatalog().getLanguage());
            Map<String, Integer> tags = new TreeMap<>();
            List<String> alternates = new ArrayList<>();
            count(pdf.getDocumentCatalog().getStructureTreeRoot(), tags, alternates);
            assertEquals(1, tags.get("H1"));
            assertEquals(3, tags.get("H2"));
            assertEquals(2, tags.get("Table"));
            assertEquals(5 + 2 + 3 + 4, tags.get("TH"), tags.toString());
            assertEquals(2, tags.get("Figure"));
            assertEquals(5, tags.get("Link"));
            assertEquals(5, tags.get("LI"));
            assertTrue(
                    alternates.containsAll(List.of("Harness with splice S5V marked", "Splice S5V before the repair")));
        }
    }

    private static void count(PDStructureNode node, Map<String, Integer> tags, List<String> alternates) {
        for (Object kid : node.getKids()) {
            if (!(kid instanceof PDStructureElement element)) continue;
            tags.merge(element.getStructureType(), 1, Integer::sum);
            if (element.getAlternateDescription() != null) alternates.add(element.getAlternateDescription());
            count(element, tags, alternates);
        }
    }

    @Test
    void headsRepeatNoRowIsLostAndCautionsStayWithTheirSteps() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(Pdf.write(Sheets.lengthy(300), Pdf.Paper.LETTER))) {
            int rows = 0;
            int steps = 0;
            for (String page : pages(pdf)) {
                int here = matches(page, "cavity \\d+ X1\\.\\d+ \\d+");
                rows += here;
                if (here > 0) assertTrue(page.contains("Kammer Nach Nr."), page);
                Matcher step = Pattern.compile("Move terminal (\\d+)").matcher(page);
                while (step.find()) {
                    steps++;
                    assertTrue(page.contains("Vorsicht: Careful " + step.group(1) + "."), page);
                }
            }
            assertEquals(300, rows);
            assertEquals(300, steps);
        }
    }

    /** Whatever stands before it on the page, a photo, the words above it and its caption share a page. */
    @Test
    void aPhotoStaysWithTheWordsAboveItAndItsCaption() throws IOException {
        Picture tall = Sheets.picture();
        for (int above = 0; above < 60; above += 2) {
            List<Block> blocks = new ArrayList<>();
            for (int i = 0; i < above; i++) blocks.add(Block.Paragraph.of("Paragraph " + i + "."));
            for (int i = 0; i < 3; i++)
                blocks.add(new Block.Photo(
                        "photo-" + i + ".png",
                        Sheets.DIGEST,
                        "Splice " + i,
                        Optional.of(tall),
                        List.of(Phrase.of("About picture " + i + "."))));
            Document document = new Document(
                    "Photos",
                    "",
                    Locale.ENGLISH,
                    LocalDate.of(2026, 3, 14),
                    List.of(),
                    List.of(new Section("Photos of it", blocks)),
                    "foot");
            try (PDDocument pdf = Loader.loadPDF(Pdf.write(document, Pdf.Paper.A4))) {
                List<String> pages = pages(pdf);
                for (int i = 0; i < 3; i++) {
                    String about = "About picture " + i + ".";
                    String caption = "photo-" + i + ".png";
                    String page = pages.stream()
                            .filter(t -> t.contains(about))
                            .findFirst()
                            .orElseThrow();
                    assertTrue(page.contains(caption), above + " paragraphs above: " + about + " parts from its photo");
                }
            }
        }
    }

    /** Whatever stands before it on the page, a heading of points shares a page with the first, and no point is cut in two. */
    @Test
    void pointsAreNotCutAndStayWithTheirHeading() throws IOException {
        String words = "Begun here, " + "and told at some length, ".repeat(6) + "told to its end.";
        for (int above = 30; above < 50; above++) {
            List<Block> blocks = new ArrayList<>();
            for (int i = 0; i < above; i++) blocks.add(Block.Paragraph.of("Paragraph " + i + "."));
            blocks.add(new Block.Paragraph(List.of(Phrase.strong("Cause"))));
            blocks.add(new Block.Points(List.of(Phrase.of(words).from(12))));
            Document document = new Document(
                    "Points",
                    "",
                    Locale.ENGLISH,
                    LocalDate.of(2026, 3, 14),
                    List.of(),
                    List.of(new Section("Story", blocks)),
                    "foot");
            try (PDDocument pdf = Loader.loadPDF(Pdf.write(document, Pdf.Paper.A4))) {
                for (String page : pages(pdf)) {
                    boolean cause = page.contains("Cause");
                    assertEquals(cause, page.contains("Begun here"), above + " paragraphs above");
                    assertEquals(
                            cause,
                            page.replaceAll("\\s+", " ").contains("told to its end."),
                            above + " paragraphs above");
                }
            }
        }
    }

    private static int matches(String text, String pattern) {
        return (int) Pattern.compile(pattern).matcher(text).results().count();
    }

    @Test
    void harmfulTextIsOnlyText() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(Pdf.write(Hostile.document(), Pdf.Paper.A4))) {
            String text = String.join("", pages(pdf));
            assertTrue(text.contains("<script>alert('x')</script> & \"quoted\""), text);
            String joined = text.replaceAll("\\s", "");
            assertTrue(joined.contains(Hostile.LONG), "the long word is broken, not cut off");
            assertTrue(pdf.getNumberOfPages() <= 4, "a long word in one column must not starve the others");
            assertEquals(null, pdf.getDocumentCatalog().getOpenAction());
            assertFalse(new String(
                            Pdf.write(Hostile.document(), Pdf.Paper.A4), java.nio.charset.StandardCharsets.ISO_8859_1)
                    .contains("/JavaScript"));
        }
    }

    @Test
    void theSameDocumentGivesTheSameBytesAndAnotherDoesNot() {
        assertArrayEquals(FULL, Pdf.write(Sheets.full(), Pdf.Paper.A4));
        assertNotEquals(FULL.length, Pdf.write(Sheets.lengthy(2), Pdf.Paper.A4).length);
    }

    @Test
    void datesAreThoseOfTheDocument() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(FULL)) {
            assertEquals(
                    "2026-03-14T00:00:00Z",
                    pdf.getDocumentInformation().getCreationDate().toInstant().toString());
        }
    }
}
