package loomcase.print;

import java.awt.Color;
import java.awt.GradientPaint;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javax.imageio.ImageIO;

/** Invented documents: one with every kind of block, and a long one. */
final class Sheets {
    static final String DIGEST = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    static final String SIGNS = "Ω µ ° ≤ ≥ ± → – · é ü ß č ł Ж";

    private Sheets() {}

    /** Every kind of block, with the signs that the trade needs. */
    static Document full() {
        return full(drawing(900, 260));
    }

    static Document full(String svg) {
        return new Document(
                "Job sheet",
                "Yard tractor 7, engine Larch 13 – no power, lamp on",
                Locale.ENGLISH,
                LocalDate.of(2026, 3, 14),
                List.of(
                        Block.Detail.of("Unit", "YT-7"),
                        Block.Detail.of("Engine serial", "LX13-004411"),
                        new Block.Detail(
                                "Complaint",
                                Phrase.of("Derates after 20 min, lamp on").from(1)),
                        Block.Detail.blank("Technician")),
                List.of(work(), readings(), proof(svg)),
                "Invented for Loomcase's tests · YT-7 · \"job\" 4411");
    }

    private static Section work() {
        return Section.of(
                "What to do",
                Block.Paragraph.of(
                        Phrase.strong("Splice S5V is open."),
                        Phrase.of("All four sensors on the 5 V supply read low.")
                                .from(2, 3),
                        Phrase.of("Signs: " + SIGNS + ".")),
                new Block.Caution("Fuel under pressure: open the rail only after 15 min at rest."),
                new Block.Steps(List.of(
                        Block.Step.of("Take off the heat shield over branch B4.")
                                .minutes(12)
                                .tools("10 mm socket", "torque wrench 0–25 N·m")
                                .caution("The turbocharger stays hot for an hour: gloves."),
                        Block.Step.of("Measure the supply at the sensor plug, key on.")
                                .minutes(6.5)
                                .blank("volts between OPS.A and OPS.C, 4.75 ≤ U ≤ 5.25"),
                        Block.Step.of("Close splice S5V with a crimp and sealed sleeve."))),
                new Block.Points(List.of(
                        Phrase.of("Do not probe the female cavity."),
                        Phrase.of("Keep the cut piece.").from(4))));
    }

    private static Section readings() {
        return Section.of(
                "Readings",
                new Block.Table(
                        "Supply at each plug, key on, engine off",
                        List.of(
                                Block.Column.tick("Done"),
                                Block.Column.text("Plug"),
                                Block.Column.number("Healthy / V"),
                                Block.Column.number("Read / V"),
                                Block.Column.blank("After / V")),
                        List.of(
                                Block.Row.of("", "OPS oil pressure", "4.9–5.1", "0.02", ""),
                                Block.Row.of(
                                                Phrase.of(""),
                                                Phrase.of("CTS"),
                                                Phrase.of("4.9–5.1"),
                                                Phrase.of("5.01").from(3),
                                                Phrase.of(""))
                                        .emphasised())));
    }

    private static Section proof(String svg) {
        return Section.of(
                "Proof",
                new Block.Figure(svg, "Harness with splice S5V marked", "The place, marked 1."),
                new Block.Photo("splice-before.png", DIGEST, "Splice S5V before the repair", Optional.of(picture())),
                new Block.Photo("tag.jpg", DIGEST, "Tag on the cut piece", Optional.empty()),
                new Block.PageBreak(),
                Block.Details.of(Block.Detail.of("Currency", "EUR"), Block.Detail.blank("Signed")),
                new Block.Evidence(List.of(
                        new Block.Line(1, "2026-03-14T08:00Z", "opened: derates after 20 min, lamp on", false),
                        new Block.Line(2, "2026-03-14T08:05Z", "codes read: 100/4 active ×3, 110/4 active ×3", false),
                        new Block.Line(3, "2026-03-14T08:20Z", "reading: 5.10 V at CTS", true),
                        new Block.Line(4, "2026-03-14T09:10Z", "work: splice S5V closed", false))));
    }

    /** A table and a list of steps that run over many pages. */
    static Document lengthy(int rows) {
        List<Block.Row> table = new ArrayList<>();
        List<Block.Step> steps = new ArrayList<>();
        for (int i = 1; i <= rows; i++) {
            table.add(Block.Row.of("cavity " + i, "X1." + i, Integer.toString(i)));
            steps.add(Block.Step.of("Move terminal " + i + " to cavity " + i + ".")
                    .caution("Careful " + i + "."));
        }
        return new Document(
                "Transfer sheet",
                "",
                Locale.GERMAN,
                LocalDate.of(2026, 3, 14),
                List.of(),
                List.of(
                        Section.of(
                                "Liste",
                                new Block.Table(
                                        "Alle Kammern",
                                        List.of(
                                                Block.Column.text("Kammer"),
                                                Block.Column.text("Nach"),
                                                Block.Column.number("Nr.")),
                                        table)),
                        Section.of("Schritte", new Block.Steps(steps))),
                "");
    }

    /** A small drawing, as wide and high as said. */
    static String drawing(int width, int height) {
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + width + " " + height + "\" width=\"" + width
                + "\" height=\"" + height + "\" font-family=\"DejaVu Sans, sans-serif\" font-size=\"14\""
                + " role=\"img\" aria-labelledby=\"a b\"><title id=\"a\">Loom</title><desc id=\"b\">Branch</desc>"
                + "<rect width=\"" + width + "\" height=\"" + height + "\" fill=\"#f4f4f4\"/>"
                + "<path d=\"M20 40H" + (width - 20) + "\" stroke=\"#111\" stroke-width=\"4\"/>"
                + "<text x=\"20\" y=\"30\" font-weight=\"bold\">B4 · 1.2 Ω → S5V</text></svg>";
    }

    static Picture picture() {
        BufferedImage image = new BufferedImage(320, 200, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setPaint(new GradientPaint(0, 0, Color.DARK_GRAY, 320, 200, Color.ORANGE));
        g.fillRect(0, 0, 320, 200);
        g.dispose();
        try (ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            ImageIO.write(image, "png", out);
            return new Picture(out.toByteArray());
        } catch (IOException problem) {
            throw new UncheckedIOException(problem);
        }
    }
}
