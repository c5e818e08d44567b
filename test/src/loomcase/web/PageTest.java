package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;

/** A page of its own for each test, in a real browser, Debian's headless Chromium; what it must always hold. */
abstract class PageTest {
    static final By SUBMIT = By.cssSelector("button[type=submit]");

    static Browser browser;

    @TempDir
    Path root;

    Served served;

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

    void openCase(String name, String codes) {
        browser.go(served.origin() + "/#/new");
        browser.type("Complaint", "engine derates");
        browser.type("Case name", name);
        browser.type("Active codes", codes);
        browser.type("Recorded by", "ada");
        browser.press("Open case");
        browser.wait(".suspect");
    }

    Path file(String name) {
        return served.folder.resolve(name + ".jsonl");
    }
}
