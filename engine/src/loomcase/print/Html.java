package loomcase.print;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Writes a document as one HTML page that fetches nothing and runs nothing.
 *
 * <p>The page is HTML as browsers parse it and well-formed XML at once. It prints on A4 and Letter: heads of tables repeat,
 * rows and steps are not split, a caution stays with its step, a broad drawing gets a page across.
 * Nothing is said by colour alone. Cost: linear in the document.
 */
public final class Html {
    /** One of the two layout engines passes on no style from a page to what stands in its margin. */
    private static final String FOOT =
            "font-family: \"DejaVu Sans\", Verdana, sans-serif; font-size: 8pt; color: #444; ";

    /** Characters from which a cell of numbers may be broken, or it would push the other columns off the page. */
    private static final int LONGEST_NUMBER = 30;

    /** A word of at most so many letters fits into a column of its own. */
    private static final int LONGEST_WHOLE_WORD = 15;

    private final Document document;
    private final boolean paper;
    private final Wording words;
    private final Set<Integer> anchors;
    private final Markup out = new Markup();
    private int figures;

    private Html(Document document, boolean paper) {
        this.paper = paper;
        this.document = document;
        this.words = Wording.of(Html.class, document.language());
        this.anchors = document.anchors();
    }

    /** The page, to be stored as UTF-8. */
    public static String write(Document document) {
        return new Html(document, false).page(style("screen.css"));
    }

    /** The same page with the style sheet for {@link Pdf} and the sizes of its pages. */
    static String forPaper(Document document, String sizes) {
        return new Html(document, true).page(style("paper.css") + sizes);
    }

    private String page(String medium) {
        out.raw("<!DOCTYPE html>\n");
        String language = document.language().toLanguageTag();
        out.open("html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", language);
        head(medium);
        out.open("body").line();
        out.open("header").element("h1", document.title());
        if (!document.subtitle().isBlank()) out.element("p", document.subtitle(), "class", "subtitle");
        if (!document.facts().isEmpty()) details(document.facts(), "details facts");
        out.close("header").line().open("main").line();
        for (Section section : document.sections()) section(section);
        out.close("main").line();
        if (!document.footer().isBlank())
            out.open("footer").element("p", document.footer()).close("footer");
        return out.close("body").close("html").line().toString();
    }

    private void head(String medium) {
        String policy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";
        String title =
                document.subtitle().isBlank() ? document.title() : document.title() + " – " + document.subtitle();
        out.open("head").line().empty("meta", "charset", "utf-8").line();
        out.empty("meta", "http-equiv", "Content-Security-Policy", "content", policy)
                .line();
        out.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1")
                .line();
        out.empty("meta", "name", "date", "content", document.date().toString()).line();
        out.empty("meta", "name", "description", "content", title).line();
        out.element("title", title).line();
        out.open("style")
                .line()
                .raw(style("document.css"))
                .raw(medium)
                .raw(pageFoot())
                .close("style")
                .line();
        out.close("head").line();
    }

    /** The footer of every page; as CSS, because no element of a page repeats when it is printed. */
    private String pageFoot() {
        StringBuilder css = new StringBuilder("@page { @bottom-right { " + FOOT);
        css.append("content: counter(page) \" / \" counter(pages); } @bottom-left { ")
                .append(FOOT)
                .append("content: \"");
        document.footer().codePoints().forEach(c -> {
            if (Character.isLetterOrDigit(c) && c < 0x80) css.appendCodePoint(c);
            else if (!Character.isISOControl(c)) css.append('\\').append(String.format("%06x", c));
        });
        return css.append("\" } }\n").toString();
    }

    private static String style(String name) {
        try (InputStream in = Html.class.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException problem) {
            throw new UncheckedIOException(problem);
        }
    }

    private void section(Section section) {
        List<Block> blocks = section.blocks();
        boolean across = !blocks.isEmpty()
                && blocks.get(0) instanceof Block.Figure f
                && Drawing.of(f.svg()).wide();
        out.open("section");
        // A heading goes on the page of the drawing that it heads.
        if (across) out.open("div", "class", "across");
        out.element("h2", section.heading()).line();
        for (int i = 0; i < blocks.size(); i++) {
            block(blocks.get(i));
            if (i == 0 && across) out.close("div");
        }
        out.close("section").line();
    }

