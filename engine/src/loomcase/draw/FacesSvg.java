package loomcase.draw;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Two mating faces side by side (one below the other where they are wide), with what changed marked in each cavity.
 *
 * <p>A cavity that keeps its circuit is an outline; one whose terminal moves is filled and names the other cavity; one whose
 * circuit is on this side only is dashed with a sign; an empty one is a small ring. Hue carries nothing.
 */
public final class FacesSvg {
    private static final double CELL = 46;
    private static final double BODY = 16;
    private static final double EDGE = 24;
    private static final double GAP = 60;
    private static final double HEAD = 92;
    private static final double WIDE = 1000;
    private static final double KEY = 66;

    /** What a cavity shows. */
    public enum Mark {
        /** No wire. */
        EMPTY,
        /** Same circuit on both sides. */
        SAME,
        /** The terminal belongs in, or comes from, another cavity. */
        MOVED,
        /** Its circuit is on this side only. */
        ALONE,
        /** Nothing is known of it. */
        UNKNOWN
    }

    /**
     * One cavity.
     *
     * @param name as marked on the part
     * @param mark what it shows
     * @param sign a few letters below the name, such as the other cavity; may be empty
     * @param words full words for a pointer that rests on it
     */
    public record Cavity(String name, Mark mark, String sign, String words) {}

    /**
     * One face.
     *
     * @param title what it is
     * @param lines further words below the title, at most two
     * @param rows cavities as seen on the mating face
     */
    public record Face(String title, List<String> lines, List<List<Cavity>> rows) {
        public Face {
            lines = List.copyOf(lines);
            rows = rows.stream().map(List::copyOf).toList();
        }

        private double width() {
            int most = rows.stream().mapToInt(List::size).max().orElse(1);
            return Math.max(most * CELL + 2 * BODY, 260);
        }

        private double height() {
            return HEAD + rows.size() * CELL + 2 * BODY;
        }
    }

    private final Svg svg = new Svg();

    private FacesSvg() {}

    /** One self-contained document; the same faces give the same bytes. */
    public static String draw(Face left, Face right) {
        return new FacesSvg().document(left, right);
    }

    private String document(Face left, Face right) {
        boolean below = left.width() + GAP + right.width() > WIDE;
        double width = 2 * EDGE + (below ? Math.max(left.width(), right.width()) : left.width() + GAP + right.width());
        width = Math.max(width, 640);
        double second = below ? left.height() + 26 : 0;
        double height = (below ? second + right.height() : Math.max(left.height(), right.height())) + KEY + EDGE;
        svg.sheet(width, height, left.title() + "; " + right.title());
        svg.text("desc", describe(left) + " " + describe(right));
        face(left, EDGE, 0);
        face(right, below ? EDGE : EDGE + left.width() + GAP, second);
        key(EDGE, height - KEY, left, right);
        svg.close("svg");
        return svg.toString();
    }

    private void face(Face f, double x, double y) {
        text(Lettering.fit(f.title(), f.width(), 16, true), x, y + 32, 16, true, Ink.TEXT);
        double lineY = y + 52;
        for (String line : f.lines()) {
            text(Lettering.fit(line, f.width(), 13, false), x, lineY, 13, false, Ink.QUIET);
            lineY += 18;
        }
        double top = y + HEAD;
        double bodyWidth = f.rows().stream().mapToInt(List::size).max().orElse(1) * CELL + 2 * BODY;
        svg.add(
                "rect",
                "x",
                x,
                "y",
                top,
                "width",
                bodyWidth,
                "height",
                f.rows().size() * CELL + 2 * BODY,
                "rx",
                10,
                "fill",
                Ink.PAPER,
                "stroke",
                Ink.TEXT,
                "stroke-width",
                2.5);
        for (int r = 0; r < f.rows().size(); r++)
            for (int c = 0; c < f.rows().get(r).size(); c++)
                cavity(f.rows().get(r).get(c), x + BODY + c * CELL, top + BODY + r * CELL);
    }

