package loomcase.draw;

import loomcase.draw.Loom.Shape;

/** The outline of each kind of part; suspicion makes the outline thicker and darker, then fills it. */
final class Shapes {
    private Shapes() {}

    /** Whether a strongly suspected part of this shape is filled behind its text. */
    static boolean filled(Shape shape) {
        return shape == Shape.PLUG || shape == Shape.CELL || shape == Shape.DEVICE || shape == Shape.FUSE;
    }

    /** Draws a tag {@code width} wide around the height {@code y} and returns where its text begins. */
    static double tag(Svg svg, Shape shape, double x, double y, double width, double half, double share) {
        switch (shape) {
            case PLUG:
                plug(svg, x, y, width, half, share);
                return x + 7;
            case CELL:
                box(svg, x, y, width, half, 0, share);
                return x + 5;
            case DEVICE:
                box(svg, x, y, width, half, half, share);
                return x + 10;
            case FUSE:
                path(svg, "M" + n(x) + " " + n(y) + "H" + n(x + width), Ink.QUIET, 2);
                box(svg, x + 4, y, width - 8, half, 0, share);
                return x + 10;
            case GROUND:
                ground(svg, x, y, share);
                return x + 21;
            case SPLICE:
                stop(svg, Shape.SPLICE, x + 7, y, 0, share);
                return x + 17;
            case RUB:
                stop(svg, Shape.RUB, x + 7, y - 4, 0, share);
                return x + 17;
            case WIRE:
            case BRANCH:
                path(svg, "M" + n(x) + " " + n(y) + "H" + n(x + 18), ink(share), 1.5 + Ink.weight(share));
                return x + 22;
            default:
                throw new IllegalStateException("no tag for shape " + shape);
        }
    }

    /** A plug: square toward the loom, bevelled toward what it plugs into. */
    private static void plug(Svg svg, double x, double y, double width, double half, double share) {
        double r = x + width;
        String d = "M" + n(x) + " " + n(y - half) + "H" + n(r - 4) + "L" + n(r) + " " + n(y - half + 4) + "V"
                + n(y + half - 4) + "L" + n(r - 4) + " " + n(y + half) + "H" + n(x) + "Z";
        svg.add("path", "d", d, "fill", fill(share), "stroke", outline(share), "stroke-width", Ink.weight(share));
    }

    private static void box(Svg svg, double x, double y, double width, double half, double round, double share) {
        svg.add(
                "rect",
                "x",
                x,
                "y",
                y - half,
                "width",
                width,
                "height",
                2 * half,
                "rx",
                round,
                "fill",
                fill(share),
                "stroke",
                outline(share),
                "stroke-width",
                Ink.weight(share));
    }

    private static void ground(Svg svg, double x, double y, double share) {
        double w = 0.6 + Ink.weight(share);
        path(svg, "M" + n(x) + " " + n(y) + "H" + n(x + 5), Ink.LOOM, 2);
        for (int i = 0; i < 3; i++) {
            double h = 8 - 2.5 * i;
            path(svg, "M" + n(x + 6 + 5 * i) + " " + n(y - h) + "V" + n(y + h), outline(share), w);
        }
    }

    /** Draws a stop on a branch of this thickness. */
    static void stop(Svg svg, Shape shape, double x, double y, double thickness, double share) {
        if (shape == Shape.SPLICE) {
            double r = 6 + 4 * Math.sqrt(share);
            String d = "M" + n(x - r) + " " + n(y) + "L" + n(x) + " " + n(y - r) + "L" + n(x + r) + " " + n(y) + "L"
                    + n(x) + " " + n(y + r) + "Z";
            svg.add(
                    "path",
                    "d",
                    d,
                    "fill",
                    fill(share),
                    "stroke",
                    outline(share),
                    "stroke-width",
                    Math.max(1.6, Ink.weight(share)));
        } else if (shape == Shape.RUB) {
            double top = y + thickness / 2 - 1;
            String d = "M" + n(x) + " " + n(top) + "L" + n(x + 6) + " " + n(top + 9) + "H" + n(x - 6) + "Z";
            svg.add("path", "d", d, "fill", Ink.TEXT, "stroke", Ink.PAPER, "stroke-width", 1);
        } else {
            double w = 8 + 6 * Math.sqrt(share);
            path(svg, "M" + n(x - w) + " " + n(y) + "H" + n(x + w), Ink.PAPER, 6 + Ink.weight(share));
            path(svg, "M" + n(x - w) + " " + n(y) + "H" + n(x + w), ink(share), 1 + Ink.weight(share));
        }
    }

    /** A sample about 24 px wide for the legend. */
    static void sample(Svg svg, Shape shape, double x, double y) {
        switch (shape) {
            case BRANCH:
                path(svg, "M" + n(x) + " " + n(y) + "H" + n(x + 26), Ink.LOOM, 7);
                break;
            case SPLICE:
            case RUB:
                path(svg, "M" + n(x) + " " + n(y - (shape == Shape.RUB ? 4 : 0)) + "h26", Ink.LOOM, 4);
                stop(svg, shape, x + 13, y - (shape == Shape.RUB ? 4 : 0), 4, 0);
                break;
            case WIRE:
                path(svg, "M" + n(x) + " " + n(y) + "H" + n(x + 26), Ink.TRACE, 6);
                svg.add(
                        "path",
                        "d",
                        "M" + n(x) + " " + n(y) + "H" + n(x + 26),
                        "stroke",
                        Ink.PAPER,
                        "stroke-width",
                        2.6,
                        "stroke-dasharray",
                        "7 4");
                break;
            default:
                tag(svg, shape, x, y, 26, 7, 0);
        }
    }

    private static String fill(double share) {
        return share >= Ink.FILLED ? Ink.shade(share) : Ink.PAPER;
    }

    private static String outline(double share) {
        return share > 0 ? Ink.shade(share) : Ink.TEXT;
    }

    private static String ink(double share) {
        return Ink.shade(share);
    }

    private static void path(Svg svg, String d, String stroke, double width) {
        svg.add("path", "d", d, "fill", "none", "stroke", stroke, "stroke-width", width);
    }

    private static String n(double v) {
        return Svg.number(v);
    }
}
