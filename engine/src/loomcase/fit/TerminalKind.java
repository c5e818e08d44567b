package loomcase.fit;

import java.util.List;

/**
 * A terminal family written as series and plating, {@code blade 1.5 tin}.
 *
 * @param series what mates with what
 * @param plating the last word where it is one of {@link #PLATINGS}; empty where not stated
 */
record TerminalKind(String series, String plating) {
    /** Platings in use (common practice, no source). */
    static final List<String> PLATINGS = List.of("tin", "gold", "silver");

    static TerminalKind of(String text) {
        int cut = text.lastIndexOf(' ');
        String last = text.substring(cut + 1);
        return cut > 0 && PLATINGS.contains(last)
                ? new TerminalKind(text.substring(0, cut), last)
                : new TerminalKind(text, "");
    }
}
