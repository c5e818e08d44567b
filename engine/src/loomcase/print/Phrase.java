package loomcase.print;

import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;

/**
 * A piece of running text, and the lines of evidence it rests on.
 *
 * @param text plain text, no markup; blanks and line ends are joined to one blank when written
 * @param strong whether it is emphasised
 * @param lines numbers of the evidence lines it cites, in the order to name them; each links to its {@link
 *     Block.Evidence} line where the document has one
 */
public record Phrase(String text, boolean strong, List<Integer> lines) {
    public Phrase {
        Objects.requireNonNull(text, "text");
        lines = List.copyOf(lines);
        for (int line : lines)
            if (line < 1) throw new IllegalArgumentException("evidence line " + line + " in: " + text);
    }

    public static Phrase of(String text) {
        return new Phrase(text, false, List.of());
    }

    public static Phrase strong(String text) {
        return new Phrase(text, true, List.of());
    }

    /** The same text, citing evidence lines. */
    public Phrase from(int... evidenceLines) {
        return new Phrase(text, strong, IntStream.of(evidenceLines).boxed().toList());
    }

    /** The same text, citing evidence lines. */
    public Phrase from(List<Integer> evidenceLines) {
        return new Phrase(text, strong, evidenceLines);
    }
}
