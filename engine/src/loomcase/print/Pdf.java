package loomcase.print;

import com.openhtmltopdf.extend.FSStream;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.PageSizeUnits;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * Writes a document as a PDF: tagged, with its fonts inside, to PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1).
 *
 * <p>The page of {@link Html} is set on paper by another style sheet, so that both say the same. Fonts are DejaVu Sans,
 * which has Latin, Greek, Cyrillic and the signs of the trade; a character that it does not have is written as {@code #}.
 * Dates and ids come from the document, so the same document gives the same bytes on one Java and one set of libraries.
 */
public final class Pdf {
    private static final String FONTS = "/net/sf/jasperreports/fonts/dejavu/";
    private static final String FONT_SCHEME = "loomcase-font";

    /** Millimetres at the sides of a page, as the style sheet has them. */
    private static final float MARGIN = 14;

    private Pdf() {}

    /** Sizes of paper, upright. */
    public enum Paper {
        /** ISO 216. */
        A4(210, 297),
        /** ANSI/ASME Y14.1, size A. */
        LETTER(215.9f, 279.4f);

        private final float width;
        private final float height;

        Paper(float widthMillimetres, float heightMillimetres) {
            this.width = widthMillimetres;
            this.height = heightMillimetres;
        }
    }

    /** The bytes of the PDF. */
    public static byte[] write(Document document, Paper paper) {
        XRLog.setLoggingEnabled(false);
        String page = Html.forPaper(document, sizes(paper));
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.useFastMode();
        builder.withHtmlContent(page, "");
        builder.useDefaultPageSize(paper.width, paper.height, PageSizeUnits.MM);
        builder.usePdfUaAccessibility(true);
        builder.usePdfAConformance(PdfRendererBuilder.PdfAConformance.PDFA_2_A);
        builder.useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
        builder.withProducer("Loomcase");
        builder.useProtocolsStreamImplementation(Pdf::font, FONT_SCHEME);
        builder.useUriResolver((base, uri) -> allowed(uri) ? uri : null);
        builder.useSVGDrawer(new BatikSVGDrawer());
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
            renderer.layout();
            try (PDDocument pdf = renderer.createPDFKeepOpen()) {
                PdfStamp.stamp(pdf, document.date(), page);
                pdf.save(out);
            }
        } catch (IOException problem) {
            throw new UncheckedIOException(problem);
        }
        return out.toByteArray();
    }

    /** Only our fonts, pictures inside the page and places on it; nothing is fetched. */
    private static boolean allowed(String uri) {
        return uri.startsWith(FONT_SCHEME + ":") || uri.startsWith("data:") || uri.startsWith("#");
    }

    /** The layout engine knows only the width of the first page, so what lies across is told its own. */
    private static String sizes(Paper paper) {
        return String.format(
                Locale.ROOT,
                "@page { size: %1$.1fmm %2$.1fmm; } @page wide { size: %2$.1fmm %1$.1fmm; }"
                        + " .across { width: %3$.1fmm; } .across .across { width: auto; }%n",
                paper.width,
                paper.height,
                paper.height - 2 * MARGIN);
    }

    private static FSStream font(String uri) {
        String file = uri.substring(FONT_SCHEME.length() + 1);
        return new FSStream() {
            @Override
            public InputStream getStream() {
                return Pdf.class.getResourceAsStream(FONTS + file);
            }

            @Override
            public Reader getReader() {
                return new InputStreamReader(getStream(), StandardCharsets.UTF_8);
            }
        };
    }
}
