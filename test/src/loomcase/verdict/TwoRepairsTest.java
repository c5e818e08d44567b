package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashSet;
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

    /** Faults that are there, written as {@link Posteriors#ranking} takes them. */
    private static List<Ranking.Member> faults(String there) {
        return Posteriors.ranking(there).suspects().stream()
                .flatMap(s -> s.members().stream())
                .toList();
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
        List<Ranking.Member> truth =
                faults("contact.backed-out@cavity:C1/1=0.5;device.ratiometric.fixed@device:OPS=0.5");
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

    private static final String HOT = "condition.engine@engine:overheat=1";

    private static Situation hotAndLoose(String condition) {
        return Posteriors.situation(
                Posteriors.twoFaults(0.97, condition, "contact.backed-out@cavity:C1/2=1", PLUG_ALONE + 0.002), "", "");
    }

    /**
     * An engine truly too hot, and a terminal backed out: the plug is seated and the engine seen to in one visit, at the price
     * of the plug, for what the engine needs is no work on the harness (common practice, no source).
     */
    @Test
    void aTrueConditionIsSeenToBesideARepair() {
        Verdict v = decide(hotAndLoose(HOT), Posteriors.LAWLESS);
        Verdict.Weighed leading = v.leading().orElseThrow();
        Verdict.Weighed plug = of(v, "reseat C1");
        assertEquals("reseat", v.option(), v.reasons().toString());
        assertEquals("reseat C1 + engine overheat", leading.remedy().id());
        assertEquals(plug.remedy().place(), leading.remedy().place());
        assertTrue(
                leading.remedy()
                        .words()
                        .startsWith(plug.remedy().words() + "; and see to the engine: " + HOT
                                + "; show first with a gauge"),
                leading.remedy().words());
        assertEquals(plug.cost().now(), leading.cost().now(), 1e-9);
        assertTrue(leading.cost().total() < plug.cost().total(), leading + " against " + plug);
        assertTrue(leading.mends() && !plug.mends(), leading.cures() + " against " + plug.cures());
    }

    /** A test that tells all from all is weighed with what follows each outcome; a dear one does not pay. */
    @Test
    void aTestIsWeighedBesideIt() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        Verdict cheap = maker.decide(hotAndLoose(HOT), List.of(Posteriors.test(0.001)), Posteriors.PERFECT);
        Verdict dear = maker.decide(hotAndLoose(HOT), List.of(Posteriors.test(600)), Posteriors.PERFECT);
        assertEquals(
                cheap.worth().orElseThrow().saving(), dear.worth().orElseThrow().saving(), 1e-9);
        assertEquals("reseat", dear.option(), dear.reasons().toString());
        assertEquals(
                "reseat C1 + engine overheat",
                dear.leading().orElseThrow().remedy().id());
    }

    /** What is said of the repair is said of it with the engine seen to; what is said of leaving all alone is not. */
    @Test
    void rulesSpeakOfTheRepairBesideWhichTheEngineIsSeenTo() {
        Rulings.Rules rules = (evidence, remedies) -> new Rulings(
                List.of(
                        new RemedyRuling("reseat C1", RemedyRuling.Effect.APPROVAL, "ask", "plug", "test"),
                        new RemedyRuling("monitor", RemedyRuling.Effect.FORBID, "never", "wait", "test")),
                false);
        Verdict.Weighed both = of(decide(hotAndLoose(HOT), rules), "reseat C1 + engine overheat");
        assertFalse(both.forbidden());
        assertEquals(
                List.of("plug"), both.rulings().stream().map(RemedyRuling::rule).toList());
    }

    @Test
    void inHindsightTheRepairAndTheEngineMendBoth() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        List<Ranking.Member> truth = faults("condition.engine@engine:overheat=0.5;contact.backed-out@cavity:C1/2=0.5");
        Hindsight h = maker.hindsight(hotAndLoose(HOT), truth);
        Verdict v = decide(hotAndLoose(HOT), Posteriors.LAWLESS);
        assertArrayEquals(new boolean[] {true, true}, h.cured(v.leading().map(Verdict.Weighed::remedy)));
        assertArrayEquals(
                new boolean[] {false, true},
                h.cured(Optional.of(of(v, "reseat C1").remedy())));
    }

    /** The same condition stands in two pairs, and one plug mends the other fault of either: one way, weighed once. */
    @Test
    void whatIsDoneForTwoPairsIsWeighedOnce() {
        Ranking one = Posteriors.twoFaults(0.5, HOT, "contact.backed-out@cavity:C1/2=1", PLUG_ALONE + 0.002);
        Ranking other = Posteriors.twoFaults(0.4, HOT, "contact.backed-out@cavity:C1/1=1", PLUG_ALONE + 0.002);
        List<Ranking.Suspect> both = new ArrayList<>(one.suspects());
        Ranking.Suspect s = other.suspects().get(0);
        both.add(new Ranking.Suspect(
                3,
                s.probability(),
                s.places(),
                s.words(),
                s.members(),
                s.explains(),
                s.leaves(),
                s.predictsButAbsent(),
                s.evidence(),
                s.tests(),
                s.second()));
        Ranking all = new Ranking(one.codes(), both, one.rollup(), 0, 0.098, 0, List.of(), both.size());
        List<String> ids = decide(Posteriors.situation(all, "", ""), Posteriors.LAWLESS).options().stream()
                .map(w -> w.remedy().id())
                .toList();
        assertEquals(List.copyOf(new LinkedHashSet<>(ids)), ids);
        assertTrue(ids.contains("reseat C1 + engine overheat"), ids.toString());
    }

    /** Two conditions of the engine at once are no work on the harness. */
    @Test
    void twoConditionsLeaveTheWiringAlone() {
        Situation s = Posteriors.situation(
                Posteriors.twoFaults(
                        0.97, HOT, "condition.engine@engine:oil=1", "condition.engine@engine:overheat=0.002"),
                "",
                "");
        assertEquals("monitor", decide(s, Posteriors.LAWLESS).option());
    }

    /**
     * Where no repair mends both and it is open whether the engine is to blame, nobody is sent to ask for leave, for no rule
     * forbids any; one fault is seen to, then codes are read again (common practice, no source).
     */
    @Test
    void whereNothingMendsBothOneIsSeenToFirst() {
        Verdict v = decide(
                hotAndLoose("condition.engine@engine:overheat=0.4;something.else@engine:other=0.6"),
                Posteriors.LAWLESS);
        assertEquals(Verdict.NOT_ENOUGH, v.option(), v.reasons().toString());
        assertTrue(
                v.reasons().get(0).startsWith("no repair mends by itself"),
                v.reasons().toString());
        assertEquals(
                "Full replacement is not justified: it mends nothing here.",
                v.replacement().words());
    }
}
