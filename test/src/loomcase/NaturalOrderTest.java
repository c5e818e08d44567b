package loomcase;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Common practice, no source. */
class NaturalOrderTest {
    @Test
    void numbersInNamesCount() {
        List<String> right = List.of(
                "",
                "2",
                "02",
                "10",
                "100000000000000000000000",
                "ada",
                "run-1-10",
                "run-2-9",
                "student",
                "student-2",
                "student-2b",
                "student-10");
        List<String> mixed = new ArrayList<>(right);
        Collections.shuffle(mixed, new Random(7));
        mixed.sort(NaturalOrder.OF_NAMES);
        // Equal numbers are told apart by their digits: 02 stands before 2.
        List<String> expected = new ArrayList<>(right);
        Collections.swap(expected, 1, 2);
        assertEquals(expected, mixed);
    }
}