    private void block(Block block) {
        if (block instanceof Block.Paragraph p) paragraph(p.sentences());
        else if (block instanceof Block.Points p) points(p.points());
        else if (block instanceof Block.Details d) details(d.details(), "details");
        else if (block instanceof Block.Table t) table(t);
        else if (block instanceof Block.Steps s) steps(s);
        else if (block instanceof Block.Caution c) caution(c.text());
        else if (block instanceof Block.Figure f) figure(f);
        else if (block instanceof Block.Evidence e) evidence(e);
        else if (block instanceof Block.Photo p) photo(p);
        else if (block instanceof Block.PageBreak)
            out.open("div", "class", "break").close("div");
        else throw new AssertionError(block);
        out.line();
    }

    private void paragraph(List<Phrase> sentences) {
        // One strong sentence by itself stands over what follows and stays with it.
        boolean lead = sentences.size() == 1 && sentences.get(0).strong();
        out.open("p", "class", lead ? "lead" : "");
        for (int i = 0; i < sentences.size(); i++) {
            if (i > 0) out.text(" ");
            phrase(sentences.get(i));
        }
        out.close("p");
    }

    private void points(List<Phrase> points) {
        out.open("ul");
        for (Phrase p : points) {
            out.open("li");
            phrase(p);
            out.close("li");
        }
        out.close("ul");
    }

    /** Each phrase is set apart for the direction of writing, so that none turns its neighbours round. */
    private void phrase(Phrase phrase) {
        if (phrase.strong()) out.open("strong");
        out.element("bdi", phrase.text());
        if (phrase.strong()) out.close("strong");
        if (phrase.lines().isEmpty()) return;
        int last = phrase.lines().size() - 1;
        // The engine that lays out PDFs breaks lines at the edges of a link; only a block of its own stays whole.
        for (int i = 0; i <= last; i++) {
            if (i > 0) out.text(" ");
            else out.raw("\u00a0");
            out.open("span", "class", "cites").text(i == 0 ? "(" : "");
            cite(phrase.lines().get(i));
            out.text(i == last ? ")" : ",").close("span");
        }
    }

    private void cite(int line) {
        String words = this.words.say("line", Integer.toString(line));
        if (anchors.contains(line)) out.element("a", words, "href", "#" + anchor(line), "title", words);
        else out.text(words);
    }

    private static String anchor(int line) {
        return "line-" + line;
    }

    private void details(List<Block.Detail> details, String style) {
        out.open("dl", "class", style);
        for (Block.Detail d : details) {
            out.open("div").element("dt", d.label()).open("dd");
            if (d.value().text().isEmpty()) blank();
            else phrase(d.value());
            out.close("dd").close("div");
        }
        out.close("dl");
    }

    private void blank() {
        out.open("span", "class", "blank", "role", "img", "aria-label", words.say("blank"))
                .close("span");
    }

    private void tick() {
        out.open("span", "class", "tick", "role", "img", "aria-label", words.say("tick"))
                .close("span");
    }

    private void table(Block.Table table) {
        out.open("table")
                .element("caption", table.caption())
                .line()
                .open("thead")
                .open("tr");
        int naming = -1;
        for (int i = 0; i < table.columns().size(); i++) {
            Block.Column c = table.columns().get(i);
            if (naming < 0 && c.cells() == Block.Cells.TEXT) naming = i;
            out.element("th", c.heading(), "scope", "col", "class", (style(c.cells()) + whole(table, i)).strip());
        }
        out.close("tr").close("thead").line().open("tbody").line();
        for (Block.Row row : table.rows()) {
            out.open("tr", "class", row.strong() ? "strong" : "");
            for (int i = 0; i < row.cells().size(); i++)
                cell(table.columns().get(i).cells(), row.cells().get(i), i == naming, whole(table, i));
            out.close("tr").line();
        }
        out.close("tbody").close("table");
    }

    private static String style(Block.Cells cells) {
        return switch (cells) {
            case TEXT -> "";
            case NUMBER -> "number";
            case TICK -> "box";
            case BLANK -> "fill";
        };
    }

