package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.drill.DrillFile;
import loomcase.drill.RunFile;
import loomcase.journal.JournalFile;
import org.junit.jupiter.api.Test;

/** A drill from planting to looking back, in a real browser. */
class DrillPathTest extends PageTest {
    @Test
    void aDrillIsPlantedPlayedAndLookedBackAt() {
        browser.press("Drills");
        browser.type("Student", "ada");
        browser.type("Drill name", "first-drill");
        browser.type("Seed", "1");
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
        // Suspects and tests are not there for nothing: who looks is named in the run.
        browser.press("Harness");
        browser.see("Yours to find");
        browser.wait("g[data-place='connector C1']");
        assertFalse(browser.has(".suspect"));
        browser.press("Circuit");
        browser.see("Volts against the chassis at");
        assertFalse(browser.has(".hot, .moved"));
        browser.press("Harness");
        browser.press("Show it all the same");
        browser.wait(".suspect");
        browser.press("Drill");
        browser.see("looked at what Loomcase suspects");
        browser.press("Give up");
        browser.press("Do it");
        browser.see("It was ");
        browser.see("The planner's way");
        browser.see("could tell");
        assertEquals(List.of(), JournalFile.chainProblems(run));
        // The instructor's overview says how it went, not where the fault was; a run that goes on is not in it.
        served.post("/api/drills/first-drill/start", "{\"run\": \"second\", \"by\": \"bea\"}");
        browser.go(served.origin() + "/#/drills");
        browser.press("Class overview");
        browser.see("Planner's minutes");
        browser.see("gave up");
        String table = browser.text("section[aria-label='Class overview']");
        assertFalse(table.contains("bea"), table);
        String truth = RunFile.open(new Casework(Shop.BUILT_IN), run)
                .drill()
                .truth()
                .faults()
                .get(0)
                .hypothesis();
        for (String word : truth.split("[ .]")) assertFalse(table.contains(word), truth + " is told in " + table);
    }

    /** A seed that stands in the form for everybody is a drill that everybody can draw and open for himself. */
    @Test
    void withoutASeedTheDrillIsOneThatNobodyCanDrawAgain() {
        for (String name : List.of("one", "two")) {
            browser.go(served.origin() + "/#/drills");
            browser.type("Drill name", name);
            browser.type("Time limit, minutes", "90");
            browser.type("Passphrase", "for the test");
            browser.press("Plant");
            browser.wait("button[aria-label='Start drill " + name + "']");
        }
        DrillFile one = drill("one");
        assertNotEquals(one.truth().seed(), drill("two").truth().seed());
        assertEquals(OptionalDouble.of(90), one.drill().limits().minutes());
    }

    private DrillFile drill(String name) {
        return DrillFile.read(served.folder.resolve(name + DrillFile.ENDING));
    }
}
