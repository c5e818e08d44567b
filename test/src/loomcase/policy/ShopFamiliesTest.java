package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import loomcase.policy.RemedyRuling.Effect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One shop folder with rules of several families. */
class ShopFamiliesTest {
    private static final String REMEDY_HEAD =
            """
            package loomcase.rules.remedy
            import loomcase.policy.RemedyFact
            import loomcase.policy.EvidenceFact
            global loomcase.policy.RemedyConclusions conclude
            """;
    private static final String CLAIM_HEAD =
            """
            package loomcase.rules.claim
            import loomcase.policy.ClaimCase
            import loomcase.policy.ClaimPhoto
            global loomcase.policy.ClaimConclusions conclude
            """;
    private static final String LIMIT = "No splice close to a plug, clip or branching";
    private static final String PAIR = "A twisted pair keeps its twist";

    @TempDir
    private Path folder;

    private static String rule(String name, String when, String then) {
        return "rule \"" + name + "\"\n@Reason(\"our trucks\")\n@Source(\"our shop, 2026\")\nwhen\n    " + when
                + "\nthen\n    " + then + "\nend\n";
    }

    private void write(String file, String text) throws IOException {
        Files.writeString(folder.resolve(file), text);
    }

    /** A splice in a twisted pair, 60 mm from a clip. */
    private RemedyOutcome spliceOfAPair(Policy policy) {
        Facts facts = new RemedyRulesTest()
                .neutral()
                .with("remedy.option=splice-repair remedy.newSplices=1 remedy.splicesAfter=1 remedy.twisted=true"
                        + " remedy.metresToTermination=0.06");
        return policy.remedies(facts.of(EvidenceFact.class).get(0), facts.of(RemedyFact.class));
    }

    private RemedyOutcome spliceOfAPair() {
        return spliceOfAPair(Policy.withShopRules(folder));
    }

    private ClaimOutcome claim(String edits) {
        return ClaimRulesTest.outcome(
                Policy.withShopRules(folder), new ClaimRulesTest().neutral().with(edits));
    }

    @Test
    void aRepairRuleIsTurnedOff() throws IOException {
        write("rules-off.txt", PAIR + "\n");

        RemedyOutcome outcome = spliceOfAPair();

        assertTrue(outcome.shopPolicyDiffers());
        assertEquals(List.of(PAIR), outcome.rulesDisplaced());
        assertEquals(List.of(), outcome.rulesAdded());
        assertEquals(
                spliceOfAPair(Policy.builtIn()).rulings().stream()
                        .filter(ruling -> !ruling.rule().equals(PAIR))
                        .toList(),
                outcome.rulings());
    }

    @Test
    void aLimitIsChanged() throws IOException {
        assertFalse(spliceOfAPair(Policy.builtIn()).forbidden("remedy"));
        write(
                "own.drl",
                REMEDY_HEAD
                        + rule(
                                LIMIT,
                                "$r : RemedyFact( newSplices > 0, metresToTermination < 0.1 )",
                                "conclude.forbid($r, \"Closer than 100 mm.\");"));

        RemedyOutcome outcome = spliceOfAPair();

        assertEquals(
                List.of(new RemedyRuling("remedy", Effect.FORBID, "Closer than 100 mm.", LIMIT, "our shop, 2026")),
                outcome.rulings("remedy", Effect.FORBID));
        assertTrue(outcome.shopPolicyDiffers());
        assertEquals(List.of(), outcome.rulesDisplaced(), "the built-in rule had nothing to say at 60 mm");
        assertEquals(List.of(LIMIT), outcome.rulesAdded());
    }

    @Test
    void aRuleThatSaysTheSameChangesNothing() throws IOException {
        String text = "Cut both wires of the pair at staggered points, same length, at most 50 mm untwisted.";
        write(
                "own.drl",
                REMEDY_HEAD
                        + "rule \"" + PAIR
                        + "\"\n@Reason(\"x\")\n@Source(\"a car maker's CAN repair instruction: both wires"
                        + " of equal length, at most 50 mm untwisted\")\nwhen\n $r : RemedyFact( twisted )\nthen\n"
                        + " conclude.caution($r, \"" + text + "\");\nend\n");

        RemedyOutcome outcome = spliceOfAPair();

        assertFalse(outcome.shopPolicyDiffers());
        assertEquals(List.of(PAIR), outcome.rulesDisplaced());
        assertEquals(List.of(PAIR), outcome.rulesAdded());
    }

    @Test
    void aRepairRuleIsAddedAndMayConflict() throws IOException {
        write(
                "own.drl",
                REMEDY_HEAD
                        + rule(
                                "Pairs are spliced here",
                                "$r : RemedyFact( twisted )",
                                "conclude.require($r, \"We splice pairs.\");")
                        + rule(
                                "And also not",
                                "EvidenceFact( readings > 0 )\n $r : RemedyFact( twisted )",
                                "conclude.forbid($r, \"We do not.\");"));

        RemedyOutcome outcome = spliceOfAPair();

        assertEquals(List.of("And also not", "Pairs are spliced here"), outcome.rulesAdded());
        assertEquals(1, outcome.conflicts().size());
    }

