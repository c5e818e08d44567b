package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whole drills through the commands: planted, played, debriefed, summed up. */
class DrillCommandsTest {
    private static final String DEMO = "demo-cases/shop-floor.drill.json";

    @TempDir
    private Path folder;

    private Path run;
    private Path words;

    @BeforeEach
    void files() throws IOException {
        run = folder.resolve("run.jsonl");
        words = Files.writeString(folder.resolve("words"), "demo\n");
    }

    private Ran drill(String text) {
        List<String> arguments = new ArrayList<>(List.of("drill"));
        for (String word : text.split(" "))
            arguments.add(word.replace("RUN", run.toString())
                    .replace("WORDS", words.toString())
                    .replace("FOLDER", folder.toString())
                    .replace('_', ' '));
        return Ran.of(arguments);
    }

    private String done(String text) {
        Ran ran = drill("do RUN " + text + " --by ada --time 2026-11-02T09:00:00Z");
        assertEquals(0, ran.code(), ran.err());
        return ran.out();
    }

    @Test
    void aWholeDrillFromComplaintToDebrief() {
        Ran start = drill("start " + DEMO + " RUN --by ada --time 2026-11-02T09:00:00Z");
        assertEquals(0, start.code(), start.err());
        assertTrue(start.out().startsWith("complaint: warning lamp on, stays on\n"), start.out());
        assertTrue(start.out().contains("clock:     0 of 180 minutes, 0.00 CU"), start.out());
        assertEquals(
                "4: access opened: cover\n   took 8 minutes; clock 8 of 180 minutes, 16.00 CU\n",
                done("access open cover"));
        String rail = done("reading volts J1/3 chassis --at key-on");
        assertTrue(rail.startsWith("5: volts J1/3 to chassis: "), rail);
        assertTrue(done("watched unplug C3 --at key-on").startsWith("6: unplug and watch: active "));
        done("hint");
        assertTrue(done("reading ohms J1/3 chassis --unplugged J1").contains(" to chassis: "));
        done("work replaced ECM");
        done("work cleared-codes");
        assertTrue(done("codes").contains("none"), "the codes stay away once the unit is replaced");
        String over = done("claim ECM");
        assertTrue(over.contains("the run is over: solved"), over);
        Ran debrief = drill("debrief RUN");
        assertEquals(0, debrief.code(), debrief.err());
        for (String part : List.of(
                "ada: solved",
                "it was control-unit ECM",
                "YOUR WAY",
                "THE PLANNER'S WAY",
                "[lost: a hint]",
                "SAFETY",
                "bits:")) assertTrue(debrief.out().contains(part), part + " is not in " + debrief.out());
        assertEquals(0, drill("status RUN").code());
        assertEquals(0, Ran.of("check", run.toString()).code(), "a run is a case that can be checked");
        assertEquals(0, Ran.of("show", run.toString()).code());
    }

    @Test
    void theSummaryIsATableAPictureAndACsv() throws Exception {
        drill("start " + DEMO + " RUN --by =ada");
        drill("do RUN hint --by =ada");
        drill("do RUN give-up --by =ada");
        Ran table = drill("class RUN --csv FOLDER/c.csv --svg FOLDER/c.svg");
        assertEquals(0, table.code(), table.err());
        assertTrue(table.out().contains("gave-up"), table.out());
        assertTrue(Files.readString(folder.resolve("c.csv")).contains("'=ada,1,shop-floor,medium,"));
        var svg = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(folder.resolve("c.svg").toFile());
        assertEquals("svg", svg.getDocumentElement().getTagName());
        assertEquals(1, svg.getElementsByTagName("circle").getLength());
        ObjectMapper mapper = new ObjectMapper();
        assertEquals(
                "gave-up",
                mapper.readTree(drill("class RUN --json").out())
                        .at("/runs/0/ending")
                        .asText());
        assertEquals(
                "gave-up",
                mapper.readTree(drill("debrief RUN --json").out()).at("/ending").asText());
    }

    /** Common practice, no source: the second of ten students stands before the tenth. */
    /** What a reading gives is the engine's to say: a line typed by hand would be an outcome that never was. */
    @Test
    void nothingIsWrittenIntoARunByHand() throws IOException {
        String file = folder.resolve("by-hand.jsonl").toString();
        Ran.of("drill", "start", DEMO, file, "--by", "ada");
        long before = Files.size(Path.of(file));
        Ran ran = Ran.of("record", file, "reading", "volts", "C1/1", "chassis", "5V", "--at", "key-on");
        assertEquals(2, ran.code());
        assertTrue(
                ran.err().contains("is the run of a drill, whose engine gives the outcome; use: drill do"), ran.err());
        assertEquals(before, Files.size(Path.of(file)));
    }

    @Test
    void studentsStandInTheOrderInWhichAPersonCounts() throws IOException {
        List<String> runs = new ArrayList<>();
        for (String student : List.of("student-10", "student-2")) {
            String file = folder.resolve(student + ".jsonl").toString();
            runs.add(file);
            Ran.of("drill", "start", DEMO, file, "--by", student);
        }
        List<String> students = new ArrayList<>();
        new ObjectMapper()
                .readTree(drill("class " + String.join(" ", runs) + " --json").out())
                .get("runs")
                .forEach(r -> students.add(r.get("student").asText()));
        assertEquals(List.of("student-2", "student-10"), students);
    }

