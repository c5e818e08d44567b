package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.casework.CaseCheck;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.Keys;

/**
 * The whole path of a case in a real browser, Debian's headless Chromium, and every screen put to axe-core 4.11 (Deque), an
 * accessibility checker that tests rules of WCAG 2.2 A and AA.
 */
class PagePathTest {
    private static final String PLUG = "g[data-place='connector C1']";
    private static final By SUBMIT = By.cssSelector("button[type=submit]");

    private static Browser browser;

    @TempDir
    private Path root;

    private Served served;

    @BeforeAll
    static void openBrowser() {
        browser = new Browser();
    }

    @AfterAll
    static void closeBrowser() {
        browser.close();
    }

    @BeforeEach
    void start() {
        served = new Served(root);
        browser.size(1024, 768);
        browser.go(served.origin() + "/");
        browser.see("Cases");
        browser.script("localStorage.clear(); sessionStorage.clear()");
    }

    /** The content policy lets no piece of the page through that is not the server's own, so nothing may be blocked. */
    @AfterEach
    void browserHasNothingToComplainOf() {
        served.close();
        List<String> complaints = browser.complaints().stream()
                .filter(c -> !c.contains("Failed to load resource") && !c.contains("ERR_CONNECTION"))
                .toList();
        assertEquals(List.of(), complaints);
    }

    private void openCase(String name, String codes) {
        browser.go(served.origin() + "/#/new");
        browser.type("Complaint", "engine derates");
        browser.type("Case name", name);
        browser.type("Active codes", codes);
        browser.type("Recorded by", "ada");
        browser.press("Open case");
        browser.wait(".suspect");
    }

    private Path file(String name) {
        return served.folder.resolve(name + ".jsonl");
    }

    @Test
    void fromCodesToARecordedReadingAndANewRanking() {
        openCase("bay-1", "110/3");
        browser.see("Next test");
        String before = browser.text(".suspects");
        browser.press("Record this test");
        browser.wait("form");
        // The test proposed for one open sensor circuit is done on the meter or by eye; a reading is recorded in any
        // case.
        browser.press("Meter reading");
        browser.press("Volts");
        browser.type("Red lead at", "C1/1");
        browser.type("Black lead at", "chassis");
        browser.type("Meter shows", "0.003");
        browser.press("key on, engine stopped, cold");
        browser.press("Record line");
        browser.see("Line 3 recorded: volts C1/1 to chassis: 0.003 V (key-on");
        browser.until("another ranking", d -> !browser.text(".suspects").equals(before));
        Fact.Reading reading =
                (Fact.Reading) JournalFile.read(file("bay-1")).standing().get(2).fact();
        assertEquals("0.003 V", reading.shown().toString());
        assertEquals(List.of(), CaseCheck.of(file("bay-1"), Optional.empty()).problems());
        browser.press("Journal");
        browser.see("volts C1/1 to chassis: 0.003 V");
        browser.press("Correct");
        browser.type("What stands in place of line 2", "codes were of another engine");
        browser.press("Record correction");
        browser.see("no longer holds: corrected by line 4");
    }

    @Test
    void aDroppedLogGivesTheCodes() throws IOException {
        browser.go(served.origin() + "/#/new");
        browser.type("Complaint", "lamp on");
        browser.type("Case name", "log-case");
        browser.press("CAN log");
        Path log = Path.of("demo-cases/coolant-signal-open.log").toAbsolutePath();
        browser.keys(By.id("log"), log.toString());
        browser.press("Open case");
        browser.wait(".suspect");
        assertEquals(-1, Files.mismatch(log, served.folder.resolve("log-case-1.log")));
    }

