package loomcase.print;

import java.util.ArrayList;
import java.util.List;
import loomcase.Lines;

/** Lays cells out in columns of a terminal; a cell that is too wide goes on below itself. */
final class TextTable {
    private static final String GAP = "  ";
    private static final int LEAST = 6;

    private TextTable() {}

    /**
     * Lines of a table.
     *
     * @param rows cells, the heads first, all rows of one length
     * @param right for each column, whether it is set to its right edge
     * @param columns most characters of a line; passed only when the columns at their least width do not fit
     */
    static List<String> lay(List<List<String>> rows, List<Boolean> right, int columns) {
        int[] widths = widths(rows, right.size(), columns);
        List<String> out = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            out.addAll(row(rows.get(i), widths, right));
            if (i == 0) out.add(rule(widths));
        }
        return out;
    }

    private static String rule(int[] widths) {
        List<String> parts = new ArrayList<>();
        for (int w : widths) parts.add("-".repeat(w));
        return String.join(GAP, parts);
    }

    /** Natural widths, then the widest gives way until the line fits. */
    private static int[] widths(List<List<String>> rows, int count, int columns) {
        int[] widths = new int[count];
        int total = GAP.length() * (count - 1);
        for (int c = 0; c < count; c++) {
            for (List<String> row : rows)
                widths[c] = Math.max(widths[c], row.get(c).length());
            widths[c] = Math.max(1, widths[c]);
            total += widths[c];
        }
        while (total > columns) {
            int widest = 0;
            for (int c = 1; c < count; c++) if (widths[c] > widths[widest]) widest = c;
            if (widths[widest] <= LEAST) break;
            widths[widest]--;
            total--;
        }
        return widths;
    }

    private static List<String> row(List<String> cells, int[] widths, List<Boolean> right) {
        List<List<String>> parts = new ArrayList<>();
        int height = 1;
        for (int c = 0; c < cells.size(); c++) {
            List<String> lines = broken(cells.get(c), widths[c]);
            parts.add(lines);
            height = Math.max(height, lines.size());
        }
        List<String> out = new ArrayList<>();
        for (int y = 0; y < height; y++) {
            StringBuilder line = new StringBuilder();
            for (int c = 0; c < cells.size(); c++) {
                String part = y < parts.get(c).size() ? parts.get(c).get(y) : "";
                String pad = " ".repeat(Math.max(0, widths[c] - part.length()));
                if (c > 0) line.append(GAP);
                line.append(right.get(c) ? pad + part : part + pad);
            }
            out.add(line.toString());
        }
        return out;
    }

    /** Wrapped between words; a word that is wider than the column is cut, or the columns beside it would shift. */
    private static List<String> broken(String cell, int width) {
        List<String> out = new ArrayList<>();
        for (String line : Lines.wrap(cell, width, 0))
            for (int from = 0; from == 0 || from < line.length(); from += width)
                out.add(line.substring(from, Math.min(line.length(), from + width)));
        return out;
    }
}
