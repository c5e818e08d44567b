package loomcase.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.web.Browser;
import loomcase.web.WebServer;
import org.openqa.selenium.By;

/**
 * Pictures of every screen at the sizes of a tablet, lying and standing, and of a laptop, to be looked at.
 *
 * <p>{@code java -cp ... loomcase.bench.Screens FOLDER-FOR-PICTURES [name part]}
 */
public final class Screens {
    private static final Map<String, int[]> SIZES = new TreeMap<>(Map.of(
            "tablet", new int[] {1024, 768},
            "standing", new int[] {768, 1024},
            "laptop", new int[] {1440, 900}));

    private Screens() {}

    public static void main(String[] arguments) throws IOException, InterruptedException {
        Path out = Files.createDirectories(Path.of(arguments[0]));
        String part = arguments.length > 1 ? arguments[1] : "";
        Path root = Files.createTempDirectory("screens");
        Files.createDirectories(root.resolve("circuits"));
        Files.createDirectories(root.resolve("cases"));
        for (String name : List.of("larch-13.json", "teaching.json"))
            Files.copy(Path.of("circuits", name), root.resolve("circuits").resolve(name));
        for (String name : List.of(
                "shared-splice.jsonl", "five-volt-repaired.jsonl", "chafed-branch.jsonl", "shop-floor.drill.json"))
            Files.copy(Path.of("demo-cases", name), root.resolve("cases").resolve(name));
        WebServer.Options options = new WebServer.Options(
                root.resolve("cases"),
                0,
                List.of(Path.of("circuits/teaching.json")),
                new Casework(Shop.BUILT_IN),
                "ada");
        Map<String, String> screens = screens();
        try (WebServer server = WebServer.start(options);
                Browser browser = new Browser()) {
            for (var size : SIZES.entrySet()) {
                browser.size(size.getValue()[0], size.getValue()[1]);
                if ("weighing".contains(part)) weighing(server, browser, out, size.getKey());
                if ("new-refused".contains(part)) refused(server, browser, out, size.getKey());
                if ("correction".contains(part)) correction(server, browser, out, size.getKey());
                if ("record-reading".contains(part)) reading(server, browser, out, size.getKey());
                if ("drill-run".contains(part)) drill(server, browser, out, size.getKey());
                for (var screen : screens.entrySet()) {
                    if (!screen.getKey().contains(part)) continue;
                    browser.go("about:blank");
                    browser.go(server.address() + screen.getValue());
                    browser.until(
                            "a screen", d -> !d.findElements(By.tagName("h1")).isEmpty());
                    if (screen.getKey().matches("harness|branch.*|place.*|circuit"))
                        browser.until(
                                "volts or suspects", d -> !d.findElements(By.cssSelector(".suspects, .face, .legs"))
                                        .isEmpty());
                    if (screen.getKey().matches("verdict|job|proof|claim"))
                        browser.until("an answer", d -> !d.findElements(By.cssSelector(".answer, .steps"))
                                .isEmpty());
                    picture(browser, out, screen.getKey() + "-" + size.getKey());
                }
            }
            browser.complaints().forEach(System.out::println);
        }
    }

    private static Map<String, String> screens() {
        Map<String, String> screens = new TreeMap<>(Map.of(
                "verdict", "#/case/shared-splice/verdict",
                "job", "#/case/shared-splice/job",
                "proof", "#/case/five-volt-repaired/proof",
                "fit", "#/case/shared-splice/fit",
                "drills", "#/drills",
                "claim", "#/case/five-volt-repaired/claim",
                "branch-suspected", "#/case/chafed-branch"));
        screens.putAll(Map.of(
                "cases", "#/",
                "new", "#/new",
                "harness", "#/case/shared-splice",
                "place-connector", "#/case/shared-splice/harness/connector%20C-ECT",
                "place-branch", "#/case/shared-splice/harness/branch%20BE1",
                "circuit", "#/case/shared-splice/circuit",
                "record", "#/case/shared-splice/record",
                "journal", "#/case/shared-splice/journal"));
        return screens;
    }

    private static void picture(Browser browser, Path out, String name) throws IOException, InterruptedException {
        Thread.sleep(700);
        Files.write(out.resolve(name + ".png"), browser.picture());
    }

    /** Only the first size meets a ranking that is not there yet. */
    private static void weighing(WebServer server, Browser browser, Path out, String size) throws IOException {
        browser.go("about:blank");
        browser.go(server.address() + "#/case/shared-splice/verdict");
        browser.until("a screen", d -> !d.findElements(By.tagName("h2")).isEmpty());
        if (browser.has("progress")) Files.write(out.resolve("weighing-" + size + ".png"), browser.picture());
    }

    private static void refused(WebServer server, Browser browser, Path out, String size)
            throws IOException, InterruptedException {
        browser.go("about:blank");
        browser.go(server.address() + "#/new");
        browser.type("Complaint", "lamp on");
        browser.type("Case name", "shared-splice");
        browser.type("Active codes", "110-3");
        browser.press("Open case");
        browser.wait(".problem");
        picture(browser, out, "new-refused-" + size);
    }

    private static void correction(WebServer server, Browser browser, Path out, String size)
            throws IOException, InterruptedException {
        browser.go("about:blank");
        browser.go(server.address() + "#/case/five-volt-repaired/journal");
        browser.press(By.cssSelector("button[aria-label='Correct line 12']"));
        browser.see("What stands in place of line 12");
        picture(browser, out, "correction-" + size);
        browser.press("Leave it as it is");
    }

    private static void reading(WebServer server, Browser browser, Path out, String size)
            throws IOException, InterruptedException {
        browser.go("about:blank");
        browser.go(server.address() + "#/case/chafed-branch/record");
        browser.press("Look");
        browser.wait("form .near");
        picture(browser, out, "record-look-" + size);
        browser.press("Another kind");
        browser.press("Meter reading");
        browser.press("Ohms");
        picture(browser, out, "record-reading-" + size);
        browser.script("sessionStorage.clear()");
    }

    private static void drill(WebServer server, Browser browser, Path out, String size)
            throws IOException, InterruptedException {
        browser.go("about:blank");
        browser.go(server.address() + "#/drills");
        browser.press("Start");
        browser.see("What do you do?");
        browser.press("Look");
        browser.type("Place", "connector:J1");
        browser.press("Do it");
        browser.see("open it first");
        picture(browser, out, "drill-run-" + size);
        browser.press("Give up");
        browser.press("Do it");
        browser.see("The planner's way");
        picture(browser, out, "drill-debrief-" + size);
    }
}