    /** A column of short words keeps them whole; the engine that lays out PDFs would break them letter by letter. */
    private static String whole(Block.Table table, int column) {
        Stream<String> texts = Stream.concat(
                Stream.of(table.columns().get(column).heading()),
                table.rows().stream().map(r -> r.cells().get(column).text()));
        boolean brief = texts.flatMap(t -> Stream.of(t.split("\\s+"))).allMatch(w -> w.length() <= LONGEST_WHOLE_WORD);
        return brief ? " whole" : "";
    }

    private void cell(Block.Cells kind, Phrase content, boolean names, String whole) {
        String name = names ? "th" : "td";
        boolean number = kind == Block.Cells.NUMBER && content.text().length() > LONGEST_NUMBER;
        out.open(name, "scope", names ? "row" : "", "class", ((number ? "number long" : style(kind)) + whole).strip());
        if (kind == Block.Cells.TICK) tick();
        else if (kind == Block.Cells.BLANK) blank();
        else phrase(content);
        out.close(name);
    }

    private void steps(Block.Steps steps) {
        out.open("ol", "class", "steps").line();
        for (int i = 0; i < steps.steps().size(); i++) step(i + 1, steps.steps().get(i));
        out.close("ol");
    }

    private void step(int number, Block.Step step) {
        out.open("li");
        for (String c : step.cautions()) caution(c);
        out.open("p", "class", "work");
        tick();
        out.text(" ").element("strong", number + ".").text(" ");
        phrase(step.work());
        if (step.minutes().isPresent())
            out.text(" ").element("span", words.say("minutes", step.minutes().getAsDouble()), "class", "minutes");
        out.close("p");
        if (!step.tools().isEmpty())
            out.element("p", words.say("tools", String.join(", ", step.tools())), "class", "tools");
        if (step.blank().isPresent()) {
            out.open("p", "class", "write").text(step.blank().get() + ": ");
            blank();
            out.close("p");
        }
        out.close("li").line();
    }

    private void caution(String text) {
        out.open("p", "class", "caution", "role", "note");
        out.element("strong", "\u26a0 " + words.say("caution") + ":")
                .text(" ")
                .element("bdi", text)
                .close("p");
    }

    private void figure(Block.Figure figure) {
        Drawing drawing = Drawing.of(figure.svg());
        out.open("figure", "class", drawing.wide() ? "drawing wide across" : "drawing");
        drawing.inline(out, "f" + ++figures + "-", figure.alt(), paper);
        if (!figure.caption().isBlank()) out.element("figcaption", figure.caption());
        out.close("figure");
    }

    private void evidence(Block.Evidence evidence) {
        out.open("table", "class", "evidence").element("caption", words.say("evidence"));
        out.open("thead").open("tr");
        for (String key : List.of("line.column", "when.column", "words.column"))
            out.element("th", words.say(key), "scope", "col", "class", "whole");
        out.close("tr").close("thead").line().open("tbody").line();
        for (Block.Line line : evidence.lines()) {
            out.open("tr");
            out.element(
                    "th",
                    Integer.toString(line.number()),
                    "scope",
                    "row",
                    "class",
                    "number whole",
                    "id",
                    anchor(line.number()));
            out.element("td", line.when(), "class", "whole").open("td");
            if (line.withdrawn()) out.element("del", line.words()).text(" (" + words.say("withdrawn") + ")");
            else out.element("bdi", line.words());
            out.close("td").close("tr").line();
        }
        out.close("tbody").close("table");
    }

    private void photo(Block.Photo photo) {
        out.open("div", "class", "photo");
        if (!photo.about().isEmpty()) paragraph(photo.about());
        out.open("figure");
        Optional<Picture> picture = photo.picture();
        if (picture.isPresent()) {
            String data = Base64.getEncoder().encodeToString(picture.get().bytes());
            out.empty(
                    "img", "alt", photo.shows(), "src", "data:" + picture.get().mediaType() + ";base64," + data);
        }
        out.open("figcaption").element("bdi", photo.shows()).empty("br");
        out.text(words.say("photo.file", photo.file())).empty("br");
        out.element("span", words.say("photo.digest", photo.sha256()), "class", "digest");
        out.close("figcaption").close("figure").close("div");
    }
}
