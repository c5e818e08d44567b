package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import loomcase.policy.RemedyFact;
import loomcase.policy.RemedyRuling;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** When faults that are known call for the whole harness: by money worked by hand, and by the built-in rules. */
class HarnessNeedTest {
    private static final boolean[] ALL = {true, true, true};

    /** Weights of the faults that are there: the wire, or the sensor too. */
    private static final double[] WIRE = {1};

    private static final double[] BOTH = {1, 1};

    /**
     * <pre>
     * E(splice | wire)  = 652.9 where it cures with 0.9 ({@link HindsightTest}); E(harness | wire) = 1900
     * E(splice | wire)  = 60 + 150 + 1900 = 2110 where it never holds
     * </pre>
     */
    @Test
    void aFaultThatOnlyAHarnessMendsNeedsOne() {
        assertFalse(HarnessNeed.of(HindsightTest.stakes(0.9, WIRE), ALL, HindsightTest.HARNESS));
        assertFalse(HarnessNeed.of(HindsightTest.stakes(0.9, BOTH), ALL, HindsightTest.HARNESS));
        assertTrue(HarnessNeed.of(HindsightTest.stakes(0, WIRE), ALL, HindsightTest.HARNESS));
        assertTrue(HarnessNeed.of(HindsightTest.stakes(0, BOTH), ALL, HindsightTest.HARNESS));
    }

    @Test
    void whatMayNotBeDoneIsNoWayRoundTheHarness() {
        assertTrue(HarnessNeed.of(
                HindsightTest.stakes(0.9, WIRE), new boolean[] {false, true, true}, HindsightTest.HARNESS));
        assertFalse(HarnessNeed.of(
                HindsightTest.stakes(0.9, BOTH), new boolean[] {true, false, true}, HindsightTest.HARNESS));
    }

    private static HarnessNeed need(Rulings.Rules rules, String truth) {
        Situation nothingSeen = Situation.codesOnly(Posteriors.ranking("device.failed@device:ECT=0.9"));
        List<Ranking.Member> known = Posteriors.ranking(truth).suspects().stream()
                .flatMap(s -> s.members().stream())
                .toList();
        return Posteriors.maker(Posteriors.LARCH, rules).harnessNeed(nothingSeen, known);
    }

    /** The rules of repair-branch.drl and repair-plugs.drl; branch BM1 of larch-13 is in no section, BE1 in one. */
    @ParameterizedTest
    @CsvSource({
        "common.rub-point.open, BM1, W038+W041+W138, NONE",
        "common.rub-point.open, BM1, W038+W041+W138+W187, RULES",
        "common.rub-point.open, BE1, W138+W187+W038+W041, NONE",
        "common.hot-spot, BM1, W038+W041, RULES",
        "common.hot-spot, BE1, W138+W187, NONE",
        "common.crushed-clip, BM1, W038+W041, NONE"
    })
    void rulesMayLeaveNothingSmaller(String family, String branch, String hurt, HarnessNeed expected) {
        String truth = family + "@branch:" + branch + "*" + hurt + "=1";
        assertEquals(expected, need(Posteriors.RULES, truth));
        assertEquals(HarnessNeed.NONE, need(Posteriors.LAWLESS, truth));
        assertEquals(expected, need(Posteriors.RULES, truth + ";device.failed@device:ECT=1"));
    }

    /** Forbids everything smaller than the harness. */
    private static Rulings nothingSmaller(List<RemedyFact> remedies) {
        return new Rulings(
                remedies.stream()
                        .filter(r -> !r.option().equals("full-harness"))
                        .map(r -> new RemedyRuling(r.id(), RemedyRuling.Effect.FORBID, "no", "none", "none"))
                        .toList(),
                false);
    }

    /** What the harness does not mend never calls for one, whatever is allowed. */
    @ParameterizedTest
    @CsvSource({"device.failed@device:ECT", "condition.engine@engine:hot", "fuse.open@fuse:F1"})
    void whatIsOutsideTheHarnessNeedsNone(String fault) {
        assertEquals(HarnessNeed.NONE, need((evidence, remedies) -> nothingSmaller(remedies), fault + "=1"));
        assertEquals(
                HarnessNeed.RULES, need((evidence, remedies) -> nothingSmaller(remedies), "wire.open@wire:W038=1"));
    }

    /** A rule that asks for readings, or that somebody knows where the fault is, has nothing against what is known. */
    @Test
    void evidenceIsComplete() {
        Rulings.Rules cautious = (evidence, remedies) ->
                evidence.readings() < 5 || evidence.topPlace() < 0.9 || evidence.unexplained() > 0
                        ? nothingSmaller(remedies)
                        : Rulings.NONE;
        assertEquals(HarnessNeed.NONE, need(cautious, "wire.open@wire:W038=1"));
    }
}