    private void cavity(Cavity c, double x, double y) {
        svg.open("g", "data-cavity", c.name(), "data-mark", c.mark().name().toLowerCase(java.util.Locale.ROOT));
        svg.text("title", c.words());
        boolean dark = c.mark() == Mark.MOVED;
        if (c.mark() == Mark.EMPTY)
            svg.add(
                    "circle",
                    "cx",
                    x + CELL / 2,
                    "cy",
                    y + CELL / 2 + 9,
                    "r",
                    4,
                    "fill",
                    "none",
                    "stroke",
                    Ink.LOOM,
                    "stroke-width",
                    1.5);
        else box(c.mark(), x, y);
        String ink = dark ? Ink.PAPER : c.mark() == Mark.EMPTY ? Ink.QUIET : Ink.TEXT;
        double nameY = c.sign().isEmpty() && c.mark() != Mark.EMPTY ? y + CELL / 2 + 5 : y + 20;
        centred(c.name(), x + CELL / 2, nameY, 13, c.mark() != Mark.EMPTY, ink);
        centred(Lettering.fit(c.sign(), CELL - 8, 12, false), x + CELL / 2, y + 36, 12, false, ink);
        svg.close("g");
    }

    private void box(Mark mark, double x, double y) {
        List<Object> attributes = new ArrayList<>(List.of(
                "x",
                x + 3,
                "y",
                y + 3,
                "width",
                CELL - 6,
                "height",
                CELL - 6,
                "rx",
                5,
                "fill",
                mark == Mark.MOVED ? Ink.TEXT : Ink.PAPER,
                "stroke",
                Ink.TEXT,
                "stroke-width",
                mark == Mark.ALONE ? 2.5 : 1.3));
        if (mark == Mark.ALONE) attributes.addAll(List.of("stroke-dasharray", "6 4"));
        if (mark == Mark.UNKNOWN) attributes.addAll(List.of("stroke-dasharray", "2 3"));
        svg.add("rect", attributes.toArray());
    }

    /** Explains the marks that are there. */
    private void key(double x, double y, Face left, Face right) {
        double at = x;
        for (Mark mark : Mark.values()) {
            if (Stream.of(left, right)
                    .flatMap(f -> f.rows().stream().flatMap(List::stream))
                    .noneMatch(c -> c.mark() == mark)) continue;
            String words = words(mark);
            cavity(new Cavity("n", mark, sign(mark), words), at, y);
            text(words, at + CELL + 4, y + CELL / 2 + 4, 12, false, Ink.TEXT);
            at += CELL + 4 + Lettering.width(words, 12, false) + 16;
        }
    }

    private static String sign(Mark mark) {
        return switch (mark) {
            case MOVED -> "\u2192m";
            case ALONE -> "only";
            case UNKNOWN -> "?";
            default -> "";
        };
    }

    private static String words(Mark mark) {
        return switch (mark) {
            case EMPTY -> "empty";
            case SAME -> "same circuit";
            case MOVED -> "terminal moves from new n to old m";
            case ALONE -> "on this side only";
            case UNKNOWN -> "not known";
        };
    }

    private static String describe(Face f) {
        StringBuilder out = new StringBuilder(f.title()).append(':');
        for (List<Cavity> row : f.rows())
            for (Cavity c : row)
                if (c.mark() == Mark.MOVED || c.mark() == Mark.ALONE)
                    out.append(' ').append(c.words()).append(';');
        if (out.charAt(out.length() - 1) != ';')
            return out.append(" no cavity is marked.").toString();
        out.setCharAt(out.length() - 1, '.');
        return out.toString();
    }

    private void centred(String words, double x, double y, double size, boolean bold, String ink) {
        text(words, x - Lettering.width(words, size, bold) / 2, y, size, bold, ink);
    }

    private void text(String words, double x, double y, double size, boolean bold, String ink) {
        if (words.isEmpty()) return;
        if (bold) svg.text("text", words, "x", x, "y", y, "font-size", size, "font-weight", "bold", "fill", ink);
        else svg.text("text", words, "x", x, "y", y, "font-size", size, "fill", ink);
    }
}
