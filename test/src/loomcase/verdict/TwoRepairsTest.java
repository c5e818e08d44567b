package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.policy.RemedyRuling;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;

/** Whole verdicts on the teaching harness where two faults at once are suspected. */
class TwoRepairsTest {
    private static final String PLUG = "contact.backed-out@cavity:C1/1=1";
    private static final String SENSOR = "device.ratiometric.fixed@device:OPS=1";
    private static final String PLUG_ALONE = "contact.backed-out@cavity:C1/1=";
    private static final String BOTH = "reseat C1 + device OPS";

    /** What is left is the plug alone, but for 0.01. */
    private static Situation suspected(double atOnce) {
        return Posteriors.situation(Posteriors.twoFaults(atOnce, PLUG, SENSOR, PLUG_ALONE + (0.99 - atOnce)), "", "");
    }

    private static Verdict decide(Situation s, Rulings.Rules rules) {
        return Posteriors.maker(Posteriors.TEACHING, rules).decide(s, List.of(), TestWorth.NONE);
    }

    private static Verdict.Weighed of(Verdict v, String id) {
        return v.options().stream()
                .filter(w -> w.remedy().id().equals(id))
                .findFirst()
                .orElseThrow(() -> new AssertionError("no " + id + " among "
                        + v.options().stream().map(w -> w.remedy().id()).toList()));
    }

    @Test
    void bothAreRepairedWhereBothAreLikely() {
        Verdict v = decide(suspected(0.9), Posteriors.RULES);
        assertEquals(Remedy.TWO, v.option());
        Remedy r = v.leading().orElseThrow().remedy();
        assertEquals(BOTH, r.id());
        assertEquals(List.of(Posteriors.place("connector:C1"), Posteriors.place("device:OPS")), r.places());
        assertFalse(v.replacement().justified());
        assertEquals(
                v.option(),
                Posteriors.maker(Posteriors.TEACHING, Posteriors.RULES)
                        .choose(suspected(0.9), List.of(), TestWorth.NONE)
                        .option());
    }

    @Test
    void oneRepairIsEnoughWhereTheSecondFaultIsNotLikely() {
        Verdict v = decide(suspected(0.06), Posteriors.RULES);
        assertEquals("reseat C1", v.leading().orElseThrow().remedy().id());
        assertTrue(of(v, BOTH).cost().total() > v.leading().orElseThrow().cost().total());
    }

    /** A cut branch that a section replaces and a sensor outside it: no harness, which would leave the sensor as it is. */
    @Test
    void aSectionIsJoinedWithAPartOutsideIt() {
        Situation s = Posteriors.situation(
                Posteriors.twoFaults(
                        0.99,
                        "common.branch-cut@branch:B2*W5+W8+W11+W12+W14=1",
                        "device.ratiometric.fixed@device:MAP=1",
                        "device.ratiometric.fixed@device:MAP=0.005"),
                "cut@branch:B2",
                "");
        Verdict v = decide(s, Posteriors.RULES);
        assertEquals(
                "branch-section front + device MAP",
                v.leading().orElseThrow().remedy().id());
        Verdict.Weighed section = of(v, "branch-section front");
        Verdict.Weighed sensor = of(v, "device MAP");
        Verdict.Weighed both = v.leading().orElseThrow();
        assertEquals(sensor.accessMinutes(), both.accessMinutes(), 1e-9, "a section's minutes hold its access");
        RepairCosts.Figures f = RepairCosts.builtIn().means();
        assertEquals(
                section.workMinutes()
                        + sensor.workMinutes()
                        - (1 - f.get("share.second-check")) * f.get("minutes.check"),
                both.workMinutes(),
                1e-9);
    }

    @Test
    void anImprobablePairIsNotWeighedAtAll() {
        Verdict v = decide(suspected(Joining.WORTH_BOTH - 0.01), Posteriors.RULES);
        assertTrue(v.options().stream().allMatch(w -> w.remedy().halves().isEmpty()));
    }

    /** The fan guard stands before C1 and before OPS alike: its minutes are paid once, and one run checks both. */
    @Test
    void accessIsSharedAndTheRunIsMadeOnce() {
        Verdict v = decide(suspected(0.9), Posteriors.RULES);
        Verdict.Weighed plug = of(v, "reseat C1");
        Verdict.Weighed sensor = of(v, "device OPS");
        Verdict.Weighed both = of(v, BOTH);
        Set<String> steps = new java.util.TreeSet<>(plug.remedy().access());
        assertTrue(sensor.remedy().access().stream().anyMatch(steps::contains), "a step in common");
        steps.addAll(sensor.remedy().access());
        double minutes = steps.stream()
                .mapToDouble(s -> Posteriors.TEACHING.access().get(s).minutes())
                .sum();
        assertEquals(minutes, both.accessMinutes(), 1e-9);
        assertTrue(both.accessMinutes() < plug.accessMinutes() + sensor.accessMinutes());
        RepairCosts.Figures f = RepairCosts.builtIn().means();
        assertEquals(
                plug.workMinutes() + sensor.workMinutes() - (1 - f.get("share.second-check")) * f.get("minutes.check"),
                both.workMinutes(),
                1e-9);
        assertEquals(plug.cost().parts() + sensor.cost().parts(), both.cost().parts(), 1e-9);
    }

