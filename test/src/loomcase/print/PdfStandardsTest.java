package loomcase.print;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** PDF/A-2a and PDF/UA-1 as veraPDF checks them, the validator of the PDF Association's industry group. */
class PdfStandardsTest {
    @BeforeAll
    static void start() {
        VeraGreenfieldFoundryProvider.initialise();
    }

    private static List<String> faults(byte[] pdf, PDFAFlavour flavour) throws Exception {
        try (PDFAParser parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour)) {
            PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false);
            ValidationResult result = validator.validate(parser);
            assertTrue(
                    result.getTotalAssertions() > 100,
                    "veraPDF checked only " + result.getTotalAssertions() + " things");
            return result.getTestAssertions().stream()
                    .filter(a -> a.getStatus() == TestAssertion.Status.FAILED)
                    .map(a -> a.getRuleId().getClause() + "-" + a.getRuleId().getTestNumber() + " " + a.getMessage()
                            + " at " + a.getLocation().getContext())
                    .toList();
        }
    }

    @Test
    void everySheetIsArchivable() throws Exception {
        for (byte[] pdf : sheets()) assertEquals(List.of(), faults(pdf, PDFAFlavour.PDFA_2_A));
    }

    @Test
    void everySheetIsAccessible() throws Exception {
        for (byte[] pdf : sheets()) assertEquals(List.of(), faults(pdf, PDFAFlavour.PDFUA_1));
    }

    private static List<byte[]> sheets() {
        return List.of(
                Pdf.write(Sheets.full(Sheets.drawing(1500, 500)), Pdf.Paper.A4),
                Pdf.write(Sheets.lengthy(80), Pdf.Paper.LETTER),
                Pdf.write(Hostile.document(), Pdf.Paper.A4));
    }

    @Test
    void theValidatorSeesAFileWithoutTags() throws Exception {
        try (PDDocument pdf = Loader.loadPDF(Pdf.write(Sheets.full(), Pdf.Paper.A4));
                ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            pdf.getDocumentCatalog().setStructureTreeRoot(null);
            pdf.save(out);
            assertFalse(faults(out.toByteArray(), PDFAFlavour.PDFUA_1).isEmpty());
        }
    }
}
