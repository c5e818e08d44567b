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

/** Replaces the clock's date and the random id that a PDF library puts into a file by those of the document. */
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
        pdf.setDocumentId(digest(content));
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
