package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.By;
import org.openqa.selenium.JavascriptExecutor;

/**
 * What holds of every screen: controls large enough for a glove, and nothing serious found by axe-core 4.11 (Deque), an
 * accessibility checker that tests rules of WCAG 2.2 A and AA.
 */
class PageChecksTest extends PageTest {
    @Test
    void everyControlIsLargeEnoughForAGlove() {
        openCase("gloves", "110/3, 100/4");
        for (int[] size : new int[][] {{1024, 768}, {390, 844}}) {
            browser.size(size[0], size[1]);
            controlsAreLarge();
        }
    }

    private void controlsAreLarge() {
        for (String screen : List.of(
                "/#/",
                "/#/new",
                "/#/case/gloves",
                "/#/case/gloves/record",
                "/#/case/gloves/journal",
                "/#/case/gloves/circuit",
                "/#/case/gloves/job",
                "/#/drills")) {
            browser.go("about:blank");
            browser.go(served.origin() + screen);
            browser.until("a heading", d -> !d.findElements(By.tagName("h1")).isEmpty());
            if (screen.endsWith("circuit")) browser.wait(".leg a");
            // Measured in the page in one go, for the page may draw itself anew between two questions.
            Object small = ((JavascriptExecutor) browser.driver())
                    .executeScript("return [...document.querySelectorAll('button, a.button, a.tab, summary,"
                            + " input[type=text], input[type=password], select, .leg a, .choice label')].map(e => [e.textContent,"
                            + " e.getBoundingClientRect()]).filter(([t, r]) => r.width > 0 && (r.width < 43.5 || r.height"
                            + " < 43.5)).map(([t, r]) => t + ' ' + r.width + 'x' + r.height)");
            assertEquals(List.of(), small, screen);
        }
    }

    /** A telephone, and words as long as they come: nothing lies outside the window, and no list scrolls within the page. */
    @Test
    void onATelephoneNothingLiesOutsideTheWindow() {
        String name = "phone-" + "a".repeat(54);
        openCase(name, "110/3, 100/4");
        served.line(
                name, served.last(name), "{\"kind\": \"note\", \"text\": \"" + "Donaudampfschiff".repeat(20) + "\"}");
        browser.size(390, 844);
        for (String tab :
                List.of("", "/record", "/verdict", "/job", "/proof", "/fit", "/claim", "/journal", "/circuit"))
            everythingIsInside("/#/case/" + name + tab, ".case h1");
        everythingIsInside("/#/", ".case-card");
        everythingIsInside("/#/drills", "form");
        browser.go(served.origin() + "/#/case/" + name);
        browser.wait(".suspect");
        assertEquals(
                true,
                browser.script(
                        "const s = document.querySelector('.side'); return s.scrollHeight <= s.clientHeight + 1"));
    }

    private void everythingIsInside(String screen, String shown) {
        browser.go("about:blank");
        browser.go(served.origin() + screen);
        browser.wait(shown);
        if (screen.endsWith("claim")) browser.wait(".gaps");
        if (screen.endsWith("verdict")) browser.wait(".costs");
        Object outside = browser.script("const w = document.documentElement.clientWidth; return [...document"
                + ".querySelectorAll('main *, header *')].filter(e => !e.closest('.scroll, .loom-room'))"
                + ".filter(e => e.getBoundingClientRect().right > w + 1).map(e => e.tagName + ' ' + e.textContent)");
        assertEquals(List.of(), outside, screen);
    }

