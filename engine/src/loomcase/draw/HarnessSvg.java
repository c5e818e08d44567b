package loomcase.draw;

import java.util.ArrayList;
import java.util.List;
import loomcase.draw.Sketch.Knot;
import loomcase.draw.Sketch.Row;
import loomcase.draw.Sketch.Run;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;

/**
 * A picture of the harness as one self-contained SVG document, not to scale.
 *
 * <p>The control unit stands at the left; branches run to the right as a tree without crossings, thicker with more wires.
 * Plugs and what they plug into hang on their junction; splices, rub points and suspected wires sit on their branch in true
 * order. Suspicion is width and darkness of ink, a filled shape, a percentage, and for marked places a numbered disc that
 * the key above repeats. Every place is a group with the attribute {@code data-place} ({@code "splice S1"}), rub points
 * have {@code data-rub}; full words stand in each group's {@code title}.
 *
 * <p>Text is 12 px or more when the picture is shown at its own width, which is at most 1600 px unless a deep tree needs
 * more. Same input, same bytes. Cost: linear in parts times the depth of the tree.
 */
public final class HarnessSvg {
    private final Circuit circuit;
    private final Suspicion suspicion;
    private final Sheet sheet;
    private final Svg svg = new Svg();
    private final Pen pen;
    private final boolean live;

    private HarnessSvg(Circuit circuit, Layout layout, Suspicion suspicion, boolean live) {
        this.live = live;
        this.circuit = circuit;
        this.suspicion = suspicion;
        this.sheet = new Sheet(circuit, LoomBuilder.build(circuit, layout, suspicion), suspicion);
        this.pen = new Pen(svg, suspicion, live);
    }

    /**
     * Draws.
     *
     * @param circuit the harness
     * @param layout its layout, made from the same circuit
     * @param suspicion what to lay over it
     * @return an SVG document
     * @throws IllegalArgumentException when the suspicion names a place or wire that the circuit does not have
     */
    public static String draw(Circuit circuit, Layout layout, Suspicion suspicion) {
        return new HarnessSvg(circuit, layout, suspicion, false).page(layout);
    }

    /**
     * Draws for a page that answers to touch and keys: without title, key and origin, which such a page shows itself; every
     * place and rub point is a button that takes the focus and has a name.
     *
     * @return an SVG element that scales to the room it is given
     * @throws IllegalArgumentException as {@link #draw} does
     */
    public static String live(Circuit circuit, Layout layout, Suspicion suspicion) {
        return new HarnessSvg(circuit, layout, suspicion, true).livePage(layout);
    }

    private String livePage(Layout layout) {
        Foot foot = new Foot(sheet.width - 2 * Sheet.EDGE, !suspicion.trace().isEmpty());
        double top = Sheet.headHeight(suspicion) - 10;
        double height = sheet.foot + foot.height() - top;
        svg.open(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "role",
                "group",
                "aria-label",
                Words.describe(circuit, suspicion),
                "viewBox",
                "0 " + Svg.number(top) + " " + Svg.number(sheet.width) + " " + Svg.number(height),
                "font-family",
                Ink.FACE,
                "font-size",
                Sketch.FONT);
        harness(layout);
        foot.draw(svg, pen, sheet.foot);
        return svg.close("svg").toString();
    }

    private String page(Layout layout) {
        List<String> origin = Lettering.wrap(circuit.origin(), sheet.width - 2 * Sheet.EDGE, Sketch.FONT, false, 4);
        Foot foot = new Foot(sheet.width - 2 * Sheet.EDGE, !suspicion.trace().isEmpty());
        double height = sheet.foot + foot.height() + origin.size() * Sketch.LINE + 16;
        String id = "loom-" + circuit.id().replaceAll("[^A-Za-z0-9_-]", "_");
        svg.open(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "role",
                "img",
                "aria-labelledby",
                id + "-title " + id + "-desc",
                "viewBox",
                "0 0 " + Svg.number(sheet.width) + " " + Svg.number(height),
                "width",
                sheet.width,
                "height",
                height,
                "font-family",
                Ink.FACE,
                "font-size",
                Sketch.FONT);
        svg.text("title", circuit.title(), "id", id + "-title");
        svg.text("desc", Words.describe(circuit, suspicion), "id", id + "-desc");
        svg.add("rect", "width", sheet.width, "height", height, "fill", Ink.PAPER);
        new Head(svg, pen, circuit, suspicion, sheet.width).draw();
        harness(layout);
        foot.draw(svg, pen, sheet.foot);
        double y = sheet.foot + foot.height() + Sketch.LINE;
        for (String line : origin) {
            svg.text("text", line, "x", Sheet.EDGE, "y", y, "fill", Ink.QUIET);
            y += Sketch.LINE;
        }
        return svg.close("svg").toString();
    }

    private void harness(Layout layout) {
        List<Run> runs = new ArrayList<>();
        List<Knot> knots = new ArrayList<>();
        sheet.roots.forEach(k -> collect(k, knots, runs));
        runs.sort(java.util.Comparator.comparingDouble(this::share));
        for (Knot k : knots) for (Row r : k.rows) pen.stub(k, r);
        for (Row r : sheet.unitRows) pen.unitStub(sheet.roots.get(0), r);
        runs.forEach(pen::run);
        Trace trace = new Trace(circuit, layout, sheet.roots, sheet.unitRows);
        if (!suspicion.trace().isEmpty()) pen.trace(trace.strokes(suspicion.trace()), suspicion.trace());
        knots.forEach(pen::knot);
        for (Run r : runs) r.marks.forEach(m -> pen.mark(r, m));
        for (Knot k : knots) for (Row r : k.rows) pen.row(r);
        new UnitBox(svg, pen, circuit, suspicion, sheet).draw();
        for (int i = 1; i < sheet.roots.size(); i++) {
            Knot k = sheet.roots.get(i);
            double top = top(k) - 24;
            String words = "Not joined to the control unit by a branch: junction " + k.junction.id();
            svg.text(
                    "text",
                    Lettering.fit(words, sheet.width - 2 * Sheet.EDGE, Sketch.FONT, true),
                    "x",
                    Sheet.EDGE,
                    "y",
                    top,
                    "font-weight",
                    "bold",
                    "fill",
                    Ink.TEXT);
        }
    }

    /** The highest point of a tree. */
    private static double top(Knot knot) {
        double y = knot.y - 10;
        for (Row r : knot.rows) y = Math.min(y, r.y - 10);
        for (Run r : knot.runs) y = Math.min(y, Math.min(r.y - r.above(), top(r.far)));
        return y;
    }

    private double share(Run r) {
        return suspicion.of(new PlaceId(PlaceId.Kind.BRANCH, r.limb.branch().id()));
    }

    private static void collect(Knot knot, List<Knot> knots, List<Run> runs) {
        knots.add(knot);
        for (Run r : knot.runs) {
            runs.add(r);
            collect(r.far, knots, runs);
        }
    }
}
