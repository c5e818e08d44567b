package loomcase.fit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.print.Block;
import loomcase.print.Document;
import loomcase.print.Phrase;
import loomcase.print.Section;

/** The comparison as a sheet to print: the answer, then one part for each plug to work on, then the table of differences. */
public final class FitDocument {
    private static final int MOST_SLIPS = 40;

    private final FitReport report;

    private FitDocument(FitReport report) {
        this.report = report;
    }

    /**
     * The sheet.
     *
     * @param date the date it bears
     */
    public static Document of(FitReport report, LocalDate date) {
        return new FitDocument(report).document(date);
    }

    private Document document(LocalDate date) {
        FitResult fit = report.fit();
        List<Section> sections = new ArrayList<>();
        sections.add(answer());
        sections.add(differences());
        for (FitReport.PlugReport p : report.plugs()) {
            breakAfter(sections);
            sections.add(sheet(p));
            sections.add(checks(p));
            sections.add(slips(p));
        }
        return new Document(
                "Fit of a replacement harness",
                fit.newName() + " in place of " + fit.old().id(),
                Locale.ENGLISH,
                date,
                List.of(
                        Block.Detail.of(
                                "Fitted now", fit.old().id() + ", " + fit.old().title()),
                        Block.Detail.of(
                                "New part",
                                fit.newName()
                                        + fit.neu().map(c -> ", " + c.title()).orElse(" (only a list is known)")),
                        Block.Detail.of("Data", fit.old().origin()),
                        Block.Detail.blank("Unit, serial"),
                        Block.Detail.blank("Done by, date")),
                sections,
                "Fit " + fit.newName() + " for " + fit.old().id());
    }

    /** Each plug is worked on with its own sheets in the hand. */
    private static void breakAfter(List<Section> sections) {
        Section last = sections.remove(sections.size() - 1);
        List<Block> blocks = new ArrayList<>(last.blocks());
        blocks.add(new Block.PageBreak());
        sections.add(new Section(last.heading(), blocks));
    }

    private Section answer() {
        List<String> lines = FitWords.answer(report);
        List<Block> blocks = new ArrayList<>();
        blocks.add(Block.Paragraph.of(Phrase.strong(lines.get(0))));
        if (lines.size() > 1)
            blocks.add(new Block.Points(
                    lines.subList(1, lines.size()).stream().map(Phrase::of).toList()));
        if (!report.fit().notKnown().isEmpty())
            blocks.add(new Block.Table(
                    "Not compared, because a file does not say",
                    List.of(Block.Column.text("What"), Block.Column.text("Where"), Block.Column.text("Matters")),
                    report.fit().notKnown().stream()
                            .map(n -> Block.Row.of(n.what(), n.where(), n.matters() ? "yes" : "no"))
                            .toList()));
        return new Section("Answer", blocks);
    }

    private Section differences() {
        if (report.fit().differences().isEmpty()) return Section.of("Differences", Block.Paragraph.of("None found."));
        return Section.of(
                "Differences",
                new Block.Table(
                        "Every difference, worst first",
                        List.of(
                                Block.Column.text("Where"),
                                Block.Column.text("Difference"),
                                Block.Column.text("What follows"),
                                Block.Column.text("What to do, and where the rule comes from")),
                        report.fit().differences().stream()
                                .map(FitDocument::row)
                                .toList()));
    }

    private static Block.Row row(Difference d) {
        Block.Row row = Block.Row.of(
                d.where(),
                d.severity().word().toUpperCase(Locale.ROOT) + " " + d.subject().word() + ": " + d.what(),
                d.consequence(),
                d.action() + " [" + d.source() + "]");
        return d.severity() == Difference.Severity.BLOCKS ? row.emphasised() : row;
    }

