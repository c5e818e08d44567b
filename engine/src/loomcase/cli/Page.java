package loomcase.cli;

import java.io.PrintWriter;
import loomcase.Lines;

/** Text output that wraps long lines between words; the words keep their order and none is cut. */
final class Page {
    /** System property with the columns of the terminal; the launcher sets it when the output is a terminal. */
    static final String COLUMNS = "loomcase.columns";

    /** Columns when nothing says otherwise, as for a pipe or a file. */
    static final int USUAL_COLUMNS = 100;

    private static final int LEAST = 60;
    private static final int MOST = 140;

    private final PrintWriter out;
    private final int columns;

    Page(PrintWriter out, int columns) {
        this.out = out;
        this.columns = columns;
    }

    static Page of(PrintWriter out) {
        return new Page(out, columns());
    }

    /** Columns to write for, {@value #LEAST} to {@value #MOST}: longer lines are hard to read, shorter ones unusable. */
    static int columns() {
        int known = Integer.getInteger(COLUMNS, USUAL_COLUMNS);
        return known <= 0 ? USUAL_COLUMNS : Math.max(LEAST, Math.min(MOST, known));
    }

    /** An empty line. */
    void line() {
        out.println();
    }

    /** One line, continued two columns further in than it starts. */
    void line(String text) {
        line(text, Lines.indent(text) + 2);
    }

    /** One line, continued at the given column. */
    void line(String text, int hang) {
        for (String part : Lines.wrap(text, columns, hang)) out.println(part);
    }

    /** Sends what was written so far to whoever reads. */
    void show() {
        out.flush();
    }

    /** Lines that are laid out already and must not wrap. */
    void block(String lines) {
        out.print(lines);
    }
}
