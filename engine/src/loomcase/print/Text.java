package loomcase.print;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import loomcase.Lines;

/**
 * Writes a document as plain lines for a terminal.
 *
 * <p>Emphasis is between asterisks, boxes to tick are {@code [ ]}, lines to write on are underscores; drawings and photos
 * are their words. Control characters in the text become blanks, so that no text can steer the terminal.
 */
public final class Text {
    private static final String BLANK = "____________";
    private static final String TICK = "[ ]";

    private final Wording words;
    private final int columns;
    private final List<String> out = new ArrayList<>();

    private Text(Document document, int columns) {
        this.words = Wording.of(Text.class, document.language());
        this.columns = columns;
    }

    /**
     * The lines, each ended by a line feed.
     *
     * @param columns most characters a line has unless a single word is longer; at least 40
     */
    public static String write(Document document, int columns) {
        if (columns < 40) throw new IllegalArgumentException("columns " + columns + "; at least 40 are needed");
        return new Text(document, columns).page(document);
    }

    private String page(Document document) {
        heading(document.title(), '=');
        if (!document.subtitle().isBlank()) line(document.subtitle(), 0);
        details(document.facts());
        for (Section s : document.sections()) {
            gap();
            heading(s.heading(), '-');
            for (Block b : s.blocks()) block(b);
        }
        if (!document.footer().isBlank()) {
            gap();
            line(document.footer(), 0);
        }
        return out.stream().map(l -> l.stripTrailing() + "\n").collect(Collectors.joining());
    }

    private void heading(String words, char under) {
        line(words, 0);
        out.add(String.valueOf(under).repeat(Math.min(columns, plain(words).length())));
    }

    /** One empty line, unless there is one already. */
    private void gap() {
        if (!out.isEmpty() && !out.get(out.size() - 1).isEmpty()) out.add("");
    }

    private void line(String text, int hang) {
        out.addAll(Lines.wrap(text.stripLeading().equals(text) ? plain(text) : indented(text), columns, hang));
    }

    private static String indented(String text) {
        return " ".repeat(Lines.indent(text)) + plain(text);
    }

    /** Text on one line without control characters and signs that turn the direction of writing. */
    static String plain(String text) {
        return text.replaceAll("[\\p{Cntrl}\\u061c\\u200e\\u200f\\u202a-\\u202e\\u2066-\\u2069\\s]+", " ")
                .strip();
    }

    private void block(Block block) {
        if (block instanceof Block.Paragraph p) line(phrases(p.sentences()), 0);
        else if (block instanceof Block.Points p) p.points().forEach(each -> line("- " + phrase(each), 2));
        else if (block instanceof Block.Details d) details(d.details());
        else if (block instanceof Block.Table t) table(t);
        else if (block instanceof Block.Steps s) steps(s);
        else if (block instanceof Block.Caution c) line(caution(c.text()), 2);
        else if (block instanceof Block.Figure f) line(words.say("figure", f.alt()), 2);
        else if (block instanceof Block.Evidence e) e.lines().forEach(this::evidence);
        else if (block instanceof Block.Photo p) photo(p);
        else if (block instanceof Block.PageBreak) gap();
        else throw new AssertionError(block);
        gap();
    }

    private String phrases(List<Phrase> phrases) {
        return phrases.stream().map(this::phrase).collect(Collectors.joining(" "));
    }

    private String phrase(Phrase phrase) {
        String text =
                phrase.strong() && !phrase.text().isBlank() ? "*" + plain(phrase.text()) + "*" : plain(phrase.text());
        if (phrase.lines().isEmpty()) return text;
        return text
                + phrase.lines().stream()
                        .map(line -> words.say("line", Integer.toString(line)))
                        .collect(Collectors.joining(", ", " (", ")"));
    }

    private String caution(String text) {
        return "! " + words.say("caution") + ": " + plain(text);
    }

    private void details(List<Block.Detail> details) {
        int label =
                details.stream().mapToInt(d -> plain(d.label()).length()).max().orElse(0) + 2;
        int hang = Math.min(label, columns / 2);
        for (Block.Detail d : details) {
            String value = d.value().text().isEmpty() ? BLANK : phrase(d.value());
            String name = plain(d.label()) + ":";
            line(name + " ".repeat(Math.max(1, hang - name.length())) + value, hang, name.length());
        }
    }

    /** A line whose blanks up to a column are meant. */
    private void line(String text, int hang, int kept) {
        if (text.length() <= columns) out.add(text);
        else out.addAll(Lines.wrap(text, columns, Math.max(hang, Math.min(kept, 2))));
    }

    private void steps(Block.Steps steps) {
        int number = 0;
        for (Block.Step s : steps.steps()) {
            for (String c : s.cautions()) line(caution(c), 2);
            String time = s.minutes().isPresent()
                    ? " (" + words.say("minutes", s.minutes().getAsDouble()) + ")"
                    : "";
            line(TICK + " " + ++number + ". " + phrase(s.work()) + time, 7);
            if (!s.tools().isEmpty()) line("       " + words.say("tools", String.join(", ", s.tools())), 9);
            s.blank().ifPresent(what -> line("       " + plain(what) + ": " + BLANK, 9));
        }
    }

    private void table(Block.Table table) {
        line(table.caption(), 0);
        List<List<String>> cells = new ArrayList<>();
        cells.add(table.columns().stream().map(c -> plain(c.heading())).toList());
        for (Block.Row row : table.rows()) {
            List<String> line = new ArrayList<>();
            for (int i = 0; i < row.cells().size(); i++)
                line.add(cell(table.columns().get(i), row.cells().get(i), row.strong()));
            cells.add(line);
        }
        out.addAll(TextTable.lay(
                cells,
                table.columns().stream()
                        .map(c -> c.cells() == Block.Cells.NUMBER)
                        .toList(),
                columns));
    }

    private String cell(Block.Column column, Phrase content, boolean strong) {
        return switch (column.cells()) {
            case TICK -> TICK;
            case BLANK -> BLANK;
            default -> phrase(new Phrase(content.text(), content.strong() || strong, content.lines()));
        };
    }

    private void evidence(Block.Line line) {
        String withdrawn = line.withdrawn() ? " (" + words.say("withdrawn") + ")" : "";
        line(
                words.say("line", Integer.toString(line.number())) + ": "
                        + (line.when().isBlank() ? "" : line.when() + " ") + line.words() + withdrawn,
                2);
    }

    private void photo(Block.Photo photo) {
        if (!photo.about().isEmpty()) line(phrases(photo.about()), 0);
        line(words.say("photo", photo.shows()), 2);
        line("  " + words.say("photo.file", photo.file()), 4);
        line("  " + words.say("photo.digest", photo.sha256()), 4);
    }
}