    @Test
    void theDrawingAnswersToTapsAndKeys() {
        openCase("taps", "110/3");
        assertEquals("button", browser.on(PLUG, "return e.getAttribute('role')"));
        assertTrue(browser.on(PLUG, "return e.getAttribute('aria-label')")
                .toString()
                .startsWith("connector C1: coolant temperature sensor plug"));
        // A tap as a browser makes it, at the place where the plug is drawn.
        browser.press(By.cssSelector(PLUG));
        browser.see("coolant temperature sensor plug");
        browser.see("W11");
        browser.see("Suspected here");
        browser.until("the plug's face", d -> d.getCurrentUrl().endsWith("/harness/connector%20C1"));
        browser.press("Back to suspects");
        browser.on("g[data-place='device ECT']", "e.focus()");
        browser.keys(By.cssSelector("g[data-place='device ECT']"), Keys.ENTER);
        browser.see("coolant temperature sensor");
        browser.until("the device's face", d -> d.getCurrentUrl().endsWith("/harness/device%20ECT"));
    }

    @Test
    void aFingerBetweenTwoPlacesIsAskedWhichOne() {
        openCase("finger", "110/3");
        // At the border of plug and sensor both lie under a fingertip. One script, for the page may draw itself anew.
        browser.on(
                PLUG,
                "e.scrollIntoView({block: 'center', inline: 'center'}); const r = e.getBoundingClientRect();"
                        + "const tap = new PointerEvent('click', {bubbles: true, clientX: r.right - 1, clientY: r.top + r.height / 2,"
                        + " pointerType: 'touch'}); document.elementFromPoint(r.right - 3, r.top + r.height / 2).dispatchEvent(tap)");
        browser.see("Which one?");
        browser.until(
                "both places",
                d -> d.findElements(By.cssSelector(".side .wide")).size() >= 2);
    }

    @Test
    void aSuspectThatIsTappedLightsItsPath() {
        openCase("paths", "110/3");
        browser.wait("g[data-trace]");
        String first = browser.on("g[data-trace]", "return e.getAttribute('data-trace')")
                .toString();
        int count = browser.driver().findElements(By.cssSelector(".suspect")).size();
        assertTrue(count > 1);
        for (int i = 1; i <= count; i++) {
            browser.press(By.cssSelector(".suspects > li:nth-child(" + i + ") > .suspect"));
            browser.until(
                    "exactly one suspect pressed",
                    d -> d.findElements(By.cssSelector(".suspect[aria-pressed=true]"))
                                    .size()
                            == 1);
        }
        browser.see("Explains");
        assertFalse(first.isBlank());
    }

    @Test
    void anotherPageWasFasterTheNewsIsShownAndWhatWasTypedIsKept() {
        openCase("two-tabs", "110/3");
        browser.press("Record");
        browser.press("Note");
        browser.type("Note", "typed in the first tab");
        // Another page records between this one's last look and its press.
        String last = served.last("two-tabs");
        assertEquals(
                200,
                served.line("two-tabs", last, "{\"kind\": \"note\", \"text\": \"from elsewhere\"}")
                        .status());
        browser.press(SUBMIT);
        browser.see("Not recorded: the case has new lines, from another page or person.");
        assertEquals("typed in the first tab", browser.until("the note", d -> d.findElement(
                        By.cssSelector("form input[type=text]"))
                .getDomProperty("value")));
        browser.press(SUBMIT);
        browser.see("recorded: note: typed in the first tab");
        assertEquals(4, JournalFile.read(file("two-tabs")).entries().size());
    }

    @Test
    void aKilledServerLosesNothingThatWasTypedOrRecorded() {
        openCase("killed", "110/3");
        browser.press("Record");
        browser.press("Note");
        browser.type("Note", "before the power cut");
        int port = served.server.address().getPort();
        served.server.close();
        browser.press(SUBMIT);
        browser.see("The server does not answer. Nothing is lost");
        served.server = WebServer.start(new WebServer.Options(
                served.folder,
                port,
                List.of(),
                new loomcase.casework.Casework(loomcase.casework.Shop.BUILT_IN),
                "ada"));
        browser.press(SUBMIT);
        browser.see("recorded: note: before the power cut");
        browser.go(served.origin() + "/#/case/killed");
        browser.driver().navigate().refresh();
        browser.wait(".suspect");
    }

