package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import loomcase.policy.RemedyFact;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The figures file: complete, sourced, and laid over by a shop's own. */
class RepairCostsTest {
    @TempDir
    Path folder;

    @Test
    void everyFigureNamesItsSource() throws IOException {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var in = Files.newBufferedReader(Path.of("rules/repair-costs.csv"));
                var rows = format.parse(in)) {
            for (CSVRecord r : rows) {
                assertFalse(r.get("source").isBlank(), r.get("key"));
                assertTrue(java.util.Set.of("low", "medium", "high").contains(r.get("confidence")), r.get("key"));
            }
        }
    }

    @Test
    void everyOptionCanSucceedAndFail() {
        Map<String, RepairCosts.Range> all = RepairCosts.builtIn().ranges();
        for (String option : RemedyFact.OPTIONS) {
            assertTrue(all.keySet().stream().anyMatch(k -> k.startsWith("fix." + option + ".")), option);
            assertTrue(all.containsKey("fails." + option), option);
        }
        for (String trace : Remedies.TRACES) assertTrue(all.containsKey("hidden." + trace), trace);
    }

    @Test
    void aShopsFigureReplacesOnlyItsOwn() throws IOException {
        Path own = folder.resolve("own.csv");
        Files.writeString(own, "key,low,likely,high\nminutes.splice,5,6,7\n");
        RepairCosts laid = RepairCosts.builtIn().with(own);
        assertEquals(new RepairCosts.Range(5, 6, 7), laid.ranges().get("minutes.splice"));
        assertEquals(
                RepairCosts.builtIn().ranges().get("minutes.terminal"),
                laid.ranges().get("minutes.terminal"));
        assertEquals(RepairCosts.builtIn().ranges().size(), laid.ranges().size());
    }

    /** Mean of a triangular distribution, (a + b + c) / 3: Commons Math as an independent statement of it. */
    @Test
    void meansAreThoseOfTheTriangle() {
        RepairCosts.builtIn().ranges().forEach((key, r) -> {
            if (r.low() == r.high()) return;
            double oracle = new org.apache.commons.math3.distribution.TriangularDistribution(
                            null, r.low(), r.likely(), r.high())
                    .getNumericalMean();
            assertEquals(oracle, r.mean(), 1e-9, key);
        });
    }
}