    private Section sheet(FitReport.PlugReport p) {
        Transfer t = p.transfer();
        List<Block> blocks = new ArrayList<>();
        report.fit().plugs().stream()
                .filter(m -> m.old().id().equals(t.plug()))
                .findFirst()
                .ifPresent(m -> blocks.add(new Block.Figure(
                        FitPicture.svg(m),
                        "Mating faces of the old and the new plug " + t.plug()
                                + ", cavities whose terminals move are filled",
                        "Seen on the mating face; the wire side is the mirror image.")));
        if (!t.cycles().isEmpty())
            blocks.add(Block.Paragraph.of("Terminals that change places in a ring: " + FitWords.cycles(t) + "."));
        blocks.add(new Block.Steps(t.steps().stream().map(FitDocument::step).toList()));
        return new Section("Transfer sheet " + FitWords.summary(t), blocks);
    }

    private static Block.Step step(Transfer.Step s) {
        return new Block.Step(
                Phrase.of(s.words()),
                OptionalDouble.empty(),
                List.of(),
                s.caution().isEmpty() ? List.of() : List.of(s.caution()),
                Optional.empty());
    }

    private Section checks(FitReport.PlugReport p) {
        List<Block.Row> rows = new ArrayList<>();
        for (Slip.Check c : p.checks())
            rows.add(Block.Row.of(
                    "",
                    c.cavity() + " to " + c.far(),
                    String.join(", ", c.apart()),
                    FitWords.ohms(c.expectedOhms()) + (c.ofNewWire() ? "" : " (old wire)"),
                    FitWords.ohms(c.limitOhms()),
                    ""));
        for (String c : p.unchecked())
            rows.add(Block.Row.of("", c + ": ends inside the loom", "", "tug and look", "", ""));
        return Section.of(
                "Checks before the key is turned, plug " + p.transfer().plug(),
                new Block.Caution(
                        "Battery isolated, plugs named apart. Use a mating test lead; never push a probe into a"
                                + " cavity."),
                new Block.Table(
                        "Ohms from cavity to far end, leads zeroed, wire at 20 °C",
                        List.of(
                                Block.Column.tick("Done"),
                                Block.Column.text("Points"),
                                Block.Column.text("Apart"),
                                Block.Column.number("About"),
                                Block.Column.number("At most"),
                                Block.Column.blank("Read")),
                        rows));
    }

    private Section slips(FitReport.PlugReport p) {
        List<Slip> shown = new ArrayList<>(p.silent());
        p.harmful().stream().filter(s -> s.effect() != Slip.Effect.SILENT).forEach(shown::add);
        p.slips().stream()
                .filter(s -> s.effect() != Slip.Effect.SILENT
                        && s.effect() != Slip.Effect.NONE
                        && s.damage().isEmpty())
                .forEach(shown::add);
        // a terminal not seated does what one left out does, now and then: said once below the table
        shown.removeIf(s -> s.kind() == Slip.Kind.NOT_SEATED);
        List<Block.Row> rows = new ArrayList<>();
        for (Slip s : shown.subList(0, Math.min(MOST_SLIPS, shown.size()))) {
            boolean silent = s.effect() == Slip.Effect.SILENT;
            String caught = silent
                    ? FitWords.caught(s)
                    : s.check().map(c -> "check " + c.cavity()).orElse("tug test");
            Block.Row row = Block.Row.of(FitWords.brief(s), FitWords.follows(s), caught);
            rows.add(silent ? row.emphasised() : row);
        }
        List<Block> blocks = new ArrayList<>();
        blocks.add(Block.Paragraph.of(
                FitWords.slips(p) + " Looked at: " + String.join(", ", report.operatingPoints()) + "."));
        if (!rows.isEmpty())
            blocks.add(new Block.Table(
                    "Silent slips first, then those that may damage, then the others (2↔5: swapped; 2 out: left out)",
                    List.of(
                            Block.Column.text("Slip"),
                            Block.Column.text("What would follow"),
                            Block.Column.text("Caught before by")),
                    rows));
        blocks.add(
                Block.Paragraph.of(
                        "A terminal that is not seated does what one left out does, now and then: tug each while its check is read."));
        if (shown.size() > MOST_SLIPS)
            blocks.add(Block.Paragraph.of((shown.size() - MOST_SLIPS) + " more; --json lists all."));
        return new Section("If a slip were left in, plug " + p.transfer().plug(), blocks);
    }
}
