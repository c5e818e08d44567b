package loomcase.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ClaimRulesTest extends ExamplesTest {
    @Override
    Family family() {
        return Family.CLAIM;
    }

    /**
     * A whole claim of an invented case. Journal: 1 opened, 2 codes, 3 cover opened, 4 ohms, 6 repaired, 8 cleared, 9 ohms,
     * 10 cover closed, 11 codes.
     */
    @Override
    Facts neutral() {
        Map<String, Record> in = new LinkedHashMap<>();
        in.put(
                "claim",
                new ClaimCase(
                        "unit 7",
                        "L-0007",
                        "2024-05-01",
                        "8120 h",
                        "loses power uphill, lamp on",
                        1,
                        "signal wire to ground, 38 ohm at clip 3",
                        "B1",
                        "cut out 40 mm, spliced, sealed",
                        "rub",
                        "splice-repair",
                        "",
                        "",
                        "one wire chafed",
                        "splice-repair",
                        "",
                        "",
                        true,
                        "A. Tester",
                        130,
                        true));
        in.put("codesBefore", new ClaimCodes("before", 2, 1, 0, true, true));
        in.put("codesAfter", new ClaimCodes("after", 11, 0, 0, true, true));
        in.put("ohmsBefore", reading("before", 4, "out"));
        in.put("ohmsAfter", reading("after", 9, "in"));
        in.put("work", new ClaimWork("repaired", 6, "B1"));
        in.put("cleared", new ClaimWork("cleared-codes", 8, ""));
        in.put("overview", new ClaimPhoto("1.jpg", "overview", "B1", "aa"));
        in.put("closeUp", new ClaimPhoto("2.jpg", "close-up", "B1", "bb"));
        in.put("repairPhoto", new ClaimPhoto("3.jpg", "repair", "B1", "cc"));
        in.put("part", new ClaimPart("signal wire", "W-1", 0.1, "causal", "wire", "clip 3", true));
        in.put("diagnosis", new ClaimLabour("diagnosis", "diagnosis", "", 60, true, true));
        in.put("repair", new ClaimLabour("repair", "repair", "", 40, false, false));
        in.put("access", new ClaimLabour("cover off", "access", "cover", 20, false, false));
        in.put("cover", new ClaimAccess("cover", "engine cover", 3, 10));
        in.put("approval", new ClaimApproval("overtime", "A-1", "2026-02-01", "desk"));
        return new Facts(
                in,
                Map.of(
                        "part2", new ClaimPart("clip", "K-1", 1, "used", "other", "", false),
                        "access2", new ClaimLabour("cover off again", "access", "cover", 0, false, false)));
    }

    private static ClaimReading reading(String stage, int line, String judged) {
        return new ClaimReading(
                "ohms C1/1 to chassis", stage, line, "ohms", "38 ohm", "over 1 Mohm", judged, "meter 1", true, true);
    }

    @Override
    List<Said> ask(Policy policy, Facts facts) {
        return outcome(policy, facts).gaps().stream()
                .map(gap -> new Said(gap.rule(), gap.severity() + " " + gap.field(), gap.text(), gap.source()))
                .toList();
    }

    static ClaimOutcome outcome(Policy policy, Facts facts) {
        return policy.claim(new ClaimFacts(
                facts.of(ClaimCase.class).get(0),
                facts.of(ClaimCodes.class),
                facts.of(ClaimReading.class),
                facts.of(ClaimWork.class),
                facts.of(ClaimPhoto.class),
                facts.of(ClaimPart.class),
                facts.of(ClaimLabour.class),
                facts.of(ClaimAccess.class),
                facts.of(ClaimApproval.class)));
    }

    @Test
    void aWholeClaimCanBeSentAndAGapMayKeepItBack() {
        Policy rules = Policy.builtIn();

        assertTrue(outcome(rules, neutral()).canBeSent());
        assertTrue(outcome(rules, neutral().with("claim.damageCause=-")).canBeSent());
        assertFalse(outcome(rules, neutral().with("claim.cause=-")).canBeSent());
    }

    @Test
    void gapsComeWorstFirstAndThenInReadingOrder() {
        List<String> said = ask(
                        Policy.builtIn(),
                        neutral().with("drop:overview claim.damageCause=- drop:repair claim.serial=- drop:codesAfter"))
                .stream()
                .map(Said::says)
                .toList();

        assertEquals(
                List.of(
                        "BLOCKS machine",
                        "BLOCKS codes-after",
                        "BLOCKS labour",
                        "QUESTIONED damage-cause",
                        "NICE photos"),
                said);
    }

    @Test
    void wordsThatAreNotListedAreRefused() {
        assertEquals(
                "shows is \"selfie\"; allowed are overview, close-up, cavities, repair, tag",
                assertThrows(IllegalArgumentException.class, () -> new ClaimPhoto("1.jpg", "selfie", "", ""))
                        .getMessage());
    }
}
