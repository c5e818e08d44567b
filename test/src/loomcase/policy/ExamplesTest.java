package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What holds for every family whose rules have worked examples. */
abstract class ExamplesTest {
    private static final Policy BUILT_IN = Policy.builtIn();

    /** One conclusion, as far as examples name it. */
    record Said(String rule, String says, String text, String source) {}

    abstract Family family();

    /** The facts that every example starts from; no rule speaks of them. */
    abstract Facts neutral();

    /** What the rules of the family say of some facts. */
    abstract List<Said> ask(Policy policy, Facts facts);

    @Test
    void everyRuleHasAnExample() {
        TreeSet<String> without = new TreeSet<>(Policy.builtInRuleNames(family()));
        examples().forEach(example -> without.remove(example.rule()));
        assertEquals(new TreeSet<>(), without, "rules without an example");
    }

    @Test
    void noRuleSpeaksOfNeutralFacts() {
        assertEquals(List.of(), ask(BUILT_IN, neutral()));
    }

    List<RuleExample> examples() {
        return RuleExample.read(family().word() + "-examples.csv");
    }

    @ParameterizedTest
    @MethodSource("examples")
    void speaksInItsExampleAndNotWhenItNearlyFits(RuleExample example) {
        Facts facts = neutral().with(example.facts());

        assertEquals(List.of(example.says()), says(BUILT_IN, facts, example.rule()));
        assertEquals(
                List.of(),
                says(
                        BUILT_IN,
                        example.nearMiss().isEmpty() ? neutral() : facts.with(example.nearMiss()),
                        example.rule()));
    }

    @ParameterizedTest
    @MethodSource("examples")
    void isMissedWhenTurnedOff(RuleExample example, @TempDir Path folder) throws IOException {
        Files.writeString(folder.resolve("rules-off.txt"), example.rule() + "\n");
        Facts facts = neutral().with(example.facts());

        List<Said> without = ask(Policy.withShopRules(folder), facts);

        List<Said> others = ask(BUILT_IN, facts).stream()
                .filter(said -> !said.rule().equals(example.rule()))
                .collect(Collectors.toList());
        assertEquals(others, without, "only the rule turned off is missing");
        assertFalse(says(BUILT_IN, facts, example.rule()).isEmpty());
    }

    @ParameterizedTest
    @MethodSource("examples")
    void saysWhyAndOnWhoseWord(RuleExample example) {
        for (Said said : ask(BUILT_IN, neutral().with(example.facts()))) {
            assertFalse(said.source().equals("shop rule"), said.rule() + " has no source");
            assertTrue(said.text().endsWith("."), said.rule() + " says no sentence: " + said.text());
        }
    }

    private List<String> says(Policy policy, Facts facts, String rule) {
        return ask(policy, facts).stream()
                .filter(said -> said.rule().equals(rule))
                .map(Said::says)
                .distinct()
                .collect(Collectors.toList());
    }
}
