package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import loomcase.casework.CaseCheck;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;

/** The whole path of a case in a real browser. */
class PagePathTest extends PageTest {
    private static final String PLUG = "g[data-place='connector C1']";

    @Test
    void fromCodesToARecordedReadingAndANewRanking() {
        openCase("bay-1", "110/3");
        browser.see("Next test");
        String before = browser.text(".suspects");
        browser.press("Record this test");
        browser.press("Another kind");
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
        browser.press(By.cssSelector("button[aria-label='Correct line 2']"));
        browser.see("What stands in place of line 2");
        browser.press("Nothing holds of it");
        browser.type("Note", "codes were of another engine");
        browser.press("Record correction");
        browser.see("no longer holds: corrected by line 4");
    }

    /** A condition of the engine is checked by an instrument of its own before anything else, and what it shows weighs. */
    @Test
    void aConditionIsGaugedFromTheProposalToTheNewRanking() {
        openCase("bay-9", "100/1");
        browser.see("check by gauge, thermometer, dipstick or eye");
        browser.see("oil pressure truly too low");
        browser.press("Record this test");
        browser.see("Fit gauges and open caps only cold and relieved");
        browser.press("Record line");
        browser.see("say how the engine itself was");
        browser.press(By.cssSelector("select option[value='healthy']"));
        browser.press("Record line");
        browser.see("recorded: gauged what device OPS reports: healthy");
        Fact.Gauged gauged =
                (Fact.Gauged) JournalFile.read(file("bay-9")).standing().get(2).fact();
        assertEquals("device OPS", gauged.part().place().toString());
        browser.press("Journal");
        browser.press(By.cssSelector("button[aria-label='Correct line 3']"));
        browser.press(By.cssSelector("select option[value='low-oil']"));
        browser.press("Record correction");
        browser.see("gauged what device OPS reports: low oil");
    }

    /** Codes that cannot be are said before anything is written, so that all of the form can still be mended. */
    @Test
    void aCaseIsNotOpenedWithCodesThatCannotBe() {
        browser.go(served.origin() + "/#/new");
        browser.type("Complaint", "derates uphil");
        browser.type("Case name", "mended");
        browser.type("Active codes", "110");
        browser.type("Recorded by", "ada");
        browser.press("Open case");
        browser.see("has no '/' between SPN and FMI");
        assertFalse(Files.exists(file("mended")));
        browser.type("Complaint", "derates uphill");
        browser.type("Active codes", "110/3");
        browser.press("Open case");
        browser.wait(".suspect");
        assertEquals("derates uphill", JournalFile.read(file("mended")).opened().complaint());
        assertEquals(2, JournalFile.read(file("mended")).entries().size());
    }

    /** A log is read after the case is there; what was said of the engine is then not open to be changed in vain. */
    @Test
    void aCaseWhoseLogCannotBeReadSaysWhatStandsAndTakesAnother() throws IOException {
        Path bad = Files.writeString(root.resolve("bad.log"), "no frames here\n");
        Path good = Files.writeString(
                root.resolve("good.log"), "(1717200000.000000) can0 18FECA00#0400FFFF00000000\n".repeat(3));
        browser.go(served.origin() + "/#/new");
        browser.type("Complaint", "derates");
        browser.type("Case name", "logged");
        browser.type("Recorded by", "ada");
        browser.press("CAN log");
        browser.keys(By.id("log"), bad.toString());
        browser.press("Open case");
        browser.see("Case logged is open, but its codes are missing");
        assertTrue(browser.has("fieldset:disabled"));
        browser.on("input[type=file]", "e.value = ''");
        browser.keys(By.id("log"), good.toString());
        browser.press("Add codes");
        browser.until("the case", d -> d.getCurrentUrl().endsWith("#/case/logged"));
        assertEquals(2, JournalFile.read(file("logged")).entries().size());
    }

    @Test
    void anAddressThatIsNoTextAndAProofOfNothingAreSaidInWords() {
        openCase("words", "110/3");
        browser.go(served.origin() + "/#/case/%E0%A4");
        browser.see("is not here");
        browser.go(served.origin() + "/#/case/words/proof");
        browser.see("No work has been recorded yet");
        browser.press("Record work");
        browser.see("What was done");
    }

