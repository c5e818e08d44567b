package loomcase.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import loomcase.claim.Audit;
import loomcase.claim.Packet;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** An audit of claims as lines and as CSV (RFC 4180). */
final class AuditText {
    private AuditText() {}

    static void print(Audit audit, Page page) {
        for (Audit.Row row : audit.rows()) {
            page.line(row.file() + ": " + row.answer()
                    + row.total().map(AuditText::money).map(m -> ", " + m).orElse(""));
            row.problem().ifPresent(p -> page.line("  cannot be read: " + p));
            row.contradictions().forEach(c -> page.line("  contradicts itself: " + c));
            row.blocks().forEach(b -> page.line("  blocks: " + b));
            row.questioned().forEach(q -> page.line("  questioned: " + q));
        }
        page.line();
        String together = audit.ready().entrySet().stream()
                .map(e -> e.getValue().toPlainString() + " " + e.getKey())
                .collect(Collectors.joining(" and "));
        page.line(audit.claimable() + " of " + audit.rows().size() + " can be sent"
                + (together.isEmpty() ? "." : ", for " + together + "."));
    }

    private static String money(Packet.Bill bill) {
        return bill.total().toPlainString() + " " + bill.currency();
    }

    static String csv(Audit audit) {
        StringBuilder out = new StringBuilder();
        try (CSVPrinter csv = new CSVPrinter(out, CSVFormat.RFC4180)) {
            csv.printRecord(
                    "case",
                    "unit",
                    "answer",
                    "total",
                    "currency",
                    "problem",
                    "contradictions",
                    "blocks",
                    "questioned",
                    "nice");
            for (Audit.Row r : audit.rows()) csv.printRecord(fields(r));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    private static List<String> fields(Audit.Row r) {
        List<String> out = new ArrayList<>(List.of(
                r.file(),
                r.unit(),
                r.answer(),
                r.total().map(b -> b.total().toPlainString()).orElse(""),
                r.total().map(Packet.Bill::currency).orElse(""),
                r.problem().orElse("")));
        for (List<String> many : List.of(r.contradictions(), r.blocks(), r.questioned(), r.nice()))
            out.add(String.join(" | ", many));
        // A spreadsheet takes a text that begins so for a formula; a quote before it keeps it text.
        return out.stream().map(t -> t.matches("(?s)[=+@-].*") ? "'" + t : t).toList();
    }
}
