package loomcase.draw;

import java.util.List;
import java.util.Locale;

/**
 * What several ways of working take, side by side: for each kind of case one line a way, from the value below which a tenth
 * of the cases lie to that below which nine tenths lie, a stroke at the middle one, a mark at the mean with its number.
 * The first way's mark is filled, the others' are rings. Same input, same bytes.
 */
public final class WaysSvg {
    private static final double LEFT = 312;
    private static final double PANEL = 400;
    private static final double GAP = 76;
    private static final double TOP = 112;
    private static final double ROW = 21;
    private static final double GROUP = 40;
    private static final double BOTTOM = 28;
    private static final double FONT = Sketch.FONT;
    private static final double STROKE = 5;
    private static final double MARK = 5;
    private static final int TICKS = 4;

    private WaysSvg() {}

    /**
     * One kind of case.
     *
     * @param title in words
     * @param ways in the order to be drawn; the first is the one the others are compared with
     */
    public record Group(String title, List<Way> ways) {
        public Group {
            ways = List.copyOf(ways);
        }
    }

    /**
     * One way of working.
     *
     * @param words the way
     * @param spans what it takes, one for each quantity
     */
    public record Way(String words, List<Span> spans) {
        public Way {
            spans = List.copyOf(spans);
        }
    }

    /** Where the cases lie: mean, and the values below which a tenth, half and nine tenths of them are. */
    public record Span(double mean, double low, double middle, double high) {}

    /**
     * Draws one panel for each quantity.
     *
     * @param quantities what is compared, with its unit
     */
    public static String draw(String title, List<String> quantities, List<Group> groups) {
        double width = LEFT + quantities.size() * (PANEL + GAP);
        double height = TOP + BOTTOM;
        for (Group g : groups) height += GROUP + ROW * g.ways.size();
        Svg svg = new Svg();
        svg.sheet(width, height, title);
        svg.text("text", title, "x", 20, "y", 28, "font-size", 17, "font-weight", "bold", "fill", Ink.TEXT);
        words(
                svg,
                "line: a tenth to nine tenths of the cases; stroke: the middle one; mark and number: the mean",
                20,
                50);
        for (int q = 0; q < quantities.size(); q++)
            panel(svg, quantities.get(q), q, groups, height - BOTTOM, LEFT + q * (PANEL + GAP));
        names(svg, groups);
        return svg.close("svg").toString();
    }

    private static void names(Svg svg, List<Group> groups) {
        double y = TOP;
        for (Group g : groups) {
            svg.text("text", g.title, "x", 20, "y", y + GROUP - 16, "font-weight", "bold", "fill", Ink.TEXT);
            y += GROUP;
            for (Way w : g.ways) {
                double x = LEFT - 14 - Lettering.width(w.words, FONT, false);
                svg.text("text", w.words, "x", x, "y", y + 5, "fill", Ink.TEXT);
                y += ROW;
            }
        }
    }

    private static void panel(Svg svg, String quantity, int q, List<Group> groups, double floor, double left) {
        double step = step(groups.stream()
                .flatMap(g -> g.ways.stream())
                .mapToDouble(w -> Math.max(w.spans.get(q).high, w.spans.get(q).mean))
                .max()
                .orElse(1));
        svg.text("text", quantity, "x", left, "y", TOP - 34, "font-weight", "bold", "fill", Ink.TEXT);
        for (int k = 0; k <= TICKS; k++) {
            double x = left + PANEL * k / TICKS;
            String label = String.format(Locale.ROOT, "%.0f", step * k);
            svg.add("line", "x1", x, "y1", TOP - 6, "x2", x, "y2", floor, "stroke", Ink.LOOM, "stroke-width", 0.5);
            words(svg, label, x - Lettering.width(label, FONT, false) / 2, TOP - 12);
        }
        double y = TOP;
        for (Group g : groups) {
            y += GROUP;
            for (int w = 0; w < g.ways.size(); w++) {
                span(svg, g.ways.get(w).spans.get(q), PANEL / (TICKS * step), left, y, w == 0);
                y += ROW;
            }
        }
    }

    /** A round number of which {@value #TICKS} reach beyond the largest value. */
    private static double step(double most) {
        double least = Math.max(most, 1e-9) / TICKS;
        double ten = Math.pow(10, Math.floor(Math.log10(least)));
        for (double m : new double[] {1, 1.5, 2, 2.5, 3, 4, 5, 7.5}) if (m * ten >= least) return m * ten;
        return 10 * ten;
    }

    private static void span(Svg svg, Span s, double scale, double left, double y, boolean first) {
        double width = first ? 2.4 : 1.2;
        line(svg, left + s.low * scale, y, left + s.high * scale, y, width);
        double middle = left + s.middle * scale;
        line(svg, middle, y - STROKE, middle, y + STROKE, width);
        double mean = left + s.mean * scale;
        svg.add(
                "circle",
                "cx",
                mean,
                "cy",
                y,
                "r",
                MARK,
                "fill",
                first ? Ink.TEXT : Ink.PAPER,
                "stroke",
                Ink.TEXT,
                "stroke-width",
                1.6);
        double end = Math.max(left + Math.max(s.high, s.mean) * scale, mean + MARK) + 7;
        words(svg, String.format(Locale.ROOT, "%.0f", s.mean), end, y + 5);
    }

    private static void line(Svg svg, double x1, double y1, double x2, double y2, double width) {
        svg.add("line", "x1", x1, "y1", y1, "x2", x2, "y2", y2, "stroke", Ink.TEXT, "stroke-width", width);
    }

    private static void words(Svg svg, String text, double x, double y) {
        svg.text("text", text, "x", x, "y", y, "fill", Ink.QUIET);
    }
}
