package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import loomcase.model.Finding;
import loomcase.policy.RemedyRuling.Effect;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class RemedyRulesTest extends ExamplesTest {
    private static final double FAR = Double.POSITIVE_INFINITY;

    /** A section of a quiet, clean branch that carries a temperature sensor. */
    static RemedyFact remedy(String id, String option) {
        return new RemedyFact(
                id,
                option,
                "branch",
                "B1",
                0.5,
                1,
                0,
                0,
                0,
                FAR,
                FAR,
                List.of("ntc"),
                false,
                false,
                false,
                true,
                false,
                false,
                false,
                60,
                false,
                0,
                List.of());
    }

    @Override
    Family family() {
        return Family.REMEDY;
    }

    @Override
    Facts neutral() {
        return new Facts(
                Map.of(
                        "evidence",
                        new EvidenceFact(3, 2, 1, 0.6, 0.7, 0.05),
                        "remedy",
                        remedy("remedy", "branch-section")),
                Map.of(
                        "section", remedy("section", "branch-section"),
                        "other", remedy("other", "device")));
    }

    @Override
    List<Said> ask(Policy policy, Facts facts) {
        return outcome(policy, facts).rulings().stream()
                .filter(ruling -> ruling.remedy().equals("remedy"))
                .map(ruling -> new Said(ruling.rule(), ruling.effect().name(), ruling.text(), ruling.source()))
                .toList();
    }

    private static RemedyOutcome outcome(Policy policy, Facts facts) {
        return policy.remedies(facts.of(EvidenceFact.class).get(0), facts.of(RemedyFact.class));
    }

    /** A melted branch must be replaced, and its section would be spliced into boosted wires: both stand. */
    @Test
    void rulesThatDisagreeAreBothShown() {
        RemedyOutcome outcome = outcome(
                Policy.builtIn(),
                neutral().with("remedy.findings=melted remedy.boosted=true remedy.newSplices=1 remedy.splicesAfter=1"));

        assertTrue(outcome.forbidden("remedy"));
        assertTrue(outcome.required("remedy"));
        assertEquals(1, outcome.conflicts().size());
        RemedyOutcome.Conflict conflict = outcome.conflicts().get(0);
        assertEquals("remedy", conflict.remedy());
        assertEquals(
                List.of("No splice in a wire with boosted voltage"),
                conflict.forbids().stream().map(RemedyRuling::rule).toList());
        assertEquals(
                List.of("A melted branch calls for a section"),
                conflict.requires().stream().map(RemedyRuling::rule).toList());
        assertFalse(outcome.shopPolicyDiffers());
    }

    @Test
    void rulingsCarryTheFiguresOfTheCase() {
        RemedyOutcome outcome = outcome(
                Policy.builtIn(),
                neutral()
                        .with("remedy.option=splice-repair remedy.newSplices=1 remedy.splicesAfter=1"
                                + " remedy.metresToTermination=0.025"));

        assertEquals(
                List.of("A splice 25 mm from a plug, clip or branching; allowed is 40 mm or more."),
                outcome.rulings("remedy", Effect.FORBID).stream()
                        .map(RemedyRuling::text)
                        .toList());
    }

    @Test
    void orderOfTheRemediesDoesNotMatter() {
        RemedyFact splice = remedy("a", "overlay-wire");
        RemedyFact harness = remedy("b", "full-harness");
        EvidenceFact codes = new EvidenceFact(0, 0, 0, 0.5, 0.9, 0.1);

        assertEquals(
                Policy.builtIn().remedies(codes, List.of(splice, harness)),
                Policy.builtIn().remedies(codes, List.of(harness, splice)));
    }

    @Test
    void findingsAreTheWordsOfTheJournal() {
        assertEquals(Arrays.stream(Finding.values()).map(Finding::word).toList(), RemedyFact.FINDINGS);
        RemedyFact remedy = remedy("remedy", "reseat");
        String message = assertThrows(IllegalArgumentException.class, () -> remedy.found("meltd"))
                .getMessage();
        assertTrue(message.startsWith("finding is \"meltd\"; allowed are clean, chafe,"), message);
    }
}
