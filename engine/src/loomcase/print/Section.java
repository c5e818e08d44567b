package loomcase.print;

import java.util.List;

/**
 * A part of a document under its own heading.
 *
 * @param heading the heading, never empty
 * @param blocks what stands below it, in order
 */
public record Section(String heading, List<Block> blocks) {
    public Section {
        if (heading.isBlank()) throw new IllegalArgumentException("a section without a heading");
        blocks = List.copyOf(blocks);
    }

    public static Section of(String heading, Block... blocks) {
        return new Section(heading, List.of(blocks));
    }
}
