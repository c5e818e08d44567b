package loomcase.draw;

import java.util.List;
import loomcase.draw.Loom.Part;
import loomcase.draw.Loom.Shape;
import loomcase.draw.Sketch.Knot;
import loomcase.draw.Sketch.Mark;
import loomcase.draw.Sketch.Row;
import loomcase.draw.Sketch.Run;
import loomcase.draw.Sketch.Tag;
import loomcase.model.PlaceId;

/** Draws pieces that already have their coordinates. */
final class Pen {
    private static final double HALF = 8;

    private final Svg svg;
    private final Suspicion suspicion;
    private final boolean live;

    /**
     * @param live whether places are to take the focus and have a name
     */
    Pen(Svg svg, Suspicion suspicion, boolean live) {
        this.live = live;
        this.svg = svg;
        this.suspicion = suspicion;
    }

    void text(String words, double x, double y, double size, boolean bold, String fill) {
        if (words.isEmpty()) return;
        if (bold) svg.text("text", words, "x", x, "y", y, "font-size", size, "font-weight", "bold", "fill", fill);
        else svg.text("text", words, "x", x, "y", y, "font-size", size, "fill", fill);
    }

    /** A callout number. */
    void disc(double x, double y, int rank) {
        String n = Integer.toString(rank);
        svg.add("circle", "cx", x, "cy", y, "r", Sketch.DISC, "fill", Ink.TRACE);
        text(n, x - Lettering.width(n, Sketch.FONT, true) / 2, y + 4.3, Sketch.FONT, true, Ink.PAPER);
    }

    /** Full words about a place for a pointer that rests on it and for screen readers. */
    static String title(PlaceId place, String label, Suspicion suspicion) {
        String share = suspicion.shows(place) ? ", suspected " + Suspicion.percent(suspicion.of(place)) : "";
        String mark = suspicion
                .mark(place)
                .map(m -> ", number " + m.rank() + ": " + m.label())
                .orElse("");
        return place + ": " + label + share + mark;
    }

    private void group(Part part) {
        if (part.place().isPresent())
            group(
                    "data-place",
                    part.place().get().toString(),
                    title(part.place().get(), part.label(), suspicion));
        else group("data-rub", part.id(), rubTitle(part));
    }

    private static String rubTitle(Part part) {
        return "rub point " + part.id() + ": " + part.label();
    }

    /** A stop on a branch; on a live page a rub point says which branch it is on. */
    private void stopGroup(Part part, String branch) {
        if (!live || part.place().isPresent()) {
            group(part);
            return;
        }
        svg.open(
                "g",
                "data-rub",
                part.id(),
                "data-branch",
                branch,
                "tabindex",
                "0",
                "role",
                "button",
                "aria-label",
                rubTitle(part));
        svg.text("title", rubTitle(part));
    }

    /** Opens a group for something that can be pointed at. */
    void group(String attribute, String id, String words) {
        if (live) svg.open("g", attribute, id, "tabindex", "0", "role", "button", "aria-label", words);
        else svg.open("g", attribute, id);
        svg.text("title", words);
    }

    private double share(Part part) {
        return part.place()
                .filter(suspicion::shows)
                .map(p -> Math.max(suspicion.of(p), 0.01))
                .orElse(0.0);
    }

    /** The thin line from a junction to the first part of a row. */
    void stub(Knot k, Row r) {
        line("M" + at(k.x, k.y) + vertical(k.y, r.y) + "H" + Svg.number(r.tags.get(0).x), Ink.LOOM, 2);
    }

    /** The thin line from a plug of the control unit to the root junction. */
    void unitStub(Knot k, Row r) {
        line("M" + at(k.x, k.y) + vertical(k.y, r.y) + "H" + Svg.number(r.wordsX - 6), Ink.LOOM, 2);
    }

    private static String at(double x, double y) {
        return Svg.number(x) + " " + Svg.number(y);
    }

    private static String vertical(double from, double to) {
        return from == to ? "" : "V" + Svg.number(to);
    }

    private void line(String path, String stroke, double width) {
        svg.add("path", "d", path, "fill", "none", "stroke", stroke, "stroke-width", width, "stroke-linejoin", "round");
    }

    /** A branch with the words above it; a suspected one gets rails on both sides. */
    void run(Run r) {
        Part part = r.tag.part;
        double share = share(part);
        String path = "M" + at(r.near.x, r.near.y) + vertical(r.near.y, r.y) + "H" + Svg.number(r.far.x);
        group(part);
        if (share > 0) {
            line(path, Ink.shade(share), 2 * r.half());
            line(path, Ink.PAPER, r.thickness + 4);
        }
        line(path, Ink.shade(share), r.thickness);
        double x = r.near.x + 14;
        double y = r.y - r.half() - 7;
        if (r.tag.called)
            disc(
                    x + Sketch.DISC,
                    y - 4,
                    suspicion.mark(part.place().get()).get().rank());
        text(r.tag.text, x + (r.tag.called ? Sketch.CALL : 0), y, Sketch.FONT, true, Ink.TEXT);
        text(r.words, x + r.tag.head() + 6, y, Sketch.FONT, share > 0, Ink.TEXT);
        svg.close("g");
    }