    private static String axe() throws IOException {
        try (InputStream in = PageChecksTest.class.getResourceAsStream("/axe.min.js")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @Test
    void theRunOfADrillAndItsDebriefPassTheAccessibilityChecker() throws IOException {
        browser.press("Drills");
        browser.type("Student", "ada");
        browser.type("Drill name", "checked");
        browser.type("Seed", "1");
        browser.type("Passphrase", "for the test");
        browser.press("Plant");
        browser.press("Start");
        browser.see("What do you do?");
        String axe = axe();
        for (String kind : List.of("Meter", "Look", "Access", "It is fixed")) {
            browser.press(kind);
            browser.script(axe + "; return true");
            assertEquals(List.of(), serious(), kind);
        }
        browser.press("Give up");
        browser.press("Do it");
        browser.see("The planner's way");
        browser.script(axe + "; return true");
        assertEquals(List.of(), serious(), "debrief");
    }

    @Test
    void aRefusedFormAndACorrectionPassTheAccessibilityChecker() throws IOException {
        openCase("wrong", "110/3");
        browser.go(served.origin() + "/#/new");
        browser.type("Complaint", "engine derates");
        browser.type("Case name", "wrong");
        browser.type("Active codes", "110/3");
        browser.press("Open case");
        browser.wait(".problem");
        browser.script(axe() + "; return true");
        assertEquals(List.of(), serious(), "a case that is there already");
        browser.go(served.origin() + "/#/case/wrong/journal");
        browser.press(By.cssSelector("button[aria-label='Correct line 1']"));
        browser.see("What stands in place of line 1");
        browser.script(axe() + "; return true");
        assertEquals(List.of(), serious(), "correction");
        browser.press("Leave it as it is");
        for (String kind : List.of("Meter reading", "Way chosen", "Part used", "Photo")) {
            browser.press("Record");
            browser.press(kind);
            browser.see("Recorded by");
            browser.script(axe() + "; return true");
            assertEquals(List.of(), serious(), kind);
            browser.press("Another kind");
        }
    }

    @Test
    void everyScreenPassesTheAccessibilityChecker() throws IOException {
        openCase("access", "110/3, 100/4");
        served.line(
                "access",
                served.last("access"),
                "{\"kind\": \"work\", \"what\": \"reseated\", \"place\": {\"kind\": \"connector\", \"id\": \"C1\"}}");
        String axe = axe();
        for (int[] size : new int[][] {{1024, 768}, {768, 1024}})
            for (String screen : List.of(
                    "/#/",
                    "/#/new",
                    "/#/case/access",
                    "/#/case/access/harness/connector%20C1",
                    "/#/case/access/harness/branch%20B1",
                    "/#/case/access/circuit/110-3",
                    "/#/case/access/record",
                    "/#/case/access/verdict",
                    "/#/case/access/job",
                    "/#/case/access/proof",
                    "/#/case/access/fit",
                    "/#/case/access/claim",
                    "/#/drills",
                    "/#/case/access/journal")) {
                browser.size(size[0], size[1]);
                browser.go("about:blank");
                browser.go(served.origin() + screen);
                browser.until(
                        "a heading", d -> !d.findElements(By.tagName("h1")).isEmpty());
                if (screen.contains("/case/access") && !screen.endsWith("record") && !screen.endsWith("journal"))
                    browser.until("content of " + screen, d -> !d.findElements(
                                    By.cssSelector(".suspects, .face h3, .legs, .answer, .steps, main > .field"))
                            .isEmpty());
                browser.script(axe + "; return true");
                assertEquals(List.of(), serious(), screen + " at " + size[0] + " wide");
            }
    }

    /** Findings of the checker that are serious or critical, with what they are about. */
    @SuppressWarnings("unchecked")
    private static List<String> serious() {
        Map<String, Object> result = (Map<String, Object>)
                browser.driver()
                        .executeAsyncScript(
                                "const done = arguments[arguments.length - 1];"
                                        + "axe.run(document, {resultTypes: ['violations']}).then(r => done({passes: r.passes.length, found: r.violations"
                                        + ".map(v => v.impact + ' ' + v.id + ': ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 160)).join(' | '))}))");
        assertTrue(((Number) result.get("passes")).intValue() > 5, "the checker checked something");
        return ((List<String>) result.get("found"))
                .stream()
                        .filter(f -> f.startsWith("serious") || f.startsWith("critical"))
                        .toList();
    }
}
