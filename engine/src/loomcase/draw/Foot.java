package loomcase.draw;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.draw.Loom.Part;
import loomcase.draw.Loom.Shape;

/** The legend: one sample of each shape, set in as many lines as the width needs. */
final class Foot {
    private static final double LINE = 24;
    private static final double SAMPLE = 34;

    private record Entry(Optional<Shape> shape, String words) {
        double width() {
            return SAMPLE + Lettering.width(words, Sketch.FONT, false) + 22;
        }
    }

    private final List<List<Entry>> lines = new ArrayList<>();

    Foot(double width, boolean traced) {
        List<Entry> all = new ArrayList<>(List.of(
                new Entry(Optional.of(Shape.BRANCH), "branch, thicker with more wires"),
                new Entry(Optional.of(Shape.PLUG), "plug"),
                new Entry(Optional.of(Shape.DEVICE), "device"),
                new Entry(Optional.of(Shape.SPLICE), "splice"),
                new Entry(Optional.of(Shape.RUB), "rub point"),
                new Entry(Optional.of(Shape.FUSE), "fuse"),
                new Entry(Optional.of(Shape.GROUND), "ground")));
        if (traced) all.add(new Entry(Optional.of(Shape.WIRE), "path of the first suspect's wires"));
        all.add(new Entry(Optional.empty(), "more and darker ink: more suspected"));
        double used = 0;
        for (Entry e : all) {
            if (lines.isEmpty() || used + e.width() > width) {
                lines.add(new ArrayList<>());
                used = 0;
            }
            lines.get(lines.size() - 1).add(e);
            used += e.width();
        }
    }

    double height() {
        return lines.size() * LINE + 8;
    }

    void draw(Svg svg, Pen pen, double top) {
        svg.open("g", "aria-hidden", "true");
        double y = top + LINE / 2;
        for (List<Entry> line : lines) {
            double x = Sheet.EDGE;
            for (Entry e : line) {
                sample(pen, e, x, y);
                pen.text(e.words(), x + SAMPLE, y + 4, Sketch.FONT, false, Ink.QUIET);
                x += e.width();
            }
            y += LINE;
        }
        svg.close("g");
    }

    private static void sample(Pen pen, Entry e, double x, double y) {
        if (e.shape().isEmpty()) {
            pen.scale(x, y);
            return;
        }
        pen.sample(new Part(Optional.empty(), e.shape().get(), "", ""), x, y);
    }
}
