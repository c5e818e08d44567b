package loomcase.print;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What a document refuses. */
class DocumentTest {
    private static Document of(Block... blocks) {
        return new Document("T", "", Locale.ENGLISH, LocalDate.EPOCH, List.of(), List.of(Section.of("S", blocks)), "");
    }

    private static String refusal(Runnable making) {
        return assertThrows(IllegalArgumentException.class, making::run).getMessage();
    }

    private static final Block EVIDENCE = new Block.Evidence(List.of(new Block.Line(1, "", "seen", false)));

    @Test
    void aCitedLineMustBeEvidenceWhenThereIsAny() {
        Block cites = Block.Paragraph.of(Phrase.of("Open.").from(2));
        assertTrue(refusal(() -> of(cites, EVIDENCE)).contains("line 2 is cited but is no evidence line: Open."));
        assertTrue(Html.write(of(cites)).contains("(line 2)"), "without a list it is only named");
    }

    @Test
    void evidenceStandsOnce() {
        assertTrue(refusal(() -> of(EVIDENCE, EVIDENCE)).contains("two lists of evidence"));
    }

    @Test
    void rowsFitTheirColumns() {
        List<Block.Column> two = List.of(Block.Column.text("A"), Block.Column.tick("B"));
        assertTrue(refusal(() -> new Block.Table("T", two, List.of(Block.Row.of("x"))))
                .contains("has 2 columns, but a row has 1"));
        assertTrue(refusal(() -> new Block.Table("T", two, List.of(Block.Row.of("x", "y"))))
                .contains("'B' is filled in by hand"));
    }

    @Test
    void drawingsThatRunOrFetchAreRefused() {
        for (String inside : List.of(
                "<script>1</script>",
                "<foreignObject/>",
                "<g onload='x'/>",
                "<image href='http://a/b.png'/>",
                "<use href='http://a/b.svg#x'/>",
                "<use xmlns:xlink='http://www.w3.org/1999/xlink' xlink:href='file:///etc/passwd'/>",
                "<rect fill='url(http://a/b)'/>",
                "<rect style='background: url(http://a/b)'/>",
                "<style>@import 'x'</style>",
                "<set attributeName='href' to='x'/>")) {
            String svg = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1 1'>" + inside + "</svg>";
            assertTrue(refusal(() -> new Block.Figure(svg, "alt", "")).startsWith("a drawing with"), inside);
        }
        assertTrue(refusal(() -> new Block.Figure("<!DOCTYPE svg [<!ENTITY x 'y'>]><svg/>", "a", ""))
                .contains("DOCTYPE"));
        assertTrue(refusal(() -> new Block.Figure("no picture", "a", "")).startsWith("not an SVG document"));
    }

    @Test
    void aPhotoNeedsADigestAndWords() {
        assertTrue(refusal(() -> new Block.Photo("a.jpg", "12", "x", Optional.empty()))
                .contains("SHA-256"));
        assertTrue(refusal(() -> new Block.Photo("a.jpg", Sheets.DIGEST, " ", Optional.empty()))
                .contains("without words"));
        assertEquals(
                "neither a JPEG nor a PNG",
                refusal(() -> new Picture("GIF89a".getBytes(java.nio.charset.StandardCharsets.US_ASCII))));
    }
}
