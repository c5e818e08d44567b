package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import loomcase.Schemas;
import loomcase.policy.RemedyFact;
import loomcase.verdict.Remedy;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The verdict command: form of its answer, agreement with {@code next}, pictures, refusals. */
class VerdictCommandTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final String[] CODES = {"--circuit", "circuits/teaching.json", "--codes", "110/3"};

    @TempDir
    Path folder;

    private static Ran verdict(String... more) {
        List<String> all = new ArrayList<>(List.of("verdict"));
        all.addAll(List.of(CODES));
        all.addAll(List.of(more));
        return Ran.of(all);
    }

    @Test
    void theAnswerHasThePublishedFormAndNoOther() throws IOException {
        Ran ran = verdict("--json");
        assertEquals(1, ran.code(), ran.err());
        var schema = Schemas.of("verdict.schema.json");
        assertEquals(List.of(), Schemas.errors(schema, ran.out()));
        JsonNode answer = MAPPER.readTree(ran.out());
        assertEquals("not-enough-evidence", answer.get("option").asText());
        assertTrue(ran.out().contains("\"replace section front (branch B2)\""), "one branch is no branches");
        assertTrue(answer.get("place").isNull());
        assertFalse(answer.at("/fullReplacement/justified").asBoolean());
        for (String key : List.of("option", "allowed", "forbidden", "costs", "breakEven", "confidence", "cautions")) {
            ObjectNode less = (ObjectNode) MAPPER.readTree(ran.out());
            less.remove(key);
            assertFalse(Schemas.errors(schema, less.toString()).isEmpty(), "without " + key);
        }
        ObjectNode more = (ObjectNode) MAPPER.readTree(ran.out());
        ((ObjectNode) more.get("costs").get(0)).put("guess", 1);
        assertFalse(Schemas.errors(schema, more.toString()).isEmpty());
    }

    @Test
    void optionsInTheSchemaAreThoseOfTheRules() throws IOException {
        JsonNode schema =
                MAPPER.readTree(Schemas.FOLDER.resolve("verdict.schema.json").toFile());
        List<String> words = new ArrayList<>();
        schema.at("/$defs/cost/properties/option/enum").forEach(w -> words.add(w.asText()));
        assertEquals(Remedy.TWO, words.remove(words.size() - 1));
        assertEquals(RemedyFact.OPTIONS, words);
    }

    @Test
    void theTestProposedIsTheOneThatNextProposes() throws IOException {
        JsonNode verdict = MAPPER.readTree(verdict("--json").out());
        List<String> rank = new ArrayList<>(List.of("rank"));
        rank.addAll(List.of(CODES));
        rank.add("--json");
        JsonNode next = MAPPER.readTree(Ran.of(rank).out()).get("next");
        assertEquals(next.get("test").asText(), verdict.at("/next/test").asText());
        assertTrue(verdict.at("/next/pays").asBoolean());
    }

    @Test
    void aPersonIsToldWhatWouldChangeItAndThatTheHarnessStays() {
        String text = verdict().out().replaceAll("\\s+", " ");
        assertTrue(text.contains("not enough evidence: test first"), text);
        assertTrue(text.contains("Full replacement is not justified"), text);
        assertTrue(text.contains("WHAT WOULD CHANGE IT"), text);
        assertTrue(text.contains("x full-harness teaching"), text);
    }

    /** Common practice, no source: what cannot cure is no option; the harness stays, for it is asked about. */
    @Test
    void whatCuresNothingIsOneLine() throws IOException {
        Ran ran = Ran.of("verdict", "demo-cases/two-sensors.jsonl");
        String table =
                ran.out().substring(ran.out().indexOf("OPTION"), ran.out().indexOf("cures:"));
        assertEquals(2, table.lines().filter(l -> l.contains("%")).count(), table);
        assertTrue(table.contains("device EDP + device ECT") && table.contains("full-harness"), table);
        long idle = 0;
        for (JsonNode cost : MAPPER.readTree(Ran.of("verdict", "demo-cases/two-sensors.jsonl", "--json")
                        .out())
                .get("costs")) if (cost.get("cures").asDouble() < 0.005) idle++;
        String said = (idle - 1) + " more cure nothing here (below 0.5 %); see --json";
        assertTrue(ran.out().contains(said), said + " is not in " + ran.out());
    }

    @Test
    void theLabourRateOfTheCommandCounts() throws IOException {
        JsonNode cheap =
                MAPPER.readTree(verdict("--json", "--labour-rate", "60").out());
        JsonNode dear =
                MAPPER.readTree(verdict("--json", "--labour-rate", "240").out());
        assertEquals(60, cheap.at("/rates/labourPerHour").asDouble());
        assertTrue(cheap.at("/costs/0/expected").asDouble()
                < dear.at("/costs/0/expected").asDouble());
    }

    @Test
    void aPictureIsWrittenWhole() throws IOException {
        Path svg = folder.resolve("sweep.svg");
        Ran ran = verdict("--svg", svg.toString());
        assertEquals(1, ran.code(), ran.err());
        String picture = Files.readString(svg);
        assertTrue(picture.startsWith("<svg") && picture.endsWith("</svg>\n"), picture.substring(0, 40));
        assertTrue(picture.contains("this case") && picture.contains("damaged circuits at the place"));
    }

    @Test
    void mistakesAreSaidInOneLine() throws IOException {
        verdict("--labour-rate", "-1").refusedWith("--labour-rate -1 is not within 0 to 10000000 an hour");
        Path figures = folder.resolve("figures.csv");
        Files.writeString(figures, "key,low,likely,high\nminutes.splice,10,5,20\n");
        verdict("--repair-costs", figures.toString())
                .refusedWith(
                        figures + ": line 2: minutes.splice: 10.0, 5.0, 20.0: low, likely and high must rise and lie"
                                + " within 0 to 1000000000");
        Files.writeString(figures, "key,low,likely,high\nfix.device.device,0.5,0.9,1.5\n");
        verdict("--repair-costs", figures.toString())
                .refusedWith(figures + ": line 2: fix.device.device: 1.5 is above 1; a probability lies within 0 to 1");
        Files.writeString(figures, "key,low,likely,high\nminutes.guess,1,2,3\n");
        verdict("--repair-costs", figures.toString())
                .refusedWith(figures + ": key 'minutes.guess' is not known; see rules/repair-costs.csv for the keys");
        verdict("--repair-costs", folder.resolve("none.csv").toString())
                .refusedWith(folder.resolve("none.csv") + ": no such file");
    }
}
