package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code rules/README.md} holds what a foreman reads: its examples work and it leaves no word out. */
class ForemansGuideTest {
    private static String guide() throws IOException {
        return Files.readString(Path.of("rules/README.md"));
    }

    /** Blocks that are whole files of rules. */
    private static List<String> files() throws IOException {
        return Pattern.compile("```\\n(package .*?)```", Pattern.DOTALL)
                .matcher(guide())
                .results()
                .map(match -> match.group(1))
                .toList();
    }

    @Test
    void itsFilesWorkInAShopFolder(@TempDir Path folder) throws IOException {
        int number = 0;
        for (String file : files()) Files.writeString(folder.resolve("own-" + ++number + ".drl"), file);
        assertEquals(2, number);
        Policy shop = Policy.withShopRules(folder);

        ClaimOutcome claim = ClaimRulesTest.outcome(shop, new ClaimRulesTest().neutral());
        RemedyFact near = new RemedyRulesTest()
                .neutral()
                .with("remedy.option=splice-repair remedy.newSplices=1 remedy.splicesAfter=1"
                        + " remedy.metresToTermination=0.09")
                .of(RemedyFact.class)
                .get(0);

        assertEquals(List.of("A photo of the cavities"), claim.rulesAdded());
        assertTrue(shop.remedies(new EvidenceFact(1, 1, 1, 0.5, 0.5, 0), List.of(near))
                .forbidden(near.id()));
    }

    @Test
    void theRuleItReadsAloudIsTheOneInForce() throws IOException {
        List<String> rules = Pattern.compile("```\\n(rule .*?)```", Pattern.DOTALL)
                .matcher(guide())
                .results()
                .map(match -> match.group(1))
                .toList();

        assertEquals(1, rules.size());
        assertTrue(Files.readString(Path.of("rules/repair-splices.drl")).contains(rules.get(0)));
    }

    @Test
    void itNamesEveryWordFactAndField() throws IOException {
        String guide = guide();
        for (Family family : Family.values()) {
            assertTrue(guide.contains(family.drlPackage()), family.drlPackage());
            for (String word : family.words()) assertTrue(guide.contains("conclude." + word + "("), word);
            for (Class<? extends Record> fact : family.facts()) {
                assertTrue(guide.contains("`" + fact.getSimpleName() + "`"), fact.getSimpleName());
                for (RecordComponent field : fact.getRecordComponents()) {
                    // Asked by touches and found; and the name by which a remedy is told apart.
                    if (fact == RemedyFact.class
                            && List.of("carries", "findings", "id").contains(field.getName())) continue;
                    assertTrue(
                            guide.contains("`" + field.getName() + "`"), fact.getSimpleName() + " " + field.getName());
                }
            }
        }
        for (List<String> words : List.of(
                CircuitKinds.ALL,
                RemedyFact.OPTIONS,
                RemedyFact.FINDINGS,
                ClaimGap.FIELDS,
                ClaimCase.DAMAGE_CAUSES,
                ClaimWork.DEEDS,
                ClaimPhoto.VIEWS,
                ClaimPart.ROLES,
                ClaimPart.KINDS,
                ClaimLabour.KINDS)) {
            String flat = guide.replaceAll("\\s+", " ");
            assertTrue(flat.contains(String.join(", ", words)), words.toString());
        }
    }

    @Test
    void itNamesEveryFileOfRules() throws IOException {
        try (var files = Files.list(Path.of("rules"))) {
            List<String> missing = files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(".drl"))
                    .map(name -> "`" + name.replace(".drl", "") + "`")
                    .filter(name -> {
                        try {
                            return !guide().contains(name);
                        } catch (IOException e) {
                            throw new java.io.UncheckedIOException(e);
                        }
                    })
                    .collect(Collectors.toList());
            assertEquals(List.of(), missing);
        }
    }
}
