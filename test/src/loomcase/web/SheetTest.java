package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import loomcase.web.Served.Answer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sheets that a browser's own tab asks for. */
class SheetTest {
    /** What a browser accepts in a tab, as the one of the tests sends it. */
    private static final String[] TAB = {"Accept", "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"};

    @TempDir
    private Path root;

    private Served served;

    @BeforeEach
    void start() {
        served = new Served(root);
    }

    @AfterEach
    void stop() {
        served.close();
    }

    @Test
    void whatFailsIsAPageForAPersonAndJsonForThePagesScripts() {
        String path = "/api/cases/first/claim?pdf=1&language=fi";
        Answer page = served.get(path, TAB);
        assertEquals(400, page.status());
        assertTrue(page.body().startsWith("<!doctype html>"), page.body());
        assertTrue(page.body().contains("<p role=\"status\">language: is not one of en, de</p>"), page.body());
        assertEquals("language: is not one of en, de", served.get(path).field("message"));
        Answer place = served.get("/api/cases/first/job?pdf=1&place=%3Cscript%3E", TAB);
        assertEquals(400, place.status());
        assertTrue(place.body().contains("&lt;script&gt;") && !place.body().contains("<script>"), place.body());
    }

    @Test
    void whileASheetIsMadeItsTabSaysSoAndAsksAgain() throws IOException, InterruptedException {
        Files.copy(Path.of("circuits/larch-13.json"), served.folder.resolve("larch-13.json"));
        Answer opened = served.post(
                "/api/cases",
                "{\"name\": \"bay\", \"circuit\": \"larch-13.json\", \"complaint\": \"lamp on\", \"by\": \"ada\"}");
        served.post(
                "/api/cases/bay/codes",
                "{\"last\": \"" + opened.field("last") + "\", \"by\": \"ada\", \"active\": \"94/4,98/4,100/4\"}");
        Answer sheet = served.get("/api/cases/bay/claim?pdf=1", TAB);
        assertEquals(202, sheet.status());
        for (int i = 0; sheet.status() == 202 && i < 300; i++) {
            assertTrue(sheet.body().contains("<meta http-equiv=\"refresh\" content=\"1\">"), sheet.body());
            assertTrue(sheet.body().contains("The sheet is being made"), sheet.body());
            Thread.sleep(50);
            sheet = served.get("/api/cases/bay/claim?pdf=1", TAB);
        }
        assertEquals(200, sheet.status());
        assertTrue(sheet.body().startsWith("%PDF-"));
        assertFalse(served.get("/api/cases/bay/job?harness=1&pdf=1").body().startsWith("<"));
    }
}
