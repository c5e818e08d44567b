package loomcase.draw;

import loomcase.draw.Sketch.Row;
import loomcase.model.Circuit;

/** The control unit at the root with its plugs on its right edge, and below it any true engine conditions. */
final class UnitBox {
    private final Svg svg;
    private final Pen pen;
    private final Circuit circuit;
    private final Suspicion suspicion;
    private final Sheet sheet;

    UnitBox(Svg svg, Pen pen, Circuit circuit, Suspicion suspicion, Sheet sheet) {
        this.svg = svg;
        this.pen = pen;
        this.circuit = circuit;
        this.suspicion = suspicion;
        this.sheet = sheet;
    }

    void draw() {
        var unit = circuit.controlUnit();
        double share = suspicion.of(unit.place());
        boolean shown = suspicion.shows(unit.place());
        pen.group("data-place", unit.place().toString(), Pen.title(unit.place(), unit.label(), suspicion));
        svg.add(
                "rect",
                "x",
                Sheet.EDGE,
                "y",
                sheet.unitTop,
                "width",
                sheet.unitWidth,
                "height",
                sheet.unitHeight,
                "rx",
                3,
                "fill",
                Ink.PAPER,
                "stroke",
                shown ? Ink.shade(Math.max(share, 0.01)) : Ink.TEXT,
                "stroke-width",
                shown ? 2.5 + Ink.weight(share) : 2.5);
        double x = Sheet.EDGE + 14;
        double y = sheet.unitTop + 26;
        if (suspicion.mark(unit.place()).isPresent()) {
            pen.disc(x + Sketch.DISC, y - 4, suspicion.mark(unit.place()).get().rank());
            y += 24;
        }
        String id = unit.id() + (shown ? " " + Suspicion.percent(share) : "");
        pen.text(Lettering.fit(id, sheet.unitWidth - 24, 14, true), x, y, 14, true, Ink.TEXT);
        for (String line : sheet.unitWords) {
            y += 16;
            pen.text(line, x, y, Sketch.FONT, false, Ink.TEXT);
        }
        svg.close("g");
        for (Row r : sheet.unitRows) pen.row(r);
        for (Row r : sheet.engineRows) pen.engine(r, sheet.unitWidth);
    }
}
