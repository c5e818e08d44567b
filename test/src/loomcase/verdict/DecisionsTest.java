package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import loomcase.model.Circuit;
import loomcase.plan.NextTest;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Cases whose answer is argued from published manuals and trade practice, row by row in the data file. */
class DecisionsTest {
    private static final List<CSVRecord> ROWS = rows();

    private static List<CSVRecord> rows() {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var in = Files.newBufferedReader(Path.of("test/data/verdict/decisions.csv"));
                var parser = format.parse(in)) {
            return parser.getRecords();
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    @TestFactory
    List<DynamicTest> theOptionIsTheArguedOne() {
        return ROWS.stream()
                .map(r -> DynamicTest.dynamicTest(r.get("situation"), () -> {
                    Verdict v = decide(r);
                    String why = v.reasons() + "\n" + table(v);
                    assertEquals(r.get("option"), v.option(), why);
                    assertEquals(
                            r.get("full_replacement").equals("justified"),
                            v.replacement().justified(),
                            why);
                    assertTrue(
                            v.replacement()
                                    .words()
                                    .startsWith("Full replacement is "
                                            + (v.replacement().justified() ? "justified" : "not justified")),
                            v.replacement().words());
                    assertEquals(
                            new VerdictMaker.Choice(v.option(), v.leading().map(Verdict.Weighed::remedy)), choose(r));
                }))
                .toList();
    }

    private static Verdict decide(CSVRecord r) {
        return maker(r).decide(situation(r), next(r), Posteriors.PERFECT);
    }

    /** The same by the quick way that leaves out intervals and reasons. */
    private static VerdictMaker.Choice choose(CSVRecord r) {
        return maker(r).choose(situation(r), next(r), Posteriors.PERFECT);
    }

    private static VerdictMaker maker(CSVRecord r) {
        Circuit circuit = r.get("circuit").equals("teaching") ? Posteriors.TEACHING : Posteriors.LARCH;
        return Posteriors.maker(circuit, Posteriors.RULES);
    }

    private static Situation situation(CSVRecord r) {
        return Posteriors.situation(Posteriors.ranking(r.get("posterior")), r.get("seen"), r.get("repaired"));
    }

    private static List<NextTest> next(CSVRecord r) {
        String test = r.get("test_minutes");
        return test.isBlank() ? List.of() : List.of(Posteriors.test(Double.parseDouble(test)));
    }

    private static String table(Verdict v) {
        StringBuilder out = new StringBuilder();
        v.options().stream()
                .limit(8)
                .forEach(w -> out.append(String.format(
                        "%s %s %.0f cures %.2f %s%n",
                        w.forbidden() ? "x" : " ",
                        w.remedy().id(),
                        w.cost().total(),
                        w.cures(),
                        w.rulings().stream()
                                .filter(x -> x.effect() != loomcase.policy.RemedyRuling.Effect.CAUTION)
                                .map(x -> x.effect() + ":" + x.rule())
                                .toList())));
        return out.toString();
    }

    @Test
    void thereAreTwentyAndHalfSayNoToANewHarness() {
        long no = ROWS.stream()
                .filter(r -> r.get("full_replacement").equals("not justified"))
                .count();
        assertTrue(ROWS.size() >= 20, ROWS.size() + " cases");
        assertTrue(2 * no >= ROWS.size(), no + " of " + ROWS.size());
        for (CSVRecord r : ROWS) {
            assertFalse(r.get("argument").isBlank(), r.get("situation"));
            assertFalse(r.get("source").isBlank(), r.get("situation"));
        }
    }
}
