package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** The demo case in {@code demo-cases/}: sound as a file, and its two tests lead to one place. */
class DemoCaseTest {
    private static final String CASE = "demo-cases/shared-splice.jsonl";

    @Test
    void theJournalIsAsItWasWritten() {
        Ran check = Ran.of("check", CASE);
        assertEquals(0, check.code(), check.out() + check.err());
    }

    @Test
    void twoTestsLeadToTheSharedSplice() {
        Ran rank = Ran.of("rank", CASE);
        assertEquals(0, rank.code(), rank.err());
        String text = rank.out().replaceAll("\\s+", " ");
        assertTrue(text.contains("1 >99 % splice S5A (5 V A, trunk)"), rank.out());
        assertTrue(text.contains("where: splice S5A"), rank.out());
        Ran next = Ran.of("next", CASE);
        assertEquals(0, next.code(), next.out());
        assertTrue(next.out().contains("no test is worth its minutes any more"), next.out());
    }

    @Test
    void theTimelineTellsBothTests() {
        Ran show = Ran.of("show", CASE);
        assertEquals(0, show.code(), show.err());
        assertTrue(show.out().contains("jumper and watch: active 94/4, 98/4, 100/4, 101/4, 157/4"), show.out());
        assertTrue(show.out().contains("volts J2/2 to chassis: 4.99 V"), show.out());
    }
}
