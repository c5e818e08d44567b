package loomcase.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.function.BiConsumer;
import java.util.function.Function;
import org.openqa.selenium.By;
import org.openqa.selenium.ElementNotInteractableException;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/** Headless Chromium, as Debian's packages chromium and chromium-driver install it; without them a test fails. */
public final class Browser implements AutoCloseable {
    private static final Duration PATIENCE = Duration.ofSeconds(Long.getLong("loomcase.patience", 120));

    private final Path profile;
    private final ChromeDriver driver;

    public Browser() {
        try {
            profile = Files.createTempDirectory("loomcase-browser");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        ChromeOptions options = new ChromeOptions();
        options.setBinary("/usr/bin/chromium");
        options.addArguments(
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--hide-scrollbars",
                "--user-data-dir=" + profile);
        options.setCapability("goog:loggingPrefs", Map.of("browser", "ALL"));
        ChromeDriverService service = new ChromeDriverService.Builder()
                .usingDriverExecutable(Path.of("/usr/bin/chromedriver").toFile())
                .build();
        driver = new ChromeDriver(service, options);
    }

    public ChromeDriver driver() {
        return driver;
    }

    /** Inner size of the window in CSS pixels. */
    public void size(int width, int height) {
        driver.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    }

    public void go(String address) {
        driver.get(address);
    }

    /** Waits until a function gives something other than null or false. */
    public <T> T until(String what, Function<ChromeDriver, T> wanted) {
        long end = System.nanoTime() + PATIENCE.toNanos();
        while (true) {
            try {
                T got = wanted.apply(driver);
                if (got != null && !Boolean.FALSE.equals(got)) return got;
            } catch (NoSuchElementException | StaleElementReferenceException | ElementNotInteractableException e) {
                // not there yet, covered, or drawn anew under our hands
            }
            if (System.nanoTime() > end)
                throw new AssertionError(what + " did not come; the page says: "
                        + driver.findElement(By.tagName("body")).getText());
            try {
                Thread.sleep(30);
            } catch (InterruptedException e) {
                throw new IllegalStateException(e);
            }
        }
    }

    /** The visible element that shows exactly these words, a button, link, summary or label. */
    private static WebElement control(ChromeDriver d, String words) {
        return d.findElements(By.cssSelector("button, a, summary, label, [role=button]")).stream()
                .filter(e -> e.isDisplayed()
                        && e.getText().strip().replaceAll("\\s+", " ").equals(words))
                .findFirst()
                .orElseThrow(() -> new NoSuchElementException(words));
    }

    public void press(String words) {
        act("'" + words + "'", d -> control(d, words), Browser::click);
    }

    public void press(By where) {
        act(where.toString(), d -> d.findElement(where), Browser::click);
    }

    private static void click(ChromeDriver driver, WebElement e) {
        driver.executeScript("arguments[0].scrollIntoView({block: 'center'})", e);
        e.click();
    }

    /** Types into the field with this label, in place of what is there. */
    public void type(String label, String text) {
        act("field '" + label + "'", d -> d.findElement(By.id(labelled(d, label))), (d, input) -> {
            input.clear();
            input.sendKeys(text);
        });
    }

    private static String labelled(ChromeDriver d, String label) {
        for (WebElement l : d.findElements(By.tagName("label")))
            if (l.getDomAttribute("for") != null && l.getText().strip().equals(label)) return l.getDomAttribute("for");
        throw new NoSuchElementException(label);
    }

    /** Sends keys, or the path of a file, to an element. */
    public void keys(By where, CharSequence keys) {
        act(where.toString(), d -> d.findElement(where), (d, e) -> e.sendKeys(keys));
    }

    /**
     * Finds an element and does something with it, again from the start when the page drew itself anew in between: two
     * questions to a browser are never one moment of the page.
     */
    private void act(
            String what, Function<ChromeDriver, WebElement> found, BiConsumer<ChromeDriver, WebElement> doing) {
        until(what, d -> {
            doing.accept(d, found.apply(d));
            return true;
        });
    }

    /** Text of an element, waited for. */
    public String text(String css) {
        return until(css, d -> d.findElement(By.cssSelector(css)).getText());
    }

    public boolean has(String css) {
        return !driver.findElements(By.cssSelector(css)).isEmpty();
    }

    /** Waits until there is an element. */
    public void wait(String css) {
        until(css, d -> has(css));
    }

    /** Runs a script on the element of a selector in one moment of the page, waiting for the element. */
    public Object on(String css, String script) {
        return until(
                css,
                d -> d.executeScript(
                        "const e = document.querySelector(arguments[0]); if (!e) return null; " + script
                                + "; return true",
                        css));
    }

    public void see(String text) {
        until("'" + text + "'", d -> d.findElement(By.tagName("body")).getText().contains(text));
    }

    public Object script(String script, Object... arguments) {
        return ((JavascriptExecutor) driver).executeScript(script, arguments);
    }

    /** What the browser complained about since the last time. */
    public List<String> complaints() {
        return driver.manage().logs().get("browser").getAll().stream()
                .map(Object::toString)
                .toList();
    }

    public byte[] picture() {
        return driver.getScreenshotAs(OutputType.BYTES);
    }

    @Override
    public void close() {
        driver.quit();
        try (var all = Files.walk(profile)) {
            all.sorted(java.util.Comparator.reverseOrder())
                    .forEach(p -> p.toFile().delete());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
