package loomcase.model.read;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The shipped teaching circuit as text, with changes made to it; our own invented data. */
public final class Teaching {
    public static final Path FILE = Path.of("circuits", "teaching.json");

    private String text;
    private int changedAt;

    public Teaching() {
        try {
            text = Files.readString(FILE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Replaces a piece of text that must be there once, so that a test cannot silently change nothing. */
    public Teaching with(String before, String after) {
        assertEquals(
                2, text.split(java.util.regex.Pattern.quote(before), -1).length, "times of " + before + ", plus 1");
        changedAt = text.indexOf(before);
        text = text.replace(before, after);
        return this;
    }

    /** Leaves out the line that holds this piece of text. */
    public Teaching without(String piece) {
        int at = text.indexOf(piece);
        int start = text.lastIndexOf('\n', at) + 1;
        return with(text.substring(start, text.indexOf('\n', at) + 1), "");
    }

    /** The line, from 1, in which the last change begins. */
    public long line() {
        return text.substring(0, changedAt).chars().filter(c -> c == '\n').count() + 1;
    }

    /** Writes the changed circuit into a folder. */
    public Path in(Path folder) {
        try {
            return Files.writeString(folder.resolve("c.json"), text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
