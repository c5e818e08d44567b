package loomcase.fleet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import loomcase.InputProblem;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.intake.Intake;
import loomcase.j1939.CodeList;
import loomcase.json.BriefJson;
import loomcase.json.RankJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FleetTest {
    private static final Path TEACHING = Path.of("circuits/teaching.json");
    private static final List<String> CODES = List.of("110/3", "100/4", "110/3,100/4", "190/2", "100/3", "110/4x2");

    @TempDir
    Path folder;

    private static Fleet fleet(int workers, boolean brief) {
        return new Fleet(workers, brief, () -> new Casework(Shop.BUILT_IN));
    }

    private static FleetSource list(String text) {
        return FleetSource.of(new BufferedReader(new StringReader(text)), Optional.of(TEACHING));
    }

    private static String lines(int count) {
        StringBuilder out = new StringBuilder();
        for (int i = 0; i < count; i++)
            out.append("{\"id\": \"u" + i + "\", \"codes\": \"" + CODES.get(i % CODES.size()) + "\"}\n");
        return out.toString();
    }

    private static List<String> run(Fleet fleet, String text, long skip) throws IOException {
        StringBuilder out = new StringBuilder();
        fleet.run(list(text), skip, out, done -> {});
        return out.toString().lines().toList();
    }

    private static Bench teaching() {
        return new Casework(Shop.BUILT_IN).circuit(TEACHING);
    }

    @Test
    void eachAnswerIsTheOneThatItsCaseGetsAlone() throws IOException {
        List<String> got = run(fleet(2, false), lines(6), 0);
        Bench bench = teaching();
        for (int i = 0; i < 6; i++) {
            Intake intake = Intake.typed(bench.circuit(), CodeList.parse(CODES.get(i)), CodeList.parse(""), List.of());
            assertEquals(
                    "{\"n\":" + (i + 1) + ",\"id\":\"u" + i + "\",\"answer\":"
                            + RankJson.of(bench.answer(intake)).line() + "}",
                    got.get(i));
        }
    }

    @Test
    void orderIsKeptWhateverTheNumberOfWorkers() throws IOException {
        List<String> alone = run(fleet(1, true), lines(120), 0);
        assertEquals(120, alone.size());
        assertEquals(alone, run(fleet(5, true), lines(120), 0));
        Bench bench = teaching();
        Intake intake = Intake.typed(bench.circuit(), CodeList.parse("190/2"), CodeList.parse(""), List.of());
        assertTrue(alone.get(3).contains(BriefJson.of(bench.answer(intake)).line()));
    }

    @Test
    void aBadLineGivesOneErrorAndStopsNothing() throws IOException {
        String text = lines(2) + "\n{\"codes\": \"110/77\"}\nnot JSON\n{\"codes\": \"110/3\", \"colour\": 1}\n"
                + "{\"circuit\": \"nowhere.json\", \"codes\": \"110/3\"}\n"
                + "{\"codes\": \"110/3\", \"facts\": [{\"kind\": \"opened-access\", \"step\": \"roof\"}]}\n" + lines(1);
        StringBuilder out = new StringBuilder();
        Fleet.Counts counts = fleet(2, true).run(list(text), 0, out, done -> {});
        assertEquals(new Fleet.Counts(3, 5), counts);
        List<String> got = out.toString().lines().toList();
        assertEquals(8, got.size(), "a blank line is no case");
        assertTrue(got.get(2).startsWith("{\"n\":3,\"error\":\"list: line 4: codes: "), got.get(2));
        assertTrue(got.get(3).startsWith("{\"n\":4,\"error\":\"list: line 5: "), got.get(3));
        assertTrue(got.get(4).contains("line 6: colour: "), got.get(4));
        assertTrue(got.get(5).contains("nowhere.json: no such file"), got.get(5));
        assertTrue(got.get(6).contains("line 8: facts: "), got.get(6));
        assertTrue(got.get(7).startsWith("{\"n\":8,\"id\":\"u0\",\"answer\":"), got.get(7));
    }

    @Test
    void goingOnAfterSomeLinesGivesTheRest() throws IOException {
        List<String> whole = run(fleet(2, true), lines(40), 0);
        for (int done : new int[] {0, 1, 17, 39, 40})
            assertEquals(whole.subList(done, 40), run(fleet(3, true), lines(40), done));
        assertThrows(InputProblem.class, () -> run(fleet(1, true), lines(3), 4), "another list");
    }

    @Test
    void readsOnlyAFewCasesAheadOfWhatIsWritten() throws IOException {
        int[] read = {0};
        int[] most = {0};
        List<Integer> written = new ArrayList<>();
        FleetSource source = list(lines(300));
        Iterator<FleetSource.Case> counted = new Iterator<>() {
            @Override
            public boolean hasNext() {
                return source.hasNext();
            }

            @Override
            public FleetSource.Case next() {
                most[0] = Math.max(most[0], ++read[0] - written.size());
                return source.next();
            }
        };
        fleet(2, true).run(counted, 0, new StringBuilder(), done -> written.add((int) done));
        assertEquals(300, written.size());
        assertTrue(most[0] <= 33, most[0] + " cases under way");
    }

    @Test
    void inlineReadingsWeighAsThoseOfACaseDo() throws IOException {
        String plain = "{\"codes\": \"110/3\"}\n";
        String seen = "{\"codes\": \"110/3\", \"facts\": [{\"kind\": \"seen\", \"place\": {\"kind\": \"connector\","
                + " \"id\": \"C1\"}, \"finding\": \"green-copper\"}]}\n";
        List<String> got = run(fleet(1, true), plain + seen, 0);
        assertTrue(got.get(1).contains("\"answer\""), got.get(1));
        assertTrue(!got.get(0).replace("\"n\":1", "").equals(got.get(1).replace("\"n\":2", "")), "it weighs");
    }

    @Test
    void caseFilesStandForThemselves() throws IOException {
        Path demo = Path.of("demo-cases/shared-splice.jsonl");
        Path list = folder.resolve("list.jsonl");
        Files.writeString(list, "{\"case\": \"" + demo.toAbsolutePath() + "\"}\n");
        StringBuilder out = new StringBuilder();
        fleet(1, true).run(FleetSource.of(List.of(list, demo), Optional.empty()), 0, out, done -> {});
        List<String> got = out.toString().lines().toList();
        assertEquals(2, got.size());
        assertEquals(got.get(0).replace("{\"n\":1,", ""), got.get(1).replace("{\"n\":2,\"id\":\"" + demo + "\",", ""));
        assertTrue(got.get(0).contains("\"circuit\":\"larch-13\""), got.get(0));
    }
}