    @Test
    void theVerdictSaysWhatToDoWhatItCostsAndWhatWouldChangeIt() {
        openCase("money", "110/3");
        browser.press("Verdict");
        browser.wait(".answer");
        browser.see("What each way is expected to cost");
        browser.see("What would change the answer");
        String before = browser.text("main");
        browser.type("Labour, CU an hour", "10");
        browser.press("Weigh again");
        browser.until("another sum", d -> !browser.text("main").equals(before) && browser.has(".answer"));
    }

    @Test
    void fromAJobToItsProofItsClaimAndItsParts() throws IOException {
        Path picture = Files.write(root.resolve("picture.png"), browser.picture());
        openCase("job", "110/3");
        browser.press("Job");
        browser.see("Close up");
        browser.see("Key off, wait until the control unit has powered down");
        assertEquals(
                "%PDF-", served.get("/api/cases/job/job?harness=1&pdf=1").body().substring(0, 5));
        assertEquals(
                200,
                served.line(
                                "job",
                                served.last("job"),
                                "{\"kind\": \"work\", \"what\": \"reseated\", \"place\": {\"kind\": \"connector\", \"id\":"
                                        + " \"C1\"}}")
                        .status());
        browser.see("The case has new lines, from another page or person");
        browser.press("Proof");
        browser.wait(".answer");
        browser.see("plug C1");
        browser.press("Claim");
        browser.see("The claim cannot be sent yet.");
        browser.see("Missing");
        browser.press("Record");
        browser.press("Part used");
        browser.type("Part", "seal kit");
        browser.type("Price of one", "9.00");
        browser.press("Record line");
        browser.see("recorded: ");
        browser.press("Record");
        browser.press("Photo");
        browser.keys(By.id("picture"), picture.toString());
        browser.type("In words", "plug C1 home and latched");
        browser.press("Record line");
        browser.see("job-1.png");
        assertEquals(-1, Files.mismatch(picture, served.folder.resolve("job-1.png")));
        assertEquals("%PDF-", served.get("/api/cases/job/claim?pdf=1").body().substring(0, 5));
        browser.press("Fit");
        browser.press(By.cssSelector("select option[value='teaching.json']"));
        browser.wait(".answer");
    }

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

    @Test
    void everyControlIsLargeEnoughForAGlove() {
        openCase("gloves", "110/3, 100/4");
        for (String screen : List.of(
                "/#/",
                "/#/new",
                "/#/case/gloves",
                "/#/case/gloves/record",
                "/#/case/gloves/journal",
                "/#/case/gloves/circuit",
                "/#/case/gloves/job",
                "/#/drills")) {
            browser.go(served.origin() + screen);
            browser.until("a heading", d -> !d.findElements(By.tagName("h1")).isEmpty());
            // Measured in the page in one go, for the page may draw itself anew between two questions.
            Object small = ((JavascriptExecutor) browser.driver())
                    .executeScript("return [...document.querySelectorAll('button, a.button, a.tab, summary,"
                            + " input[type=text], select, .choice label')].map(e => [e.textContent,"
                            + " e.getBoundingClientRect()]).filter(([t, r]) => r.width > 0 && (r.width < 43.5 || r.height"
                            + " < 43.5)).map(([t, r]) => t + ' ' + r.width + 'x' + r.height)");
            assertEquals(List.of(), small, screen);
        }
    }

    @Test
    void everyScreenPassesTheAccessibilityChecker() throws IOException {
        openCase("access", "110/3, 100/4");
        served.line(
                "access",
                served.last("access"),
                "{\"kind\": \"work\", \"what\": \"reseated\", \"place\": {\"kind\": \"connector\", \"id\": \"C1\"}}");
        String axe;
        try (InputStream in = PagePathTest.class.getResourceAsStream("/axe.min.js")) {
            axe = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
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