    @Test
    void theInstructorPlantsRevealsAndLetsThePlannerPlay() throws IOException {
        Ran plant = drill("plant FOLDER/a.drill.json --circuit circuits/teaching.json --fault splice.open_S2"
                + " --passphrase-file WORDS");
        assertEquals(0, plant.code(), plant.err());
        Ran reveal = drill("reveal FOLDER/a.drill.json --passphrase-file WORDS");
        assertTrue(reveal.out().startsWith("splice S2: splice S2 (sensor return) open; there: always\n"), reveal.out());
        Ran solve = drill("solve FOLDER/a.drill.json --passphrase-file WORDS");
        assertEquals(0, solve.code(), solve.err());
        assertTrue(solve.out().replaceAll("\\s+", " ").contains("first place right, mended"), solve.out());
        assertEquals(
                "splice",
                new ObjectMapper()
                        .readTree(drill("solve FOLDER/a.drill.json --passphrase-file WORDS --json")
                                .out())
                        .at("/places/0")
                        .asText()
                        .split(" ")[0]);
        Files.writeString(words, "something else\n");
        drill("reveal FOLDER/a.drill.json --passphrase-file WORDS")
                .refusedWith(folder + "/a.drill.json: the passphrase does not open this drill");
        assertTrue(drill("faults --circuit circuits/teaching.json S2").out().contains("splice.open S2\t"));
    }

    /** A small or usual seed is soon guessed, and whoever draws the same drill reads the answer in his own copy. */
    @Test
    void withoutASeedOneIsDrawnAndSaid() {
        String plant = "plant FOLDER/%s.drill.json --circuit circuits/teaching.json --difficulty easy"
                + " --passphrase-file WORDS";
        List<String> seeds = new ArrayList<>();
        for (String name : List.of("one", "two")) {
            String out = drill(String.format(plant, name)).out();
            assertTrue(out.matches("(?s).*, seed \\d+\\n"), out);
            seeds.add(out.replaceFirst("(?s).*, seed ", ""));
        }
        assertNotEquals(seeds.get(0), seeds.get(1));
    }

    @Test
    void figuresThatAreNoneAreSaidInWordsOfTheTrade() {
        String plant =
                "plant FOLDER/a.drill.json --circuit circuits/teaching.json --difficulty easy --passphrase-file WORDS ";
        for (String option : List.of("--money", "--minutes", "--hint-minutes"))
            drill(plant + option + " much")
                    .refusedWith("invalid value for option '" + option + "': 'much' is not a number"
                            + (option.equals("--money") ? " such as 12.50" : "")
                            + "; see 'loomcase drill plant --help'");
        drill(plant + "--seed 1.5")
                .refusedWith("invalid value for option '--seed': '1.5' is not a whole number; see 'loomcase drill plant"
                        + " --help'");
    }

    @Test
    void mistakesAreOneSentenceAndLeaveNothingBehind() {
        drill("debrief RUN").refusedWith(run + ": no such file");
        drill("start demo-cases/README.md RUN")
                .refusedWith("demo-cases/README.md: line 1: not valid JSON: Unexpected character ('#' (code 35)):"
                        + " expected a valid value (JSON String, Number, Array, Object or token 'null', 'true' or"
                        + " 'false')");
        assertFalse(Files.exists(run));
        drill("start circuits/teaching.json RUN")
                .refusedWith("circuits/teaching.json: line 2: form: is not loomcase-drill/1; this is no drill file");
        drill("start " + DEMO + " FOLDER/run.txt").refusedWith(folder + "/run.txt: a run file ends in .jsonl");
        drill("start " + DEMO + " RUN");
        drill("start " + DEMO + " RUN").refusedWith(run + ": exists already; a new case needs a new file");
        drill("debrief RUN").refusedWith(run + ": the run is not over; claim, or give up, and then debrief");
        drill("do RUN reading amps J1/3 chassis --at key-on")
                .refusedWith("test 'amps' is not one of volts, ohms, drop, isolation");
        drill("do RUN reading volts J1/3 chassis")
                .refusedWith("give --at with an operating point such as key-on, or --at key-off");
        drill("do RUN reading volts J1/3 chassis --at key-on --probe nail")
                .refusedWith("--probe 'nail' is not one of test-pin, bare");
        drill("do RUN access open covr")
                .refusedWith("access step 'covr' is not in circuit teaching; did you mean 'cover'?");
        drill("do demo-cases/shared-splice.jsonl hint")
                .refusedWith("demo-cases/shared-splice.jsonl: is no run of a drill; start one with: drill start");
        drill("plant FOLDER/a.json --circuit circuits/teaching.json --difficulty easy --passphrase-file WORDS")
                .refusedWith(folder + "/a.json: a drill file ends in .drill.json");
        drill("plant FOLDER/a.drill.json --circuit circuits/teaching.json --passphrase-file WORDS")
                .refusedWith("give either --fault with an id, or --difficulty with easy, medium or hard");
        drill("plant FOLDER/a.drill.json --circuit circuits/teaching.json --fault splice.open_S2 --fault splice.open_S2"
                        + " --passphrase-file WORDS")
                .refusedWith("the fault splice.open S2 is named twice; two at once are two different ones");
        drill("plant FOLDER/a.drill.json --circuit circuits/teaching.json --difficulty tough --passphrase-file WORDS")
                .refusedWith("difficulty 'tough' is not one of easy, medium, hard");
    }

    @Test
    void everyCommandHasItsHelp() {
        for (String command : List.of("faults", "plant", "reveal", "solve", "class", "start", "status", "debrief")) {
            Ran help = drill(command + " --help");
            assertEquals(0, help.code(), help.err());
            assertTrue(!help.out().contains("\n--"), "an example runs over its line\n" + help.out());
            assertTrue(help.out().contains("Example") && help.out().contains("Exit codes:"), help.out());
        }
        for (String kind :
                List.of("reading", "watched", "moved", "seen", "swapped", "gauged", "access", "codes", "work"))
            assertTrue(drill("do RUN " + kind + " --help").out().contains("As in: ") || kind.equals("seen"), kind);
    }
}
