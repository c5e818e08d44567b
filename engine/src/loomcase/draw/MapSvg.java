package loomcase.draw;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A picture of which answer holds where, over two quantities: a raster of cells, each answer in its own grey and hatch with
 * its name written into its largest area, borders between answers drawn dark, and the case marked.
 *
 * <p>Answers darken from the first to the last, every second one is hatched, and each is named where it stands, so the
 * picture works without colour.
 */
public final class MapSvg {
    private static final double WIDTH = 880;
    private static final double LEFT = 118;
    private static final double TOP = 92;
    private static final double CELL_WIDTH = 46;
    private static final double CELL_HEIGHT = 34;
    private static final double FONT = 13;

    /** What is drawn. */
    private final Content c;

    private final Svg svg = new Svg();

    private MapSvg(Content content) {
        this.c = content;
    }

    /**
     * What is drawn.
     *
     * @param title heading
     * @param subtitle under it
     * @param across name of the quantity from left to right
     * @param up name of the quantity from below to above
     * @param columns labels of the columns
     * @param rows labels of the rows, from below
     * @param answers all answers there may be, from light to dark
     * @param cells answer by row from below, then column
     * @param dotted cells that get a dot, like {@code cells}
     * @param dotWords what a dot means
     * @param caseColumn column in which the case lies, from 0, may be a fraction
     * @param caseRow row in which it lies, from 0 below, may be a fraction
     * @param caseWords what to write at the mark
     */
    public record Content(
            String title,
            String subtitle,
            String across,
            String up,
            List<String> columns,
            List<String> rows,
            List<String> answers,
            List<List<String>> cells,
            List<List<Boolean>> dotted,
            String dotWords,
            double caseColumn,
            double caseRow,
            String caseWords) {
        public Content {
            columns = List.copyOf(columns);
            rows = List.copyOf(rows);
            answers = List.copyOf(answers);
            cells = cells.stream().map(List::copyOf).toList();
            dotted = dotted.stream().map(List::copyOf).toList();
            int width = columns.size();
            if (cells.size() != rows.size() || cells.stream().anyMatch(r -> r.size() != width))
                throw new IllegalArgumentException("cells do not fit " + rows.size() + " rows of " + columns.size());
        }
    }

    /** The picture as one SVG document. */
    public static String draw(Content content) {
        return new MapSvg(content).document();
    }

    private String document() {
        double height = TOP + c.rows().size() * CELL_HEIGHT + 88;
        svg.sheet(WIDTH, height, c.title());
        hatches();
        words(c.title(), 24, 34, 19, true, "start", Ink.TEXT);
        words(c.subtitle(), 24, 56, FONT, false, "start", Ink.QUIET);
        cells();
        dots();
        borders();
        axes();
        names();
        mark();
        svg.close("svg");
        return svg.toString();
    }

    private void hatches() {
        svg.open("defs");
        for (int i = 0; i < c.answers().size(); i++) {
            if (i % 2 == 0) continue;
            svg.open("pattern", "id", "h" + i, "width", 8, "height", 8, "patternUnits", "userSpaceOnUse");
            svg.add("rect", "width", 8, "height", 8, "fill", tone(i));
            svg.add("path", "d", "M-2 6 L2 10 M0 0 L8 8 M6 -2 L10 2", "stroke", Ink.PAPER, "stroke-width", 0.9);
            svg.close("pattern");
        }
        svg.close("defs");
    }

    /** Grey with a breath of the loom's brown, lighter for the smaller work. */
    private String tone(int answer) {
        double t = c.answers().size() < 2 ? 0 : (double) answer / (c.answers().size() - 1);
        int[] light = {0xf1, 0xee, 0xe8};
        int[] dark = {0xb0, 0x96, 0x88};
        StringBuilder out = new StringBuilder("#");
        for (int i = 0; i < 3; i++) out.append(String.format("%02x", Math.round(light[i] + (dark[i] - light[i]) * t)));
        return out.toString();
    }

    private double x(double column) {
        return LEFT + column * CELL_WIDTH;
    }

    private double y(double rowEdge) {
        return TOP + (c.rows().size() - rowEdge) * CELL_HEIGHT;
    }

    private String at(int row, int column) {
        return c.cells().get(row).get(column);
    }

    private void cells() {
        for (int r = 0; r < c.rows().size(); r++)
            for (int k = 0; k < c.columns().size(); k++) {
                int answer = c.answers().indexOf(at(r, k));
                svg.add(
                        "rect",
                        "x",
                        x(k),
                        "y",
                        y(r + 1),
                        "width",
                        CELL_WIDTH,
                        "height",
                        CELL_HEIGHT,
                        "fill",
                        answer % 2 == 0 ? tone(answer) : "url(#h" + answer + ")");
            }
    }

    private void dots() {
        boolean any = false;
        for (int r = 0; r < c.rows().size(); r++)
            for (int k = 0; k < c.columns().size(); k++) {
                if (!c.dotted().get(r).get(k)) continue;
                any = true;
                svg.add("circle", "cx", x(k + 0.5), "cy", y(r + 0.5), "r", 2.6, "fill", Ink.TEXT);
            }
        if (any) words("● " + c.dotWords(), 24, y(0) + 76, FONT, false, "start", Ink.QUIET);
    }

