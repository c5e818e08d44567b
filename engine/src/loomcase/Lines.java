package loomcase;

import java.util.ArrayList;
import java.util.List;

/** Breaks text into lines of a terminal. */
public final class Lines {
    private Lines() {}

    /**
     * Cuts at blanks so that each part fits; a word longer than a line stays whole.
     *
     * @param text one line, with its indent
     * @param columns most characters of a part
     * @param hang indent of every part after the first
     * @return at least one part
     */
    public static List<String> wrap(String text, int columns, int hang) {
        List<String> parts = new ArrayList<>();
        String rest = text.stripTrailing();
        int start = indent(rest);
        while (rest.length() > columns) {
            int cut = rest.lastIndexOf(' ', columns);
            // A percent sign stays with its number.
            while (cut > start && rest.startsWith("%", cut + 1)) cut = rest.lastIndexOf(' ', cut - 1);
            if (cut <= start) cut = rest.indexOf(' ', columns);
            if (cut < 0) break;
            parts.add(rest.substring(0, cut).stripTrailing());
            rest = " ".repeat(hang) + rest.substring(cut).strip();
            start = hang;
        }
        parts.add(rest);
        return parts;
    }

    /** Number of blanks a line begins with. */
    public static int indent(String text) {
        return text.length() - text.stripLeading().length();
    }
}
