package loomcase.draw;

import java.util.List;
import java.util.Locale;

/**
 * Stated probability against how often it was right, one panel for each kind of case: dots on the diagonal mean that the
 * statements can be believed. A dot's area is its share of the cases; its number of cases stands beside it. Same input,
 * same bytes.
 */
public final class ReliabilitySvg {
    private static final double SIDE = 220;
    private static final double LEFT = 60;
    private static final double TOP = 76;
    private static final double GAP_X = 70;
    private static final double GAP_Y = 98;
    private static final int COLUMNS = 3;

    private ReliabilitySvg() {}

    /**
     * One kind of case.
     *
     * @param title in words
     * @param dots classes of statements
     */
    public record Panel(String title, List<Dot> dots) {
        public Panel {
            dots = List.copyOf(dots);
        }
    }

    /**
     * One class of statements.
     *
     * @param stated mean stated probability, 0 to 1
     * @param right share that was right, 0 to 1
     * @param count how many
     */
    public record Dot(double stated, double right, int count) {}

    /** Draws panels three in a row. */
    public static String draw(String title, List<Panel> panels) {
        int rows = (panels.size() + COLUMNS - 1) / COLUMNS;
        double width = LEFT + COLUMNS * (SIDE + GAP_X);
        double height = TOP + rows * (SIDE + GAP_Y);
        Svg svg = new Svg();
        svg.sheet(width, height, title);
        svg.text("text", title, "x", 20, "y", 28, "font-size", 17, "font-weight", "bold", "fill", Ink.TEXT);
        for (int i = 0; i < panels.size(); i++)
            panel(svg, panels.get(i), LEFT + (i % COLUMNS) * (SIDE + GAP_X), TOP + (i / COLUMNS) * (SIDE + GAP_Y));
        return svg.close("svg").toString();
    }

    private static void panel(Svg svg, Panel panel, double x, double y) {
        svg.text("text", panel.title(), "x", x, "y", y - 20, "font-weight", "bold", "fill", Ink.TEXT);
        svg.add("rect", "x", x, "y", y, "width", SIDE, "height", SIDE, "fill", "none", "stroke", Ink.TEXT);
        line(svg, x, y + SIDE, x + SIDE, y, "5 4");
        for (int k = 0; k <= 4; k++) {
            String label = String.format(Locale.ROOT, "%d %%", 25 * k);
            double along = SIDE * k / 4;
            svg.text("text", label, "x", x - 6, "y", y + SIDE - along + 4, "text-anchor", "end", "fill", Ink.TEXT);
            svg.text("text", label, "x", x + along, "y", y + SIDE + 16, "text-anchor", "middle", "fill", Ink.TEXT);
        }
        svg.text(
                "text",
                "stated (across), right (up)",
                "x",
                x + SIDE / 2,
                "y",
                y + SIDE + 34,
                "text-anchor",
                "middle",
                "fill",
                Ink.TEXT);
        int all = panel.dots().stream().mapToInt(Dot::count).sum();
        for (Dot d : panel.dots()) if (d.count() > 0) dot(svg, d, all, x, y);
    }

    private static void dot(Svg svg, Dot d, int all, double x, double y) {
        double cx = x + SIDE * d.stated();
        double cy = y + SIDE * (1 - d.right());
        double radius = 3 + 11 * Math.sqrt(d.count() / (double) all);
        svg.add("circle", "cx", cx, "cy", cy, "r", radius, "fill", Ink.TEXT, "fill-opacity", 0.35, "stroke", Ink.TEXT);
        boolean below = d.right() > 0.5;
        svg.text(
                "text",
                Integer.toString(d.count()),
                "x",
                cx,
                "y",
                below ? cy + radius + Sketch.FONT : cy - radius - 3,
                "text-anchor",
                "middle",
                "fill",
                Ink.TEXT);
    }

    private static void line(Svg svg, double x1, double y1, double x2, double y2, String dashes) {
        svg.add("line", "x1", x1, "y1", y1, "x2", x2, "y2", y2, "stroke", Ink.TEXT, "stroke-dasharray", dashes);
    }
}