    @Test
    void aClaimRuleIsTurnedOffAndOneIsAdded() throws IOException {
        write("rules-off.txt", "A photo from afar\n");
        write(
                "own.drl",
                CLAIM_HEAD
                        + rule(
                                "Two photos at least",
                                "accumulate( $p : ClaimPhoto( ); $n : count($p); $n < 3 )",
                                "conclude.blocks(\"photos\", \"Only \" + $n + \" photos.\");"));

        ClaimOutcome outcome = claim("drop:overview");

        assertEquals(
                List.of(new ClaimGap(
                        ClaimGap.Severity.BLOCKS, "photos", "Only 2 photos.", "Two photos at least", "our shop, 2026")),
                outcome.gaps());
        assertTrue(outcome.shopPolicyDiffers());
        assertEquals(List.of("A photo from afar"), outcome.rulesDisplaced());
        assertEquals(List.of("Two photos at least"), outcome.rulesAdded());
    }

    @Test
    void eachFamilyUsesOnlyItsOwnFiles() throws IOException {
        write("claims.drl", CLAIM_HEAD + rule("Never", "eval(false)", ""));
        write("repairs.drl", REMEDY_HEAD + rule("Broken", "RemedyFact( nonsense )", ""));

        assertEquals(List.of(), claim("").gaps());
        assertFalse(Policy.withShopRules(folder).decide(List.of(), List.of()).shopPolicyDiffers());
        assertThrows(PolicyProblem.class, this::spliceOfAPair);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\0',
            value = {
                "$r : RemedyFact( slack < 1 )|conclude.forbid($r, \"x\");|own.drl line 9: rule \"Ours\": RemedyFact has no field \"slack\"; allowed are id, option, placeKind, place, probability, circuits, newSplices, splicesAfter, earlierRepairs, metresToTermination, slackMetres, carries, twisted, shielded, boosted, fused, noSpliceAllowed, vibration, flexes, zoneCelsius, controlUnitPlug, corrodedCavities, findings",
                "$r : WatchedCode( )|conclude.forbid($r, \"x\");|own.drl line 9: rule \"Ours\": \"WatchedCode\" is no fact; allowed are RemedyFact and EvidenceFact, each with its import line at the top of the file",
                "$r : RemedyFact( )|conclude.forbit($r, \"x\");|own.drl line 5: rule \"Ours\": \"forbit\" is no word of conclude; allowed are approval, caution, forbid, require",
                "$r : RemedyFact( )|conclude.forbid($r, \"\");|own.drl line 5: rule \"Ours\": the ruling on remedy remedy has no text",
                "$r : RemedyFact( twisted|conclude.forbid($r, \"x\");|own.drl line 10: this cannot be read as a rule: mismatched input 'then' in rule \"Ours\"",
            })
    void aBadRepairRuleIsToldWithFileLineAndWhat(String when, String then, String message) throws IOException {
        write("own.drl", REMEDY_HEAD + rule("Ours", when, then));

        assertEquals(
                message, assertThrows(PolicyProblem.class, this::spliceOfAPair).getMessage());
    }

    @Test
    void aFindingThatIsNoWordIsTold() throws IOException {
        write(
                "own.drl",
                REMEDY_HEAD + rule("Ours", "$r : RemedyFact( found(\"meltd\") )", "conclude.forbid($r, \"x\");"));

        String message = assertThrows(PolicyProblem.class, this::spliceOfAPair).getMessage();

        assertTrue(
                message.startsWith(
                        "own.drl line 9: a condition cannot be checked: finding is \"meltd\"; allowed are clean,"),
                message);
    }

    @Test
    void aPartOfTheClaimThatIsNoWordIsTold() throws IOException {
        write("own.drl", CLAIM_HEAD + rule("Ours", "ClaimCase( )", "conclude.blocks(\"photo\", \"x\");"));

        String message = assertThrows(PolicyProblem.class, () -> claim("")).getMessage();

        assertTrue(
                message.startsWith("own.drl line 5: rule \"Ours\": field is \"photo\"; allowed are machine,"), message);
    }

    @Test
    void aNameOfAnotherFamilysRuleIsTold() throws IOException {
        write("own.drl", CLAIM_HEAD + rule(LIMIT, "eval(false)", ""));

        assertEquals(
                "own.drl line 5: rule \"" + LIMIT + "\" has the name of a built-in rule of package"
                        + " loomcase.rules.remedy; move it to a file of that package or give it another name",
                assertThrows(PolicyProblem.class, () -> Policy.withShopRules(folder))
                        .getMessage());
    }

    @Test
    void namesAreUniqueAcrossFamilies() {
        TreeSet<String> seen = new TreeSet<>();
        for (Family family : Family.values()) {
            for (String name : Policy.builtInRuleNames(family)) assertTrue(seen.add(name), name);
        }
    }
}