    @Test
    void theOpeningIsCorrectedAndItsCircuitStays() {
        openCase("opening", "110/3");
        browser.press("Journal");
        browser.press(By.cssSelector("button[aria-label='Correct line 1']"));
        browser.see("What stands in place of line 1");
        browser.type("Complaint", "derates uphill");
        browser.type("Engine hours, if known", "812,5");
        browser.press("Record correction");
        browser.see("corrected by line 3");
        browser.see("derates uphill");
        Fact.Opened opened = JournalFile.read(file("opening")).opened();
        assertEquals("derates uphill", opened.complaint());
        assertEquals(812.5, opened.hours().orElseThrow());
        assertEquals(List.of(), CaseCheck.of(file("opening"), Optional.empty()).problems());
    }

    @Test
    void aWrongReadingIsCorrectedWithAllThatWasSaidOfIt() {
        openCase("slip", "110/3");
        assertEquals(
                200,
                served.line(
                                "slip",
                                served.last("slip"),
                                "{\"kind\": \"reading\", \"test\": \"ohms\", \"a\": \"J1/6\", \"b\": \"C1/1\", \"value\": 0.10,"
                                        + " \"unit\": \"ohm\", \"setup\": {\"operatingPoint\": \"key-off\", \"unplugged\": [\"J1\", \"C1\"]},"
                                        + " \"meter\": {\"name\": \"hand meter 3\"}}")
                        .status());
        browser.go(served.origin() + "/#/case/slip/journal");
        browser.press(By.cssSelector("button[aria-label='Correct line 3']"));
        browser.see("What stands in place of line 3");
        browser.type("Leads held together, ohm", "0.2");
        browser.press("Record correction");
        browser.see("corrected by line 4");
        Fact.Reading reading =
                (Fact.Reading) JournalFile.read(file("slip")).standing().get(2).fact();
        assertEquals("0.10 ohm", reading.shown().toString());
        assertEquals(List.of("J1", "C1"), reading.setup().unplugged());
        assertEquals("hand meter 3", reading.meter().name());
        assertEquals(0.2, reading.meter().leadZeroOhms().orElseThrow());
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
    void aDrawingThatIsDrawnAnewKeepsTheFocusOnItsPlace() {
        openCase("focus", "110/3");
        browser.wait("g[data-trace]");
        browser.on("g[data-place='device ECT']", "e.focus(); e.ownerSVGElement.setAttribute('id', 'before')");
        assertEquals(
                200,
                served.line(
                                "focus",
                                served.last("focus"),
                                "{\"kind\": \"seen\", \"place\": {\"kind\": \"device\", \"id\": \"ECT\"}, \"finding\": \"clean\"}")
                        .status());
        browser.until("another drawing", d -> !browser.has("#before") && browser.has("g[data-place='device ECT']"));
        browser.until("the focus", d -> "device ECT"
                .equals(browser.script("return document.activeElement.getAttribute('data-place')")));
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
        // Another page records between this one's last look and its press: a page in the background does not look.
        browser.script("Object.defineProperty(document, 'hidden', {value: true, configurable: true})");
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
        openCase("money", "110/3, 100/4");
        browser.press("Verdict");
        browser.wait(".answer");
        browser.see("What each way is expected to cost");
        browser.see("more cure nothing here (below 0.5 %) and are left out.");
        browser.see("What would change the answer");
        String before = browser.text("main");
        browser.type("Labour, CU an hour", "10");
        browser.press("Weigh again");
        browser.until("another sum", d -> !browser.text("main").equals(before) && browser.has(".answer"));
    }

    /** Whoever is sent to the place, not to a test, is warned there too. */
    @Test
    void whereNoTestIsLeftTheCautionsOfTheFirstPlaceStand() throws IOException {
        openCase("left", "110/4");
        String line = "{\"kind\": \"seen\", \"place\": {\"kind\": \"branch\", \"id\": \"B1\", \"rubPoint\": \"R1\"},"
                + " \"finding\": \"chafe\"}";
        assertEquals(200, served.line("left", served.last("left"), line).status());
        browser.driver().navigate().refresh();
        browser.see("No test is worth its minutes any more");
        assertTrue(browser.text("section[aria-label='Next test'] .cautions").contains("Hot parts"));
    }

    /** The card says what is done, not only where. */
    @Test
    void theAnswerSaysWhatIsDone() throws IOException {
        openCase("answer", "110/3");
        assertEquals(
                200,
                served.line(
                                "answer",
                                served.last("answer"),
                                "{\"kind\": \"seen\", \"place\": {\"kind\": \"cavity\", \"id\": \"C1/1\"}, \"finding\":"
                                        + " \"pushed-out-terminal\"}")
                        .status());
        browser.press("Verdict");
        browser.wait(".answer");
        browser.until("what is done", d -> browser.text(".card.next").contains("unplug the "));
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
        browser.see("Needed before it can be sent");
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
}
