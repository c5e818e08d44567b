package loomcase.draw;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A learning curve as SVG: minutes over the planner's, drill by drill, one line a student.
 *
 * <p>The scale is logarithmic, because ten times as long is as far from twice as long as twice from a fifth more. A filled
 * mark is a drill solved, a ring one that was not. Names stand at the line ends, so no colour is needed to tell lines apart.
 */
public final class LearningCurve {
    private static final String TITLE = "Minutes to the end of each drill, over the planner's";
    private static final double WIDTH = 900;
    private static final double HEIGHT = 520;
    private static final double LEFT = 84;
    private static final double RIGHT = 170;
    private static final double TOP = 76;
    private static final double BOTTOM = 62;
    private static final double FONT = 14;
    private static final double LABEL_GAP = 17;
    private static final double[] TICKS = {0.25, 0.5, 1, 2, 4, 8, 16, 32, 64};
    private static final String[] DASHES = {"", "7 4", "2 4", "10 4 2 4"};

    private LearningCurve() {}

    /**
     * One drill.
     *
     * @param nth how many drills the student had started, this one included; from 1
     * @param ratio student's minutes over the planner's, above 0
     * @param solved whether it was solved
     */
    public record Point(int nth, double ratio, boolean solved) {
        public Point {
            if (nth < 1 || !(ratio > 0))
                throw new IllegalArgumentException("drill " + nth + " at " + ratio + "; both must be above 0");
        }
    }

    /** One student. */
    public record Line(String name, List<Point> points) {
        public Line {
            points = List.copyOf(points);
        }
    }

    /** The picture; the same bytes on every machine. */
    public static String svg(List<Line> lines) {
        Svg svg = new Svg();
        int most = lines.stream()
                .flatMap(l -> l.points().stream())
                .mapToInt(Point::nth)
                .max()
                .orElse(1);
        double low = bound(lines, false);
        double high = bound(lines, true);
        Scale scale = new Scale(Math.max(2, most), low, high);
        svg.sheet(WIDTH, HEIGHT, TITLE);
        words(svg, TITLE, LEFT, 30, 18, Ink.TEXT);
        words(svg, "filled: solved; ring: not solved", LEFT, 52, FONT, Ink.QUIET);
        axes(svg, scale);
        curves(svg, scale, lines);
        svg.close("svg");
        return svg.toString();
    }

    private static double bound(List<Line> lines, boolean high) {
        double most = lines.stream()
                .flatMap(l -> l.points().stream())
                .mapToDouble(p -> high ? p.ratio() : 1 / p.ratio())
                .max()
                .orElse(1);
        double edge = 2;
        while (edge < most && edge < 1e6) edge *= 2;
        return high ? edge : 1 / edge;
    }

    private record Scale(int most, double low, double high) {
        double x(int nth) {
            return LEFT + 20 + (WIDTH - LEFT - RIGHT - 40) * (nth - 1) / (most - 1);
        }

        double y(double ratio) {
            double share = Math.log(ratio / low) / Math.log(high / low);
            return HEIGHT - BOTTOM - share * (HEIGHT - TOP - BOTTOM);
        }
    }

    private static void axes(Svg svg, Scale s) {
        for (double t : TICKS) {
            if (t < s.low * 0.999 || t > s.high * 1.001) continue;
            boolean one = t == 1;
            svg.add(
                    "line",
                    "x1",
                    LEFT,
                    "y1",
                    s.y(t),
                    "x2",
                    WIDTH - RIGHT,
                    "y2",
                    s.y(t),
                    "stroke",
                    Ink.LOOM,
                    "stroke-width",
                    one ? 2 : 0.5);
            String text = one ? "planner" : t < 1 ? "1/" + Math.round(1 / t) : Math.round(t) + " ×";
            words(svg, text, LEFT - 10 - Lettering.width(text, FONT, false), s.y(t) + 5, FONT, Ink.TEXT);
        }
        int step = Math.max(1, s.most / 12);
        for (int n = 1; n <= s.most; n += step) {
            String text = Integer.toString(n);
            words(svg, text, s.x(n) - Lettering.width(text, FONT, false) / 2, HEIGHT - BOTTOM + 22, FONT, Ink.TEXT);
        }
        words(svg, "drill, in the order started", LEFT + 20, HEIGHT - 16, FONT, Ink.QUIET);
    }

    private record Label(String name, double x, double y) {}

    private static void curves(Svg svg, Scale s, List<Line> lines) {
        List<Label> labels = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            List<Point> points = lines.get(i).points();
            if (points.isEmpty()) continue;
            StringBuilder path = new StringBuilder();
            for (Point p : points)
                path.append(path.isEmpty() ? "M" : "L")
                        .append(Svg.number(s.x(p.nth())))
                        .append(' ')
                        .append(Svg.number(s.y(p.ratio())));
            svg.add(
                    "path",
                    "d",
                    path,
                    "fill",
                    "none",
                    "stroke",
                    Ink.TEXT,
                    "stroke-width",
                    1.6,
                    "stroke-dasharray",
                    DASHES[i % DASHES.length]);
            for (Point p : points)
                svg.add(
                        "circle",
                        "cx",
                        s.x(p.nth()),
                        "cy",
                        s.y(p.ratio()),
                        "r",
                        5,
                        "fill",
                        p.solved() ? Ink.TEXT : Ink.PAPER,
                        "stroke",
                        Ink.TEXT,
                        "stroke-width",
                        1.6);
            Point last = points.get(points.size() - 1);
            labels.add(new Label(lines.get(i).name(), s.x(last.nth()), s.y(last.ratio())));
        }
        names(svg, labels);
    }

    /** Names at the right edge, pushed apart downwards where they would touch, with a thin line to their curve's end. */
    private static void names(Svg svg, List<Label> labels) {
        labels.sort(Comparator.comparingDouble(Label::y).thenComparing(Label::name));
        double least = TOP;
        double x = WIDTH - RIGHT + 24;
        for (Label l : labels) {
            double y = Math.max(least, l.y());
            svg.add(
                    "line",
                    "x1",
                    l.x() + 8,
                    "y1",
                    l.y(),
                    "x2",
                    x - 6,
                    "y2",
                    y,
                    "stroke",
                    Ink.LOOM,
                    "stroke-width",
                    0.7);
            words(svg, Lettering.fit(l.name(), RIGHT - 34, FONT, false), x, y + 5, FONT, Ink.TEXT);
            least = y + LABEL_GAP;
        }
    }

    private static void words(Svg svg, String text, double x, double y, double size, String ink) {
        svg.text("text", text, "x", x, "y", y, "font-size", size, "fill", ink);
    }
}
