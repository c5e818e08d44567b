package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShopRulesTest {
    private static final String HEAD =
            """
            package loomcase.rules.codes
            import loomcase.policy.WatchedCode
            import loomcase.policy.PlaceFact
            global loomcase.policy.Conclusions conclude
            """;
    private static final String SUPPLY_RULE = "A supply code hides the codes of the sensors it feeds";
    private static final List<WatchedCode> RAIL_AND_SENSOR = List.of(
            PolicyFacts.code(3509, 4, "supply", "", "rail-1"),
            PolicyFacts.code(100, 4, "ratiometric-pull-down", "oil", "rail-1"));

    @TempDir
    private Path folder;

    private static String rule(String name, String when, String then) {
        return "rule \"" + name + "\"\n@Reason(\"our engines\")\nwhen\n    " + when + "\nthen\n    " + then + "\nend\n";
    }

    private void write(String file, String text) throws IOException {
        Files.writeString(folder.resolve(file), text);
    }

    private PolicyOutcome decide() {
        return Policy.withShopRules(folder).decide(RAIL_AND_SENSOR, List.of(PolicyFacts.place("plug", "wire", "ntc")));
    }

    @Test
    void aRuleOfTheSameNameReplaces() throws IOException {
        write(
                "own.drl",
                HEAD
                        + rule(
                                SUPPLY_RULE,
                                "$rail : WatchedCode( circuitKind == \"supply\" )\n    $sensor : WatchedCode( supply == $rail.supply, circuitKind != \"supply\" )",
                                "conclude.mask($rail, $sensor, 0.9);"));

        PolicyOutcome outcome = decide();

        assertEquals(List.of(new Mask(3509, 4, 100, 4, 0.9, SUPPLY_RULE, "our engines")), outcome.masks());
        assertTrue(outcome.shopPolicyDiffers());
    }

    @Test
    void aRuleOfTheSameNameThatNeverHoldsTurnsOff() throws IOException {
        write("own.drl", HEAD + rule(SUPPLY_RULE, "eval(false)", ""));

        assertEquals(List.of(), decide().masks());
    }

    @Test
    void aNewRuleAdds() throws IOException {
        write(
                "own.drl",
                HEAD
                        + rule(
                                "Wear glasses",
                                "$place : PlaceFact( kind == \"wire\" )",
                                "conclude.caution($place, \"Wear glasses.\");"));

        PolicyOutcome outcome = decide();

        assertTrue(outcome.cautions().contains(new Caution("plug", "Wear glasses.", "Wear glasses", "shop rule")));
        assertTrue(outcome.ruleNamesFired().contains("Wear glasses"));
        assertTrue(outcome.ruleNamesFired().contains(SUPPLY_RULE));
    }

    @Test
    void aShopReadingCountsInsteadOfTheBuiltInOneWhateverItsName() throws IOException {
        write(
                "own.drl",
                HEAD
                        + rule(
                                "Our control unit never sends 2",
                                "exists WatchedCode( circuitKind == \"ratiometric-pull-down\" )",
                                "conclude.shows(\"ratiometric-pull-down\", 4, \"100 % as 4\");"));

        List<FmiReading> readings = decide().readings().stream()
                .filter(reading -> reading.conditionFmi() == 4)
                .toList();

        assertEquals(
                List.of(new FmiReading(
                        "ratiometric-pull-down", 4, 4, 1.0, "Our control unit never sends 2", "shop rule")),
                readings);
    }

    @Test
    void theOffFileHasTheLastWordOverTheShopsOwnRules() throws IOException {
        write(
                "own.drl",
                HEAD + rule("Wear glasses", "$place : PlaceFact( )", "conclude.caution($place, \"Wear glasses.\");"));
        write("rules-off.txt", "# for now\n\n  Wear glasses  \n");

        PolicyOutcome outcome = decide();

        assertFalse(outcome.ruleNamesFired().contains("Wear glasses"));
        assertFalse(outcome.shopPolicyDiffers());
    }

    @Test
    void turningOffARuleThatHasNothingToSayMakesNoDifference() throws IOException {
        write("rules-off.txt", "Fuel stays under pressure\n");

        assertFalse(decide().shopPolicyDiffers());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\0',
            value = {
                "exists WatchedCode( circuitKnd == \"ntc\" )|conclude.shows(\"ntc\", 3, \"100 % as 3\");|own.drl line 8: rule \"Ours\": WatchedCode has no field \"circuitKnd\"; allowed are spn, fmi, circuitKind, device, supply, returnPath, phaseOrWhen",
                "exists WatchedCod( )|conclude.shows(\"ntc\", 3, \"100 % as 3\");|own.drl line 8: rule \"Ours\": \"WatchedCod\" is no fact; allowed are WatchedCode, PlaceFact and HarmFact, each with its import line at the top of the file",
                "exists WatchedCode( fmi == 3|conclude.shows(\"ntc\", 3, \"100 % as 3\");|own.drl line 9: this cannot be read as a rule: mismatched input 'then' in rule \"Ours\"",
                "exists WatchedCode( )|concude.shows(\"ntc\", 3, \"100 % as 3\");|own.drl line 5: rule \"Ours\": this cannot be read as a rule: concude cannot be resolved",
                "exists WatchedCode( )|conclude.shows(\"ntc\", 3, \"90 % as 3\");|own.drl line 5: rule \"Ours\": shares \"90 % as 3\" add up to 90.0 %; allowed is 100 %",
                "exists WatchedCode( )|conclude.shows(\"ntc\", 3, \"3\");|own.drl line 5: rule \"Ours\": shares \"3\" cannot be read; write them as \"95 % as 3, 5 % as 2\"",
                "exists WatchedCode( )|conclude.shows(\"coil\", 3, \"100 % as 3\");|own.drl line 5: rule \"Ours\": circuit kind \"coil\" is not known; allowed are ntc, ratiometric-pull-down, ratiometric-pull-up, hall, variable-reluctance, low-side, high-side, injector, bridge, node, supply, network, probe, position, power",
                "$a : WatchedCode( ) $b : WatchedCode( this != $a )|conclude.mask($a, $b, 3);|own.drl line 5: rule \"Ours\": strength is 3.0; allowed is over 0 and up to 1",
            })
    void aBadRuleIsToldWithFileLineAndWhat(String when, String then, String message) throws IOException {
        write("own.drl", HEAD + rule("Ours", when, then));

        assertProblem(message);
    }

    @Test
    void aBadConditionOnAPlaceIsTold() throws IOException {
        write("own.drl", HEAD + rule("Ours", "$p : PlaceFact( carries(\"coil\") )", "conclude.caution($p, \"x\");"));

        String message = assertThrows(PolicyProblem.class, this::decide).getMessage();

        assertTrue(
                message.startsWith(
                        "own.drl line 8: a condition cannot be checked: circuit kind \"coil\" is not known;"),
                message);
    }

    @Test
    void aRuleWithoutReasonIsTold() throws IOException {
        write("own.drl", HEAD + "rule \"Ours\"\nwhen\nthen\nend\n");

        assertProblem("own.drl line 5: rule \"Ours\" gives no reason; add @Reason(\"...\") under its name");
    }

    @Test
    void twoRulesOfANameAreTold() throws IOException {
        write("a.drl", HEAD + rule("Ours", "eval(false)", ""));
        write("b.drl", HEAD + rule("Ours", "eval(false)", ""));

        assertProblem("b.drl line 5: rule \"Ours\" is already in a.drl line 5; allowed is one rule of a name");
    }

    @Test
    void twoRulesForOneReadingAreTold() throws IOException {
        write(
                "own.drl",
                HEAD
                        + rule("One", "exists WatchedCode( )", "conclude.shows(\"ntc\", 3, \"100 % as 3\");")
                        + rule("Two", "exists WatchedCode( )", "conclude.shows(\"ntc\", 3, \"100 % as 2\");"));

        assertProblem("own.drl line 5: rule \"One\": how \"ntc\" condition 3 is shown is said twice (by One and Two);"
                + " allowed is one rule that says it once");
    }

    @Test
    void anUnknownNameToTurnOffIsTold() throws IOException {
        write("rules-off.txt", "# off\nFuel stays under presure\n");

        assertProblem("rules-off.txt line 2: no rule is named \"Fuel stays under presure\";"
                + " the nearest is \"Fuel stays under pressure\"");
    }

    @Test
    void aStrangePackageIsTold() throws IOException {
        write("own.drl", "package ours\n");

        assertProblem(
                "own.drl line 1: package is \"ours\"; allowed are"
                        + " \"package loomcase.rules.codes\", \"package loomcase.rules.remedy\", \"package loomcase.rules.claim\"");
    }

    @Test
    void anEmptyFolderIsTold() {
        assertProblem(
                folder + ": no .drl file and no rule name in rules-off.txt; put one there or leave the option out");
    }

    @Test
    void aMissingFolderIsTold() {
        Path missing = folder.resolve("none");

        PolicyProblem problem = assertThrows(PolicyProblem.class, () -> Policy.withShopRules(missing));

        assertEquals(missing + ": this is no folder; allowed is a folder with .drl files", problem.getMessage());
    }

    private void assertProblem(String message) {
        assertEquals(message, assertThrows(PolicyProblem.class, this::decide).getMessage());
    }
}
