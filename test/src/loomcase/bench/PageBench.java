package loomcase.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.j1939.Code;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.web.Browser;
import loomcase.web.WebServer;
import org.openqa.selenium.By;

/**
 * How long a person waits on the reference harness: from the address to a useful page, and from a recorded reading to the new
 * suspects, in headless Chromium.
 *
 * <p>First useful paint: from navigation to the painted frame that shows the suspects, server warm; beside it the time at which
 * the drawing with them is in the page. Ranking again:
 * from the request that records a reading to the painted frame with the new ranking; beside it the server's part alone, from
 * the moment the line is on the disk to the whole answer.
 *
 * <p>{@code java -cp ... loomcase.bench.PageBench [runs]}
 */
public final class PageBench {
    private static final Entry.Stamp ADA = Entry.Stamp.of(OffsetDateTime.parse("2024-05-01T10:20:30+02:00"), "ada");

    private PageBench() {}

    public static void main(String[] arguments) throws Exception {
        int runs = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 15;
        Path folder = Files.createTempDirectory("page-bench");
        Path circuit = Files.copy(Path.of("circuits/larch-13.json"), folder.resolve("larch-13.json"));
        Path file = folder.resolve("bench.jsonl");
        JournalFile.create(
                file,
                new Fact.Opened(CaseFile.name(file, circuit), "x", Optional.empty(), OptionalDouble.empty()),
                ADA);
        List<Fact.ReadCode> codes = new ArrayList<>();
        for (int spn : new int[] {94, 98, 100, 101, 157})
            codes.add(new Fact.ReadCode(new Code(spn, 4), OptionalInt.empty(), Fact.State.ACTIVE));
        JournalFile.append(
                file, new Fact.Codes(codes, List.of("key-on", "idle-warm"), Optional.empty(), Optional.empty()), ADA);
        long cold = System.nanoTime();
        try (WebServer server = WebServer.start(
                        new WebServer.Options(folder, 0, List.of(), new Casework(Shop.BUILT_IN), "ada"));
                Browser browser = new Browser()) {
            browser.size(1024, 768);
            String page = server.address() + "#/case/bench";
            browser.go(page);
            browser.until(
                    "suspects", d -> !d.findElements(By.cssSelector(".suspect")).isEmpty());
            System.out.printf(Locale.ROOT, "cold, browser start included: %.1f s%n", (System.nanoTime() - cold) / 1e9);
            paints(browser, page, runs);
            readings(browser, runs);
        }
    }

    private static void paints(Browser browser, String page, int runs) {
        List<Double> all = new ArrayList<>();
        List<Double> drawn = new ArrayList<>();
        for (int i = 0; i < runs; i++) {
            browser.go("about:blank");
            browser.go(page);
            browser.until(
                    "suspects", d -> !d.findElements(By.cssSelector(".suspect")).isEmpty());
            all.add(mark(browser, "suspects-painted"));
            drawn.add(mark(browser, "drawing-there"));
        }
        print("first useful paint, suspects", all);
        print("drawing in the page", drawn);
        System.out.println(
                "the last of them, milliseconds from the address: "
                        + browser.script(
                                "return [...performance.getEntriesByType('navigation'),"
                                        + " ...performance.getEntriesByType('resource')].map(e => new URL(e.name).pathname + ' '"
                                        + " + Math.round(e.startTime) + '-' + Math.round(e.responseEnd)).join(', ')"
                                        + " + '; drawing ' + performance.getEntriesByName('drawing-there').map(e => Math.round(e.startTime))"
                                        + " + '; suspects ' + performance.getEntriesByName('suspects-painted').map(e => Math.round(e.startTime))"));
    }

    /** Milliseconds from the address to the last mark of a name, waited for. */
    private static double mark(Browser browser, String name) {
        return ((Number) browser.driver()
                        .executeAsyncScript(
                                "const [name, done] = arguments;"
                                        + "const look = () => { const e = performance.getEntriesByName(name).pop();"
                                        + " if (e) done(e.startTime); else setTimeout(look, 5); }; look()",
                                name))
                .doubleValue();
    }

    /** Each run records one more reading of the 5 V supply, as the page does, and waits for the frame with the ranking. */
    private static void readings(Browser browser, int runs) {
        List<Double> whole = new ArrayList<>();
        List<Double> server = new ArrayList<>();
        com.sun.management.OperatingSystemMXBean system = (com.sun.management.OperatingSystemMXBean)
                java.lang.management.ManagementFactory.getOperatingSystemMXBean();
        long before = system.getProcessCpuTime();
        for (int i = 0; i < runs; i++) {
            @SuppressWarnings("unchecked")
            List<Number> ms = (List<Number>) browser.driver()
                    .executeAsyncScript(
                            "const [volts, done] = arguments; (async () => {"
                                    + "const api = await import('/api.js'); await api.start();"
                                    + "const last = (await api.get('/api/cases/bench/last')).body.last;"
                                    + "const fact = {kind: 'reading', test: 'volts', a: 'J2/2', b: 'chassis', value: volts, unit: 'V',"
                                    + " setup: {operatingPoint: 'key-on'}};"
                                    + "const t0 = performance.now();"
                                    + "await api.postJson('/api/cases/bench/lines', {last, by: 'ada', fact});"
                                    + "const t1 = performance.now(); let r = {status: 202};"
                                    + "while (r.status === 202) r = await api.get('/api/cases/bench/answer');"
                                    + "const t2 = performance.now();"
                                    + "await new Promise(f => requestAnimationFrame(() => setTimeout(f)));"
                                    + "done([performance.now() - t0, t2 - t1]); })().catch(e => done([-1, e.message]))",
                            (490 + i) / 100.0);
            whole.add(ms.get(0).doubleValue());
            server.add(ms.get(1).doubleValue());
        }
        print("reading recorded to new ranking in the page", whole);
        print("of that, ranking and plan with their way to the page", server);
        // On a busy machine the clock says little; processor time says what one who waits alone would wait at most.
        System.out.printf(
                Locale.ROOT,
                "processor time of server and driver: %.0f ms a run; load of the machine %.1f%n",
                (system.getProcessCpuTime() - before) / 1e6 / runs,
                system.getSystemLoadAverage());
    }

    private static void print(String what, List<Double> ms) {
        List<Double> sorted = ms.stream().sorted().toList();
        System.out.printf(
                Locale.ROOT,
                "%s: median %.0f ms, least %.0f, most %.0f, %d runs%n",
                what,
                sorted.get(sorted.size() / 2),
                sorted.get(0),
                sorted.get(sorted.size() - 1),
                sorted.size());
    }
}
