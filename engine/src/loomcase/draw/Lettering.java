package loomcase.draw;

import java.util.ArrayList;
import java.util.List;

/**
 * How wide text comes out, without asking a font: the picture must be the same bytes on every machine.
 *
 * <p>Advance widths are those of DejaVu Sans and DejaVu Sans Bold (free fonts, among the widest in use), measured in
 * hundredths of the font size, so text set in a narrower face still fits its box.
 */
final class Lettering {
    private static final int[] PLAIN = {
        32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34,
        84, 84, 84, 53, 100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79, 60, 79, 69, 63, 61, 73, 68, 99,
        69, 61, 69, 39, 34, 39, 84, 50, 50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61, 63, 63, 41, 52,
        39, 63, 59, 82, 59, 59, 52, 64, 34, 64, 84
    };
    private static final int[] BOLD = {
        35, 46, 52, 84, 70, 100, 87, 31, 46, 46, 52, 84, 38, 42, 38, 37, 70, 70, 70, 70, 70, 70, 70, 70, 70, 70, 40, 40,
        84, 84, 84, 58, 100, 77, 76, 73, 83, 68, 68, 82, 84, 37, 37, 77, 64, 100, 84, 85, 73, 85, 77, 72, 68, 81, 77,
        110, 77, 72, 73, 46, 37, 46, 84, 50, 50, 67, 72, 59, 72, 68, 44, 72, 71, 34, 34, 67, 34, 104, 71, 69, 72, 72,
        49, 60, 48, 71, 65, 92, 65, 65, 58, 71, 37, 71, 84
    };
    /** Anything else, ellipsis and wide scripts included. */
    private static final int OTHER = 100;

    private Lettering() {}

    /** Width in pixels of a text at a font size in pixels. */
    static double width(String text, double size, boolean bold) {
        int sum = 0;
        for (int i = 0; i < text.length(); i++) {
            int c = text.charAt(i) - ' ';
            sum += c >= 0 && c < PLAIN.length ? (bold ? BOLD : PLAIN)[c] : OTHER;
        }
        return sum * size / 100;
    }

    /** The text, or as much of its beginning as fits with an ellipsis; empty when not even that fits. */
    static String fit(String text, double pixels, double size, boolean bold) {
        if (width(text, size, bold) <= pixels) return text;
        for (int end = text.length() - 1; end > 0; end--) {
            if (Character.isHighSurrogate(text.charAt(end - 1))) continue;
            String cut = text.substring(0, end).stripTrailing() + "…";
            if (width(cut, size, bold) <= pixels) return cut;
        }
        return "";
    }

    /** The text broken at spaces into at most {@code lines} lines; what is left over is cut with an ellipsis. */
    static List<String> wrap(String text, double pixels, double size, boolean bold, int lines) {
        List<String> out = new ArrayList<>();
        String rest = text.strip();
        while (!rest.isEmpty() && out.size() < lines - 1 && width(rest, size, bold) > pixels) {
            int cut = -1;
            for (int i = rest.indexOf(' '); i > 0; i = rest.indexOf(' ', i + 1))
                if (width(rest.substring(0, i), size, bold) <= pixels) cut = i;
            if (cut < 0) break;
            out.add(rest.substring(0, cut));
            rest = rest.substring(cut).strip();
        }
        String last = fit(rest, pixels, size, bold);
        if (!last.isEmpty()) out.add(last);
        return out;
    }
}
