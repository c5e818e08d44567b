package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.StreamSupport;
import loomcase.Schemas;
import loomcase.demo.Harness;
import loomcase.faults.TerminalSlips;
import loomcase.predict.Prediction;
import loomcase.predict.Predictor;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command {@code proof}: one case on the teaching harness from codes through repair to each of the three answers. */
class ProofCommandTest {
    private static final String DEMO = "demo-cases/five-volt-repaired.jsonl";

    @TempDir
    private Path folder;

    private Path file;
    private int minute;

    @BeforeEach
    void complaint() {
        file = folder.resolve("case.jsonl");
        ok("open", file.toString(), "--circuit", Ran.TEACHING, "--complaint", "lamp on (invented)", "--time", time());
        record("codes", "110/3", "--at", "key-on,idle-warm");
    }

    private String time() {
        minute += 10;
        return String.format("2026-11-03T%02d:%02d:00Z", 8 + minute / 60, minute % 60);
    }

    private static void ok(String... arguments) {
        Ran ran = Ran.of(arguments);
        assertEquals(0, ran.code(), Arrays.toString(arguments) + ran.err());
    }

    private void record(String... what) {
        List<String> all = new ArrayList<>(List.of("record", file.toString(), "--time", time()));
        all.addAll(List.of(what));
        ok(all.toArray(String[]::new));
    }

    private JsonNode proof(int code) throws IOException {
        Ran ran = Ran.of("proof", file.toString(), "--json");
        assertEquals("", ran.err());
        assertEquals(code, ran.code(), ran.out());
        assertEquals(List.of(), Schemas.errors(Schemas.of("proof.schema.json"), ran.out()));
        return new ObjectMapper().readTree(ran.out());
    }

    private static List<String> words(JsonNode proof, String state) {
        return StreamSupport.stream(proof.get("checks").spliterator(), false)
                .filter(c -> c.get("state").asText().equals(state))
                .map(c -> c.get("words").asText())
                .toList();
    }

    private void repair() {
        record("access", "open", "cover");
        record("work", "repaired", "J1/6", "--note", "new terminal");
        record("access", "open", "fan-guard");
        record("reading", "ohms", "J1/6", "C1/1", "0.15ohm", "--unplugged", "J1,C1");
        record("reading", "isolation", "J1/6", "chassis", "open", "--unplugged", "J1,C1");
        record("seen", "J1/6", "clean");
        record("seen", "J1", "clean");
        record("seen", "C1", "clean");
        record("moved", "wiggle", "J1", "no", "--at", "key-on");
        record("access", "close", "fan-guard");
        record("access", "close", "cover");
        record("work", "cleared-codes");
    }

    private void drive(String codes) {
        List<String> all = new ArrayList<>(List.of("codes"));
        if (codes.isEmpty()) all.add("none");
        else all.add(codes);
        all.addAll(List.of("--at", "key-on,idle-warm", "--lamps", codes.isEmpty() ? "none" : "amber-warning"));
        record(all.toArray(String[]::new));
    }

    @Test
    void fromCodesThroughRepairToProven() throws IOException {
        assertEquals(
                "loomcase: the case records no work yet, so there is nothing to prove; add it with: record CASE work"
                        + " repaired PLACE\n",
                Ran.of("proof", file.toString()).err());
        assertEquals(2, Ran.of("proof", file.toString()).code());
        repair();
        JsonNode open = proof(1);
        assertEquals("not-proven", open.get("status").asText());
        assertTrue(open.get("afterWork").isNull());
        drive("");
        assertTrue(words(proof(1), "missing").stream().anyMatch(w -> w.contains("key off, wait")));
        drive("");
        JsonNode proven = proof(0);
        assertEquals(
                "proven",
                proven.get("status").asText(),
                words(proven, "missing").toString());
    }

    @Test
    void theComplaintComesBack() throws IOException {
        repair();
        drive("");
        drive("110/3");
        JsonNode proof = proof(1);
        assertEquals("disproven", proof.get("status").asText());
        assertEquals(
                List.of(
                        "no code comes back and no new one appears",
                        "lamps out after start: the closing test, not the only one"),
                words(proof, "contradicted"));
        assertTrue(proof.get("afterWork").get("suspects").size() > 0);
    }

    /** Two terminals put back crosswise while one was renewed: the codes that this sets name the swap. */
    @Test
    void aRepairThatPutInASecondFaultIsFound() throws IOException {
        repair();
        drive(codesOf("J1/5", "J1/6"));
        JsonNode proof = proof(1);
        assertEquals("disproven", proof.get("status").asText());
        JsonNode first = proof.get("afterWork").get("suspects").get(0);
        assertEquals(
                "terminals of cavities J1/5 and 6 swapped in the control unit plug",
                first.get("fault").asText());
        assertTrue(first.get("slip").asBoolean());
        assertEquals(0, first.get("leaves").size());
        assertTrue(first.get("probability").asDouble() > 0.5, first.toString());
        String text = Ran.of("proof", file.toString()).out();
        assertTrue(text.replaceAll("\\s+", " ").contains("swapped in the control unit plug: explains all"), text);
    }

    /** Codes that our network gives for a swap; for these plugs held against ngspice in {@code SlipSpiceTest}. */
    private static String codesOf(String a, String b) {
        Predictor predictor = Harness.TEACHING.predictor(List.of(), 0.05, List.of("key-on", "idle-warm"));
        Prediction p = predictor.predict(TerminalSlips.swapped(Harness.TEACHING.circuit(), a, b));
        List<String> out = new ArrayList<>();
        for (int c = 0; c < predictor.healthy().length; c++)
            if (p.of(c, predictor.healthy()[c]) > 0.5)
                out.add(predictor.table().codes().get(c).toString());
        return String.join(",", out);
    }

    @Test
    void demoIsProvenOnTextPageAndPaper() throws IOException {
        Path html = folder.resolve("p.html");
        Path pdf = folder.resolve("p.pdf");
        Ran ran = Ran.of("proof", DEMO, "--html", html.toString(), "--pdf", pdf.toString(), "--date", "2026-11-02");
        assertEquals(0, ran.code(), ran.err());
        assertTrue(ran.out().contains("*PROVEN: all 23 checks were done and passed.*"), ran.out());
        String page = Files.readString(html);
        assertTrue(page.contains("PROVEN: all 23 checks") && page.contains("2026-11-02"));
        assertEquals("%PDF-", new String(Files.readAllBytes(pdf), 0, 5, StandardCharsets.US_ASCII));
    }

    @Test
    void mistakes() {
        Ran.of("proof", DEMO, "--circuit", Ran.TEACHING)
                .refusedWith("a case brings its own circuit; leave out --circuit");
        Ran.of("proof", "none.jsonl").refusedWith("none.jsonl: no such file");
    }
}
