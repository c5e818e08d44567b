package loomcase.j1939.log;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;

/** Counts warnings; text is made only for the first of each kind. */
final class Warnings {
    private static final int EXAMPLE_CHARS = 80;

    private final int kinds = Warning.Kind.values().length;
    private final long[] counts = new long[kinds];
    private final long[] firstLines = new long[kinds];
    private final String[] examples = new String[kinds];

    /** About the line that a frame was read from. */
    void note(Warning.Kind kind, Frame frame) {
        if (counts[kind.ordinal()] == 0) {
            keep(kind, frame.line, shorten(frame.text, frame.from, frame.to));
        }
        counts[kind.ordinal()]++;
    }

    /** About an earlier line, or with line 0 about the whole log. */
    void note(Warning.Kind kind, long line, String example) {
        if (counts[kind.ordinal()] == 0) {
            keep(kind, line, example);
        }
        counts[kind.ordinal()]++;
    }

    long count(Warning.Kind kind) {
        return counts[kind.ordinal()];
    }

    List<Warning> list() {
        List<Warning> list = new ArrayList<>();
        for (Warning.Kind kind : Warning.Kind.values()) {
            int at = kind.ordinal();
            if (counts[at] > 0) {
                OptionalLong line = firstLines[at] > 0 ? OptionalLong.of(firstLines[at]) : OptionalLong.empty();
                list.add(new Warning(kind, counts[at], line, examples[at]));
            }
        }
        return list;
    }

    private void keep(Warning.Kind kind, long line, String example) {
        firstLines[kind.ordinal()] = line;
        examples[kind.ordinal()] = example;
    }

    /** Printable ASCII of a piece of a line, a dot for everything else. */
    static String shorten(byte[] text, int from, int to) {
        int chars = Math.min(to - from, EXAMPLE_CHARS);
        StringBuilder shown = new StringBuilder(chars + 3);
        for (int i = 0; i < chars; i++) {
            byte b = text[from + i];
            shown.append(b >= 0x20 && b < 0x7F ? (char) b : '.');
        }
        return to - from > EXAMPLE_CHARS ? shown + "..." : shown.toString().strip();
    }
}