    /** The path of the traced wires. */
    void trace(List<String> strokes, List<String> wires) {
        svg.open("g", "data-trace", String.join(" ", wires), "pointer-events", "none");
        for (String s : strokes) line(s, Ink.TRACE, 6);
        for (String s : strokes)
            svg.add(
                    "path",
                    "d",
                    s,
                    "fill",
                    "none",
                    "stroke",
                    Ink.PAPER,
                    "stroke-width",
                    2.6,
                    "stroke-dasharray",
                    "7 4");
        svg.close("g");
    }

    void knot(Knot k) {
        svg.add("circle", "cx", k.x, "cy", k.y, "r", 4.5, "fill", Ink.TEXT);
    }

    /** A stop: its shape on the branch, its label in a line below. */
    void mark(Run run, Mark m) {
        double x = run.near.x + m.offset;
        stopGroup(m.tag.part, run.limb.branch().id());
        double share = share(m.tag.part);
        double labelY = run.y + run.half() + 9 + m.line * Sketch.LINE;
        if (m.line > 0)
            svg.add(
                    "path",
                    "d",
                    "M" + at(x, run.y + run.thickness / 2) + "V" + Svg.number(labelY + 1),
                    "stroke",
                    Ink.QUIET,
                    "stroke-width",
                    1);
        Shapes.stop(svg, m.tag.part.shape(), x, run.y, run.thickness, share);
        double from = x - m.half();
        if (m.tag.called) {
            disc(
                    from + Sketch.DISC,
                    labelY + 8,
                    suspicion.mark(m.tag.part.place().get()).get().rank());
            from += Sketch.CALL;
        }
        text(m.tag.text, from, labelY + 12, Sketch.FONT, share > 0, Ink.TEXT);
        svg.close("g");
    }

    /** A row of tags with its words. */
    void row(Row r) {
        for (int i = 0; i < r.tags.size(); i++) {
            Tag t = r.tags.get(i);
            if (i > 0 && t.part.shape() != Shape.CELL) {
                Tag before = r.tags.get(i - 1);
                line("M" + at(before.x + before.width, r.y) + "H" + Svg.number(t.x), Ink.QUIET, 2);
            }
            tag(t, r.y, i == r.tags.size() - 1 ? r : null);
        }
    }

    private void tag(Tag t, double y, Row last) {
        group(t.part);
        double share = share(t.part);
        double x = t.x;
        if (t.called) {
            disc(x + Sketch.DISC, y, suspicion.mark(t.part.place().get()).get().rank());
            x += Sketch.CALL;
        }
        double width = t.x + t.width - x;
        double textX = Shapes.tag(svg, t.part.shape(), x, y, width, HALF, share);
        boolean filled = share >= Ink.FILLED && Shapes.filled(t.part.shape());
        text(t.text, textX, y + 4.3, Sketch.FONT, true, filled ? Ink.PAPER : Ink.TEXT);
        if (last != null) text(last.words, last.wordsX, y + 4.3, Sketch.FONT, false, Ink.TEXT);
        svg.close("g");
    }

    /** A true engine condition, below the control unit. */
    void engine(Row r, double width) {
        Tag t = r.tags.get(0);
        group(t.part);
        double x = t.x + (t.called ? Sketch.CALL : 0);
        if (t.called)
            disc(
                    t.x + Sketch.DISC,
                    r.y,
                    suspicion.mark(t.part.place().get()).get().rank());
        String words = Suspicion.percent(suspicion.of(t.part.place().get())) + " engine: " + t.part.label();
        double y = r.y + 4.3;
        for (String line : Lettering.wrap(words, width - (x - t.x), Sketch.FONT, true, 2)) {
            text(line, x, y, Sketch.FONT, true, Ink.TEXT);
            y += Sketch.LINE;
        }
        svg.close("g");
    }

    /** A small sample for the legend. */
    void sample(Part part, double x, double y) {
        Shapes.sample(svg, part.shape(), x, y);
    }

    /** Three swatches from little to much suspicion for the legend. */
    void scale(double x, double y) {
        double[] shares = {0.02, 0.2, 1};
        for (int i = 0; i < 3; i++)
            svg.add(
                    "rect",
                    "x",
                    x + 10 * i,
                    "y",
                    y - 5,
                    "width",
                    6,
                    "height",
                    10,
                    "fill",
                    i == 2 ? Ink.shade(1) : Ink.PAPER,
                    "stroke",
                    Ink.shade(shares[i]),
                    "stroke-width",
                    Ink.weight(shares[i]) / 1.5);
    }
}