    private void borders() {
        for (int r = 0; r < c.rows().size(); r++)
            for (int k = 0; k < c.columns().size(); k++) {
                if (k + 1 < c.columns().size() && !at(r, k).equals(at(r, k + 1)))
                    line(x(k + 1), y(r), x(k + 1), y(r + 1), 2.2);
                if (r + 1 < c.rows().size() && !at(r, k).equals(at(r + 1, k)))
                    line(x(k), y(r + 1), x(k + 1), y(r + 1), 2.2);
            }
        svg.add(
                "rect",
                "x",
                x(0),
                "y",
                y(c.rows().size()),
                "width",
                c.columns().size() * CELL_WIDTH,
                "height",
                c.rows().size() * CELL_HEIGHT,
                "fill",
                "none",
                "stroke",
                Ink.TEXT,
                "stroke-width",
                1.4);
    }

    private void axes() {
        for (int k = 0; k < c.columns().size(); k++)
            words(c.columns().get(k), x(k + 0.5), y(0) + 20, FONT, false, "middle", Ink.TEXT);
        for (int r = 0; r < c.rows().size(); r++)
            words(c.rows().get(r), LEFT - 10, y(r + 0.5) + 5, FONT, false, "end", Ink.TEXT);
        words(c.across(), x(c.columns().size() / 2.0), y(0) + 46, FONT + 1, true, "middle", Ink.TEXT);
        svg.open("g", "transform", "translate(28 " + Svg.number(y(c.rows().size() / 2.0)) + ") rotate(-90)");
        words(c.up(), 0, 0, FONT + 1, true, "middle", Ink.TEXT);
        svg.close("g");
    }

    /** Each answer's name in the middle of its widest run of cells, on paper. */
    private void names() {
        Map<String, int[]> widest = new LinkedHashMap<>();
        for (int r = 0; r < c.rows().size(); r++)
            for (int k = 0; k < c.columns().size(); ) {
                int end = k;
                while (end + 1 < c.columns().size() && at(r, end + 1).equals(at(r, k))) end++;
                int[] known = widest.get(at(r, k));
                boolean nearer = known != null
                        && end - k == known[2] - known[1]
                        && offCentre(r, at(r, k)) < offCentre(known[0], at(r, k));
                if (known == null || end - k > known[2] - known[1] || nearer)
                    widest.put(at(r, k), new int[] {r, k, end});
                k = end + 1;
            }
        widest.forEach((answer, run) -> {
            double centre = x((run[1] + run[2] + 1) / 2.0);
            double half = Lettering.width(answer, FONT, true) / 2 + 7;
            centre = Math.min(Math.max(centre, x(0) + half + 3), x(c.columns().size()) - half - 3);
            double middle = y(run[0] + 0.5);
            svg.add(
                    "rect",
                    "x",
                    centre - half,
                    "y",
                    middle - 11,
                    "width",
                    2 * half,
                    "height",
                    22,
                    "rx",
                    3,
                    "fill",
                    Ink.PAPER,
                    "stroke",
                    Ink.TEXT,
                    "stroke-width",
                    0.8);
            words(answer, centre, middle + 4.7, FONT, true, "middle", Ink.TEXT);
        });
    }

    /** How far a row is from the middle of an answer's cells; rows at the case's mark and its leader come last. */
    private double offCentre(int row, String answer) {
        return Math.abs(row - middle(answer))
                + (row > c.caseRow() - 1 ? c.rows().size() : 0);
    }

    /** Mean row of an answer's cells. */
    private double middle(String answer) {
        List<Integer> rows = new ArrayList<>();
        for (int r = 0; r < c.rows().size(); r++)
            for (int k = 0; k < c.columns().size(); k++) if (at(r, k).equals(answer)) rows.add(r);
        return rows.stream().mapToInt(Integer::intValue).average().orElse(0);
    }

    private void mark() {
        double cx = x(c.caseColumn() + 0.5);
        double cy = y(c.caseRow() + 0.5);
        svg.add("circle", "cx", cx, "cy", cy, "r", 9, "fill", Ink.PAPER, "stroke", Ink.TRACE, "stroke-width", 3);
        svg.add("circle", "cx", cx, "cy", cy, "r", 3, "fill", Ink.TRACE);
        double end = TOP - 14;
        line(cx, cy - 11, cx, end + 6, 1.2);
        double half = Lettering.width(c.caseWords(), FONT, true) / 2;
        double at = Math.max(24 + half, Math.min(cx, WIDTH - 24 - half));
        words(c.caseWords(), at, end, FONT, true, "middle", Ink.TEXT);
    }

    private void line(double x1, double y1, double x2, double y2, double width) {
        svg.add("line", "x1", x1, "y1", y1, "x2", x2, "y2", y2, "stroke", Ink.TEXT, "stroke-width", width);
    }

    private void words(String text, double x, double y, double size, boolean bold, String anchor, String ink) {
        svg.text(
                "text",
                Lettering.fit(text, WIDTH - 48, size, bold),
                "x",
                x,
                "y",
                y,
                "font-size",
                size,
                "font-weight",
                bold ? "bold" : "normal",
                "text-anchor",
                anchor,
                "fill",
                ink);
    }
}
