package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import loomcase.Schemas;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command {@code study}: its forms agree, its pictures are written, mistakes word for word. */
class StudyCommandTest {
    private static final List<String> SMALL =
            List.of("study", "--circuit", "circuits/teaching.json", "--cases", "3", "--worked", "1", "--at", "key-on");

    @TempDir
    private Path folder;

    private static Ran run(String... more) {
        List<String> all = new java.util.ArrayList<>(SMALL);
        all.addAll(List.of(more));
        return Ran.of(all.toArray(String[]::new));
    }

    @Test
    void aPictureThatCannotBeWrittenIsToldBeforeTheWork() {
        Ran ran = run("--svg", folder.resolve("nowhere/study.svg").toString());
        assertEquals(2, ran.code());
        assertEquals("", ran.out());
        assertTrue(ran.err().contains("nowhere/study.svg: cannot be written: its folder does not exist"), ran.err());
    }

    @Test
    void tablesAndJsonSayTheSame() throws IOException {
        Ran json = run("--json");
        assertEquals("", json.err());
        assertEquals(List.of(), Schemas.errors(Schemas.of("study.schema.json"), json.out()));
        Ran text = run("--svg", folder.toString());
        assertEquals(0, text.code());
        JsonNode single = new ObjectMapper().readTree(json.out()).get("kinds").get(0);
        JsonNode planner = single.get("repair").get("ways").get(0);
        String ways = text.out()
                .lines()
                .filter(l -> l.startsWith("| " + single.get("kind").asText()))
                .reduce((a, b) -> b)
                .orElseThrow();
        String minutes = String.format(
                java.util.Locale.ROOT,
                "| %.0f, %.0f, ",
                planner.get("minutes").get("mean").asDouble(),
                planner.get("money").get("mean").asDouble());
        assertTrue(ways.contains(minutes), ways + " has not " + minutes);
        assertTrue(text.out().contains("| all together | "), text.out());
        for (String name : List.of("study-reliability.svg", "study-ways.svg"))
            assertTrue(Files.readString(folder.resolve(name)).contains("teaching"), name);
    }

    @Test
    void sameBytesForAnyNumberOfWorkers() {
        assertEquals(
                run("--json", "--workers", "1").out(),
                run("--json", "--workers", "2").out());
    }

    @Test
    void noWorkersIsSaid() {
        Ran ran = run("--workers", "0");
        assertEquals(2, ran.code());
        assertEquals("loomcase: --workers 0: at least 1", ran.err().strip());
    }

    @Test
    void moreWorkedThanRankedIsSaid() {
        Ran ran = Ran.of("study", "--circuit", "circuits/teaching.json", "--cases", "3", "--worked", "4");
        assertEquals(2, ran.code());
        assertEquals(
                "loomcase: --worked 4: allowed is 0 to 3, the number of cases",
                ran.err().strip());
    }

    /** A kind's cases are the same whatever is run beside it; a kind that is not there is named with those that are. */
    @Test
    void onlyKindsNamedAreRun() throws IOException {
        ObjectMapper mapper = new ObjectMapper();
        JsonNode all = mapper.readTree(run("--json").out()).get("kinds");
        JsonNode two = mapper.readTree(run("--json", "--kind", "all,two").out()).get("kinds");
        assertEquals(2, two.size());
        assertEquals(all.get(2), two.get(0));
        assertEquals(all.get(6), two.get(1));
        Ran wrong = run("--kind", "double");
        assertEquals(2, wrong.code());
        assertEquals(
                "loomcase: --kind double: there are single, every-place, two, common, engine, come-and-go, all",
                wrong.err().strip());
    }
}
