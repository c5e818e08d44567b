package loomcase.draw;

import loomcase.model.Circuit;

/** Title and key of suspects, one line a mark: disc, share as figure and as bar, words, place. */
final class Head {
    private static final double BAR = 120;

    private final Svg svg;
    private final Pen pen;
    private final Circuit circuit;
    private final Suspicion suspicion;
    private final double width;

    Head(Svg svg, Pen pen, Circuit circuit, Suspicion suspicion, double width) {
        this.svg = svg;
        this.pen = pen;
        this.circuit = circuit;
        this.suspicion = suspicion;
        this.width = width;
    }

    void draw() {
        double room = width - 2 * Sheet.EDGE;
        pen.text(Lettering.fit(circuit.title(), room, 18, true), Sheet.EDGE, 34, 18, true, Ink.TEXT);
        double y = 52 + Sheet.KEY_LINE / 2;
        for (Suspicion.Mark m : suspicion.marks()) {
            line(m, y);
            y += Sheet.KEY_LINE;
        }
    }

    private void line(Suspicion.Mark m, double y) {
        double share = suspicion.of(m.place());
        double x = Sheet.EDGE;
        svg.open("g", "data-key", m.place());
        pen.disc(x + Sketch.DISC, y, m.rank());
        String percent = Suspicion.percent(share);
        double right = x + 72;
        pen.text(percent, right - Lettering.width(percent, 14, true), y + 5, 14, true, Ink.TEXT);
        svg.add("rect", "x", right + 10, "y", y - 5, "width", BAR, "height", 10, "fill", "none", "stroke", Ink.LOOM);
        svg.add(
                "rect",
                "x",
                right + 10,
                "y",
                y - 5,
                "width",
                Math.max(2, BAR * share),
                "height",
                10,
                "fill",
                Ink.shade(Math.max(share, 0.01)));
        double from = right + BAR + 24;
        String place = m.place().toString();
        double placeWidth = Math.min(Lettering.width(place, Sketch.FONT, false), 220);
        String label = Lettering.fit(m.label(), width - Sheet.EDGE - from - placeWidth - 20, 14, true);
        pen.text(label, from, y + 5, 14, true, Ink.TEXT);
        pen.text(
                Lettering.fit(place, placeWidth, Sketch.FONT, false),
                from + Lettering.width(label, 14, true) + 12,
                y + 5,
                Sketch.FONT,
                false,
                Ink.QUIET);
        svg.close("g");
    }
}
