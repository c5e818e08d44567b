package loomcase.print;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class TextTest {
    @Test
    void noLineIsLongerThanAskedForUnlessAWordIs() {
        for (int columns : List.of(40, 60, 90, 140))
            for (String line : Text.write(Sheets.full(), columns).split("\n"))
                assertTrue(
                        line.length() <= columns || !line.strip().contains(" ") || line.contains(Sheets.DIGEST),
                        columns + ": " + line);
    }

    @Test
    void aStepShowsItsCautionBeforeItsWork() {
        String text = Text.write(Sheets.full(), 90);
        assertTrue(
                text.contains("! Caution: The turbocharger stays hot for an hour: gloves.\n"
                        + "[ ] 1. Take off the heat shield over branch B4. (12 min)\n"
                        + "       Tools: 10 mm socket, torque wrench 0–25 N·m\n"),
                text);
    }

    @Test
    void numbersStandUnderEachOther() {
        assertEquals(
                List.of("Part      n", "------  ---", "long      1", "word", "b       200"),
                TextTable.lay(
                                List.of(List.of("Part", "n"), List.of("long word", "1"), List.of("b", "200")),
                                List.of(false, true),
                                9)
                        .stream()
                        .map(String::stripTrailing)
                        .toList());
    }

    @Test
    void noTextSteersTheTerminal() {
        String text = Text.write(Hostile.document(), 80);
        assertFalse(text.matches("(?s).*[\\x00-\\x09\\x0b-\\x1f\\x7f\\u202a-\\u202e].*"), text);
        assertTrue(text.contains("<script>alert('x')</script>"), "nothing is escaped that needs none");
        assertTrue(text.contains(Hostile.LONG));
    }

    @Test
    void tooNarrowIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> Text.write(Sheets.full(), 39));
    }
}