    /** Both at once 0.9, the plug alone 0.09: each cured by its own rate of success. */
    @Test
    void bothAreCuredWithTheProductOfTheirRates() {
        RepairCosts.Figures f = RepairCosts.builtIn().means();
        double plug = f.get("fix.reseat.seat");
        double sensor = f.get("fix.device.device");
        assertEquals(
                0.9 * plug * sensor + 0.09 * plug,
                of(decide(suspected(0.9), Posteriors.RULES), BOTH).cures(),
                1e-9);
    }

    @Test
    void whatARuleForbidsOfOneHalfItForbidsOfBoth() {
        Rulings.Rules no = (evidence, remedies) -> new Rulings(
                List.of(
                        new RemedyRuling("device OPS", RemedyRuling.Effect.FORBID, "must not", "rule", "test"),
                        new RemedyRuling("reseat C1", RemedyRuling.Effect.CAUTION, "mind it", "other", "test")),
                false);
        Verdict v = decide(suspected(0.9), no);
        Verdict.Weighed both = of(v, BOTH);
        assertTrue(both.forbidden());
        assertEquals(List.of("must not"), both.said(RemedyRuling.Effect.FORBID));
        assertEquals(List.of("mind it"), both.said(RemedyRuling.Effect.CAUTION));
        assertFalse(v.leading().orElseThrow().remedy().singles().stream().anyMatch(r -> r.id().equals("device OPS")));
    }

    @Test
    void whatOneRuleRequiresAndAnotherForbidsOfTheHalvesIsNoContradiction() {
        Rulings.Rules rules = (evidence, remedies) -> new Rulings(
                List.of(
                        new RemedyRuling("device OPS", RemedyRuling.Effect.FORBID, "must not", "rule", "test"),
                        new RemedyRuling("reseat C1", RemedyRuling.Effect.REQUIRE, "must", "other", "test")),
                false);
        assertEquals(List.of(), decide(suspected(0.9), rules).conflicts());
    }

    /** With the truth known to be both, repairing both mends all at once and costs less than one now and one later. */
    @Test
    void inHindsightBothRepairsMendBothFaults() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        List<Ranking.Member> truth = Posteriors.ranking(
                        "contact.backed-out@cavity:C1/1=0.5;" + "device.ratiometric.fixed@device:OPS=0.5")
                .suspects()
                .stream()
                .flatMap(s -> s.members().stream())
                .toList();
        Hindsight h = maker.hindsight(suspected(0.9), truth);
        Verdict v = decide(suspected(0.9), Posteriors.LAWLESS);
        Remedy together = of(v, BOTH).remedy();
        Remedy alone = of(v, "reseat C1").remedy();
        assertArrayEquals(new boolean[] {true, true}, h.cured(Optional.of(together)));
        assertArrayEquals(new boolean[] {true, false}, h.cured(Optional.of(alone)));
        Hindsight.Outcome both = h.of(together);
        Hindsight.Outcome one = h.of(alone).then(h.comeback(new boolean[] {true, false}));
        assertTrue(both.money() < one.money(), both + " against " + one);
        assertTrue(both.minutes() < one.minutes(), both + " against " + one);
    }

    /**
     * An engine truly too hot, and a terminal backed out: no repair of the harness mends both, and no
     * rule forbids any. Nobody is sent to ask for leave; one is seen to, then codes are read again (common practice, no source).
     */
    @Test
    void aTrueConditionBesideAFaultIsSeenToFirst() {
        Situation s = Posteriors.situation(
                Posteriors.twoFaults(
                        0.97,
                        "condition.engine@engine:overheat=1",
                        "contact.backed-out@cavity:C1/2=1",
                        PLUG_ALONE + 0.002),
                "",
                "");
        Verdict v = decide(s, Posteriors.LAWLESS);
        assertEquals(Verdict.NOT_ENOUGH, v.option(), v.reasons().toString());
        assertTrue(
                v.reasons().get(0).startsWith("no repair mends by itself"),
                v.reasons().toString());
        assertEquals(
                "Full replacement is not justified: it mends nothing here.",
                v.replacement().words());
    }
}
