package loomcase.draw;

/**
 * The look: paper white, loom grey, and suspicion as more and darker ink.
 *
 * <p>Hue only repeats what width, darkness, a filled shape and a number already say, so the picture works without colour.
 * Contrast with paper is at least 4.5 for text and 3 for lines (WCAG 2.1, success criteria 1.4.3 and 1.4.11).
 */
final class Ink {
    static final String PAPER = "#ffffff";
    static final String TEXT = "#161616";
    static final String QUIET = "#4a4a4a";
    static final String LOOM = "#858585";
    static final String TRACE = "#000000";
    static final String FACE = "DejaVu Sans, Verdana, Arial, Helvetica, sans-serif";

    private static final int[] LIGHT = {0x85, 0x85, 0x85};
    private static final int[] DARK = {0x78, 0x12, 0x00};

    /** From this share on a shape is filled with ink and its text is paper. */
    static final double FILLED = 0.25;

    private Ink() {}

    /** Ink for a share, loom grey at 0, darkest at 1; the square root makes small shares visible. */
    static String shade(double share) {
        double t = share <= 0 ? 0 : 0.35 + 0.65 * Math.sqrt(share);
        StringBuilder out = new StringBuilder("#");
        for (int i = 0; i < 3; i++) {
            int v = (int) Math.round(LIGHT[i] + (DARK[i] - LIGHT[i]) * t);
            out.append(Character.forDigit(v >> 4, 16)).append(Character.forDigit(v & 15, 16));
        }
        return out.toString();
    }

    /** Outline width in pixels for a share. */
    static double weight(double share) {
        return share <= 0 ? 1.2 : 1.6 + 2.9 * Math.sqrt(share);
    }
}
