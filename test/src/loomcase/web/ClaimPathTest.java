package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import loomcase.casework.CaseCheck;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.claim.Packet;
import loomcase.claim.PacketMaker;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.policy.ClaimGap;
import org.junit.jupiter.api.Test;
import org.openqa.selenium.By;

/**
 * From typed codes to a claim that can be sent, by touch alone: an invented story of a coolant sensor's terminal that was pushed
 * out of its plug. What a complete claim holds is the claim rules' to say, with their sources.
 */
class ClaimPathTest extends PageTest {
    private static final String KEY_ON = "key on, engine stopped, cold";

    /** The button beside a thing that is missing. */
    private void close(String gap, String button) {
        browser.press(By.cssSelector("button[aria-label*='" + button + ": " + gap + "']"));
        browser.wait("form[aria-label=Record]");
    }

    private void recorded(String words) {
        browser.press(SUBMIT);
        browser.see("recorded: " + words);
    }

    private void access(String step) {
        browser.press("Record");
        browser.press("Access");
        browser.press(step);
        recorded("access opened");
    }

    private void findTheFault() {
        browser.go(served.origin() + "/#/new");
        browser.type("Complaint", "gauge jumps to cold (invented case)");
        browser.type("Case name", "paid");
        browser.type("Unit, if known", "invented-1");
        browser.type("Engine hours, if known", "5210.5");
        browser.type("Active codes", "110/3x4");
        browser.press(KEY_ON);
        browser.press("idling, warm");
        browser.type("Recorded by", "tech A");
        browser.press("Open case");
        browser.wait(".suspect");
        access("fan guard off, 12 minutes. Caution: fan can turn: key out, battery isolated");
        browser.press("Record");
        browser.press("Meter reading");
        browser.press("Volts");
        browser.type("Red lead at", "J1/6");
        browser.type("Black lead at", "chassis");
        browser.type("Meter shows", "4.99");
        browser.type("Meter", "hand meter 3");
        browser.press(KEY_ON);
        recorded("volts J1/6 to chassis: 4.99 V");
        browser.wait(".suspect");
        browser.press(By.cssSelector("g[data-place='connector C1']"));
        browser.press("Look");
        browser.press(By.cssSelector("select option[value='pushed-out-terminal']"));
        browser.type("More words, if any", "terminal 1 stands 3 mm back");
        recorded("seen at connector C1: pushed out terminal");
    }

    private void repairIt() {
        browser.press("Claim");
        browser.see("The claim cannot be sent yet.");
        close("What was chosen is not said.", "Way chosen");
        browser.press(By.cssSelector("select option[value='terminal']"));
        browser.type("Place that failed", "cavity:C1/1");
        browser.type("Why this and nothing smaller or larger", "lock finger broken, housing sound");
        browser.press("installation");
        recorded("chose terminal for cavity C1/1, failed by installation");
        close("The correction is missing.", "Work done");
        browser.press("Replaced");
        browser.type("Minutes it took", "22");
        browser.type("More words, if any", "new terminal crimped, pulled, seated");
        recorded("replaced");
        close("No part is named as the one that failed first.", "Part used");
        browser.type("Part", "terminal 1.5 tin");
        browser.type("Number", "TRM-15");
        recorded("part terminal 1.5 tin");
        close("terminal 1.5 tin is not kept and tagged", "Part kept");
        browser.type("Tag", "19");
        browser.type("Where it is kept", "claims shelf 3");
        recorded("kept terminal 1.5 tin, tag 19");
    }

    private void photo(Path picture, String gap, String words) {
        close(gap, "Photo");
        browser.keys(By.id("picture"), picture.toString());
        browser.type("In words", words);
        recorded("photo");
    }

    private void proveIt() {
        close("No reading from after the repair.", "Measure again");
        // A cold sensor: 5 V over the pull-up and the sensor's cold resistance, as the teaching circuit gives them.
        browser.type("Meter shows", "3.66");
        recorded("volts J1/6 to chassis: 3.66 V");
        browser.press("Record");
        browser.press("Work done");
        browser.press("Cleared codes");
        recorded("cleared codes");
        browser.press("Claim");
        close("\"fan guard off\" was opened and, by the journal, not closed.", "Access");
        recorded("access closed");
        close("No codes from after the repair.", "Codes");
        browser.type("Active codes", "none");
        browser.press(KEY_ON);
        browser.press("idling, warm");
        recorded("codes");
    }

    @Test
    void fromTypedCodesToAClaimThatCanBeSent() throws IOException {
        Path picture = Files.write(root.resolve("picture.png"), browser.picture());
        findTheFault();
        repairIt();
        photo(picture, "No close-up of the place that failed.", "terminal 1 from the mating face");
        photo(picture, "No photo of the repair.", "terminal seated, lock closed");
        photo(picture, "No overview photo.", "where on the engine");
        proveIt();
        browser.see("The claim cannot be sent yet.");
        close("Unit or serial number is missing", "Machine and complaint");
        browser.type("Serial number", "INVENTED-0001");
        browser.type("Distance", "107000 km");
        browser.type("Date of first use", "2022-01-15");
        recorded("correction of line 1");
        browser.see("The claim can be sent.");
        browser.see("Claim to send (PDF)");
        Packet packet = PacketMaker.of(new Casework(Shop.BUILT_IN).open(file("paid")), Locale.ENGLISH);
        assertTrue(packet.canBeSent());
        // A test does in seconds what a bill charges minutes for, and the way chosen is not the verdict's: the rules
        // notice.
        assertEquals(
                List.of("Labour is within the clock", "The reason beside the verdict can be seen"),
                packet.outcome().gaps().stream().map(ClaimGap::rule).toList());
        assertEquals(List.of(), CaseCheck.of(file("paid"), Optional.empty()).problems());
        Fact.Opened opened = JournalFile.read(file("paid")).opened();
        assertEquals(5210.5, opened.hours().orElseThrow());
        assertEquals("gauge jumps to cold (invented case)", opened.complaint());
    }
}
