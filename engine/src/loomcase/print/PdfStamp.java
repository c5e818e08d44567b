package loomcase.print;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Calendar;
import java.util.GregorianCalendar;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDObjectReference;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureNode;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotation;

/**
 * Replaces the clock's date and the random id that a PDF library puts into a file by those of the document,
 * and says in each link where it leads.
 */
final class PdfStamp {
    private PdfStamp() {}

    static void stamp(PDDocument pdf, LocalDate date, String content) throws IOException {
        Calendar day = GregorianCalendar.from(date.atStartOfDay(ZoneOffset.UTC));
        pdf.getDocumentInformation().setCreationDate(day);
        pdf.getDocumentInformation().setModificationDate(day);
        // The two dates must agree (ISO 19005-1, 6.7.3).
        PDMetadata metadata = pdf.getDocumentCatalog().getMetadata();
        String xmp = new String(metadata.toByteArray(), StandardCharsets.UTF_8)
                .replaceAll(
                        "<xmp:CreateDate>[^<]*</xmp:CreateDate>",
                        "<xmp:CreateDate>" + date + "T00:00:00Z</xmp:CreateDate><xmp:ModifyDate>" + date
                                + "T00:00:00Z</xmp:ModifyDate>");
        metadata.importXMPMetadata(xmp.getBytes(StandardCharsets.UTF_8));
        describeLinks(pdf.getDocumentCatalog().getStructureTreeRoot());
        pdf.setDocumentId(digest(content));
    }

    /** Each link says where it leads in its own entry too (ISO 14289-1, 7.18.5), with the words of its tag. */
    private static void describeLinks(PDStructureNode node) {
        for (Object kid : node.getKids()) {
            if (kid instanceof PDObjectReference reference
                    && node instanceof PDStructureElement tag
                    && reference.getReferencedObject() instanceof PDAnnotation link)
                link.setContents(tag.getAlternateDescription());
            if (kid instanceof PDStructureNode inner) describeLinks(inner);
        }
    }

    private static long digest(String content) {
        try {
            byte[] sha = MessageDigest.getInstance("SHA-256").digest(content.getBytes(StandardCharsets.UTF_8));
            return ByteBuffer.wrap(sha).getLong();
        } catch (NoSuchAlgorithmException problem) {
            throw new AssertionError(problem);
        }
    }
}
