package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import loomcase.Lines;
import org.junit.jupiter.api.Test;

/** Wrapping keeps every word and its order, and no line is longer than asked but for a word that is. */
class PageTest {
    @Test
    void shortLineStaysAsItIs() {
        assertEquals(List.of("  a   b"), Lines.wrap("  a   b", 7, 4));
    }

    @Test
    void longLineGoesOnAtTheHang() {
        assertEquals(List.of("  one two", "    three", "    four"), Lines.wrap("  one two three four", 10, 4));
    }

    @Test
    void percentSignStaysWithItsNumber() {
        assertEquals(List.of("a bb", " 20 % c"), Lines.wrap("a bb 20 % c", 7, 1));
    }

    @Test
    void wordThatIsTooLongStaysWhole() {
        assertEquals(List.of("  a", "   bbbbbbbbbbbbbbb", "   c"), Lines.wrap("  a bbbbbbbbbbbbbbb c", 8, 3));
        assertEquals(List.of("bbbbbbbbbbbbbbb", "   c"), Lines.wrap("bbbbbbbbbbbbbbb c", 8, 3));
    }

    @Test
    void randomTextKeepsItsWords() {
        Random random = new Random(5);
        for (int i = 0; i < 2000; i++) {
            StringBuilder text = new StringBuilder(" ".repeat(random.nextInt(6)));
            int words = 1 + random.nextInt(20);
            for (int w = 0; w < words; w++)
                text.append("x".repeat(1 + random.nextInt(12))).append(w).append(" ".repeat(1 + random.nextInt(2)));
            int columns = 20 + random.nextInt(20);
            List<String> lines = Lines.wrap(text.toString(), columns, random.nextInt(6));
            assertEquals(
                    text.toString().strip().replaceAll(" +", " "),
                    String.join(" ", lines).strip().replaceAll(" +", " "));
            for (String line : lines) assertTrue(line.length() <= columns, line);
        }
    }

    @Test
    void columnsComeFromTheLauncherWithinReason() {
        String before = System.getProperty(Page.COLUMNS);
        try {
            for (int[] pair : new int[][] {{80, 80}, {20, 60}, {500, 140}, {0, 100}}) {
                System.setProperty(Page.COLUMNS, "" + pair[0]);
                assertEquals(pair[1], Page.columns());
            }
        } finally {
            if (before == null) System.clearProperty(Page.COLUMNS);
            else System.setProperty(Page.COLUMNS, before);
        }
    }
}
