package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import loomcase.journal.JournalFile;
import org.junit.jupiter.api.Test;

/** A drill from planting to looking back, in a real browser. */
class DrillPathTest extends PageTest {
    @Test
    void aDrillIsPlantedPlayedAndLookedBackAt() {
        browser.press("Drills");
        browser.type("Student", "ada");
        browser.type("Drill name", "first-drill");
        browser.type("Passphrase", "for the test");
        browser.press("Plant");
        browser.press("Start");
        browser.see("What do you do?");
        browser.press("Look");
        browser.type("Place", "connector:J1");
        browser.press("Do it");
        browser.see("open it first");
        browser.press("Access");
        browser.press("engine top cover off, 8 minutes");
        browser.press("Do it");
        browser.see("access opened: cover");
        browser.press("Look");
        browser.press("Do it");
        browser.see("seen at connector J1");
        browser.press("Meter");
        browser.type("Red lead at", "J1/3");
        browser.type("Black lead at", "chassis");
        browser.press("key on, engine stopped, cold");
        browser.press("Do it");
        browser.see("volts J1/3 to chassis");
        Path run = file("first-drill-run-1");
        assertEquals(6, JournalFile.read(run).entries().size());
        // A line recorded by hand would be an outcome that no engine gave.
        assertEquals(
                400,
                served.line(
                                "first-drill-run-1",
                                served.last("first-drill-run-1"),
                                "{\"kind\": \"note\", \"text\": \"x\"}")
                        .status());
        browser.press("Give up");
        browser.press("Do it");
        browser.see("It was ");
        browser.see("The planner's way");
        assertEquals(List.of(), JournalFile.chainProblems(run));
    }
}
