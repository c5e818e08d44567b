package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import loomcase.faults.WorkDone;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;
import loomcase.policy.RemedyRuling;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;
import loomcase.translate.Translator;
import org.apache.commons.math3.distribution.TriangularDistribution;
import org.junit.jupiter.api.Test;

/** Whole verdicts on the teaching harness: intervals, break-evens, tests first, rules, order of things. */
class VerdictTest {
    private static final Ranking TWO_WIRES =
            Posteriors.ranking("common.rub-point.open@branch:B1*W11+W13=0.9;device.ntc.open@device:ECT=0.08");

    private static Situation chafed() {
        return Posteriors.situation(TWO_WIRES, "chafe@branch:B1/0.7", "");
    }

    private static Verdict decide(Situation s, Rulings.Rules rules) {
        return Posteriors.maker(Posteriors.TEACHING, rules).decide(s, List.of(), TestWorth.NONE);
    }

    private static VerdictMaker maker(RepairCosts costs, Rates rates) {
        return new VerdictMaker(Posteriors.TEACHING, new Layout(Posteriors.TEACHING), costs, rates, Posteriors.LAWLESS);
    }

    /** All figures certain but one. */
    private static RepairCosts certainBut(String key) {
        Map<String, RepairCosts.Range> out = new LinkedHashMap<>();
        RepairCosts.builtIn().ranges().forEach((k, r) -> {
            double m = k.equals("posterior.spread") ? 1 : r.mean();
            out.put(k, k.equals(key) ? r : new RepairCosts.Range(m, m, m));
        });
        return new RepairCosts(out);
    }

    /**
     * With one uncertain figure in which the cost is linear, the quantiles of the cost are the cost at the triangle's
     * quantiles (oracle: the closed quantile of Commons Math's triangular distribution).
     */
    @Test
    void theSampledIntervalIsTheAnalyticOne() {
        RepairCosts costs = certainBut("minutes.device");
        Situation s = Posteriors.situation(Posteriors.ranking("device.ntc.open@device:ECT=0.95"), "", "");
        Rates rates = VerdictMaker.rates(Posteriors.TEACHING);
        Verdict.Weighed device = Posteriors.of(maker(costs, rates).decide(s, List.of(), TestWorth.NONE), "device")
                .orElseThrow();
        RepairCosts.Range r = costs.ranges().get("minutes.device");
        TriangularDistribution t = new TriangularDistribution(r.low(), r.likely(), r.high());
        for (double q : List.of(0.05, 0.95)) {
            double minutes = t.inverseCumulativeProbability(q);
            RepairCosts at = costs.with("minutes.device", new RepairCosts.Range(minutes, minutes, minutes));
            double exact = Posteriors.of(maker(at, rates).decide(s, List.of(), TestWorth.NONE), "device")
                    .orElseThrow()
                    .cost()
                    .total();
            // standard error of a 5 % quantile of 1000 draws is under 2 % of the width of the triangle
            double width = (r.high() - r.low()) / 60 * rates.labourPerHour();
            assertEquals(exact, q < 0.5 ? device.low() : device.high(), 0.06 * width, "quantile " + q);
        }
    }

    /** Two places of unlike work, so that the labour rate matters. */
    private static Situation spread() {
        return Posteriors.situation(
                Posteriors.ranking(
                        "contact.open@cavity:C1/1=0.30;wire.open@wire:W11=0.20;device.ntc.open@device:ECT=0.45"),
                "",
                "");
    }

    @Test
    void everyBreakEvenHoldsWhenRecomputedOnBothSides() {
        List<String> flipped = new ArrayList<>();
        for (Situation situation : List.of(chafed(), spread())) {
            VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
            Weighing.Question q = maker.question(situation);
            Weighing weighing = maker.weighing(situation);
            BreakEvens evens = new BreakEvens(weighing, q);
            int answer = evens.answer(q, OptionalInt.empty());
            for (BreakEven b : evens.all(answer)) {
                if (b.at().isEmpty()) continue;
                double x = b.at().getAsDouble();
                flipped.add(b.quantity().word());
                assertTrue(x >= b.low() && x <= b.high(), b.toString());
                switch (b.quantity()) {
                    case CIRCUITS -> {
                        int step = x > b.now() ? -1 : 1;
                        assertEquals(answer, at(evens, q.withCircuits((int) x + step)), b.toString());
                        assertNotEquals(answer, at(evens, q.withCircuits((int) x)), b.toString());
                    }
                    case LABOUR_RATE -> {
                        double out = x > b.now() ? 1.0001 : 0.9999;
                        assertEquals(answer, at(evens, q.with(new Rates(x / out, 0))), b.toString());
                        assertNotEquals(answer, at(evens, q.with(new Rates(x * out, 0))), b.toString());
                    }
                    case HIDDEN_DAMAGE -> {
                        boolean up = x > b.now();
                        double shift = 0;
                        while (at(evens, q.withHiddenShift(shift)) == answer) shift += up ? 1e-3 : -1e-3;
                        double exact = mean(weighing, q.withHiddenShift(shift), answer);
                        assertEquals(exact, x, 2e-3, b.toString());
                    }
                }
            }
        }
        assertTrue(flipped.containsAll(List.of("circuits", "labour-rate", "hidden-damage")), flipped.toString());
    }

    private static double mean(Weighing weighing, Weighing.Question q, int answer) {
        Stakes s = weighing.stakes(q, Rulings.NONE);
        Stakes.Act a = s.acts().get(BreakEvens.local(weighing, q.withHiddenShift(0), answer));
        double sum = 0;
        double cured = 0;
        for (int h = 0; h < s.weight().length; h++) {
            sum += s.weight()[h] * a.cures()[h] * a.hidden()[h];
            cured += s.weight()[h] * a.cures()[h];
        }
        return sum / cured;
    }

    private static int at(BreakEvens evens, Weighing.Question q) {
        return evens.answer(q, q.circuits());
    }

    @Test
    void theDamageBreakEvenIsWhereTwoRemediesCostTheSame() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        Weighing weighing = maker.weighing(chafed());
        Weighing.Question q = maker.question(chafed());
        double least = Double.POSITIVE_INFINITY;
        double last = Double.NEGATIVE_INFINITY;
        for (double shift = -1; shift <= 1.0001; shift += 0.1) {
            Stakes s = weighing.stakes(q.withHiddenShift(Math.min(1, shift)), Rulings.NONE);
            double margin = total(weighing, s, "splice-repair B1") - total(weighing, s, "full-harness teaching");
            assertTrue(margin >= last - 1e-9, "the smaller repair gains from damage at " + shift);
            last = margin;
            least = Math.min(least, margin);
        }
        assertTrue(last > least, "damage costs nothing");
    }

    private static double total(Weighing weighing, Stakes s, String remedy) {
        for (int i = 0; i < weighing.remedies().size(); i++)
            if (weighing.remedies().get(i).id().equals(remedy))
                return s.expected(i).total();
        throw new AssertionError("no remedy " + remedy);
    }

    @Test
    void moreDamagedCircuitsNeverMakeTheRepairMoreAttractive() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        Weighing weighing = maker.weighing(chafed());
        Weighing.Question q = maker.question(chafed());
        double last = Double.NEGATIVE_INFINITY;
        for (int n = 1; n <= 12; n++) {
            Stakes s = weighing.stakes(q.withCircuits(n), Rulings.NONE);
            double margin = total(weighing, s, "splice-repair B1") - total(weighing, s, "full-harness teaching");
            assertTrue(margin > last, n + " circuits");
            last = margin;
        }
    }

    @Test
    void aTestIsTakenFirstExactlyWhileItSavesMoreThanItCosts() {
        Ranking open = Posteriors.ranking("wire.open@wire:W11=0.5;device.ntc.open@device:ECT=0.45");
        Situation s = Posteriors.situation(open, "", "");
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.RULES);
        double saving = maker.decide(s, List.of(Posteriors.test(10)), Posteriors.PERFECT)
                .worth()
                .orElseThrow()
                .saving();
        double even = saving / VerdictMaker.rates(Posteriors.TEACHING).labourPerHour() * 60;
        assertTrue(even > 1, "a perfect test is worth something: " + even);
        Verdict before = maker.decide(s, List.of(Posteriors.test(even - 0.5)), Posteriors.PERFECT);
        Verdict after = maker.decide(s, List.of(Posteriors.test(even + 0.5)), Posteriors.PERFECT);
        assertEquals(Verdict.NOT_ENOUGH, before.option());
        assertFalse(before.settled());
        assertTrue(after.settled(), after.reasons().toString());
        assertEquals(
                before.leading().orElseThrow().remedy().id(),
                after.leading().orElseThrow().remedy().id());
    }

    /**
     * A battery cable from its fuse to the main relay is open. It may not be spliced but is to be replaced whole (a car maker's
     * workshop manual of 2006, as the rule about battery cables says); a fuse holds a wire by a terminal, so a new cable from
     * end to end has no splice, and nobody replaces the harness for it.
     */
    @Test
    void aBatteryCableIsReplacedWhole() {
        Verdict v = Posteriors.maker(Posteriors.LARCH, Posteriors.RULES)
                .decide(
                        Posteriors.situation(Posteriors.ranking("wire.open@wire:W020=0.99"), "", ""),
                        List.of(),
                        TestWorth.NONE);
        assertEquals("overlay-wire W020", v.leading().orElseThrow().remedy().id());
        assertFalse(v.replacement().justified());
    }

    /** A test that tells nothing stands first, as a gauge may; the second is worth its price, so it is told and taken first. */
    @Test
    void ofTheTestsProposedTheFirstThatPaysCounts() {
        Situation s = Posteriors.situation(
                Posteriors.ranking("wire.open@wire:W11=0.5;device.ntc.open@device:ECT=0.45"), "", "");
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.RULES);
        NextTest first = Posteriors.test(5);
        NextTest second = Posteriors.test(1);
        TestWorth.Prospects onlyTheSecond = (test, subjects, weights) ->
                test == second.test() ? Posteriors.PERFECT.chances(test, subjects, weights) : List.of();
        Verdict v = maker.decide(s, List.of(first, second), onlyTheSecond);
        assertEquals(Verdict.NOT_ENOUGH, v.option());
        assertEquals(Optional.of(second), v.next());
        String other =
                "the plan, which counts minutes, begins with another test, which is not worth its price by itself: ";
        assertTrue(
                v.reasons().contains(other + first.test().words()), v.reasons().toString());
        Verdict same = maker.decide(s, List.of(second, first), onlyTheSecond);
        assertFalse(
                same.reasons().stream().anyMatch(r -> r.startsWith("the plan")),
                same.reasons().toString());
        Verdict neither = maker.decide(s, List.of(first, Posteriors.test(2)), onlyTheSecond);
        assertTrue(neither.settled());
        assertEquals(Optional.of(first), neither.next());
        assertFalse(
                neither.reasons().stream().anyMatch(r -> r.startsWith("the plan")),
                neither.reasons().toString());
    }

    @Test
    void aTestThatTellsNothingApartIsWorthNothing() {
        Verdict v = Posteriors.maker(Posteriors.TEACHING, Posteriors.RULES)
                .decide(
                        chafed(),
                        List.of(Posteriors.test(5)),
                        (test, subjects, weights) -> List.of(
                                subjects.stream().map(x -> 0.4).toList(),
                                subjects.stream().map(x -> 0.6).toList()));
        assertEquals(0, v.worth().orElseThrow().saving(), 1e-6);
        assertTrue(v.settled());
    }

    @Test
    void theSameCaseGivesTheSameVerdict() {
        assertEquals(
                decide(chafed(), Posteriors.RULES).toString(),
                decide(chafed(), Posteriors.RULES).toString());
    }

    @Test
    void aRequiredRemedyThatIsForbiddenIsPutToSomebody() {
        Rulings.Rules both = (evidence, remedies) -> new Rulings(
                List.of(
                        new RemedyRuling("splice-repair B1", RemedyRuling.Effect.REQUIRE, "must", "one", "test"),
                        new RemedyRuling("splice-repair B1", RemedyRuling.Effect.FORBID, "must not", "other", "test")),
                false);
        Verdict v = decide(chafed(), both);
        assertEquals(Verdict.ASK, v.option());
        assertEquals(1, v.conflicts().size());
        assertTrue(v.conflicts().get(0).contains("one") && v.conflicts().get(0).contains("other"));
    }

    @Test
    void aForbiddenRemedyStaysInTheTableWithItsReason() {
        Rulings.Rules no = (evidence, remedies) -> new Rulings(
                List.of(new RemedyRuling("splice-repair B1", RemedyRuling.Effect.FORBID, "must not", "rule", "test")),
                true);
        Verdict free = decide(chafed(), Posteriors.LAWLESS);
        Verdict v = decide(chafed(), no);
        assertEquals("splice-repair", free.option());
        assertNotEquals("splice-repair", v.option());
        Verdict.Weighed kept = Posteriors.of(v, "splice-repair").orElseThrow();
        assertTrue(kept.forbidden());
        assertEquals(List.of("must not"), kept.said(RemedyRuling.Effect.FORBID));
        assertTrue(v.shopPolicyDiffers());
    }

    @Test
    void aRequiredRemedyTakesTheCureFromSmallerOnes() {
        Rulings.Rules must = (evidence, remedies) -> new Rulings(
                List.of(new RemedyRuling("full-harness teaching", RemedyRuling.Effect.REQUIRE, "must", "r", "test")),
                false);
        Verdict v = decide(chafed(), must);
        assertEquals("full-harness", v.option());
        assertTrue(v.replacement().justified());
        assertTrue(v.replacement().words().startsWith("Full replacement is justified"));
    }

    /** The same rule while a test still pays: the harness leads, and nobody is told that it is justified. */
    @Test
    void aHarnessThatLeadsIsNotJustifiedWhileATestPays() {
        Rulings.Rules must = (evidence, remedies) -> new Rulings(
                List.of(new RemedyRuling("full-harness teaching", RemedyRuling.Effect.REQUIRE, "must", "r", "test")),
                false);
        Verdict v = Posteriors.maker(Posteriors.TEACHING, must)
                .decide(chafed(), List.of(Posteriors.test(1)), Posteriors.PERFECT);
        assertEquals(Verdict.NOT_ENOUGH, v.option());
        assertEquals("full-harness", v.leading().orElseThrow().remedy().option());
        assertFalse(v.replacement().justified());
        assertEquals(
                "Full replacement is not justified yet: it leads, and it is too early to act on that.",
                v.replacement().words());
    }

    @Test
    void openAccessCostsOnlyItsClosing() {
        Ranking r = Posteriors.ranking("contact.open@cavity:C1/1=0.95");
        Situation closed = Posteriors.situation(r, "", "");
        Situation open = new Situation(r, Set.of("fan-guard"), List.of(), List.of(), List.of(), Set.of(), 2, 1, 1);
        double before = Posteriors.of(decide(closed, Posteriors.LAWLESS), "terminal")
                .orElseThrow()
                .accessMinutes();
        double after = Posteriors.of(decide(open, Posteriors.LAWLESS), "terminal")
                .orElseThrow()
                .accessMinutes();
        double guard = Posteriors.TEACHING.access().get("fan-guard").minutes();
        double share = RepairCosts.builtIn().ranges().get("share.closing").mean();
        assertEquals(guard, before, 1e-9);
        assertEquals(share * guard, after, 1e-9);
    }

    @Test
    void thePosteriorIsCountedWhole() {
        List<Cause> causes = new Causes(new Layout(Posteriors.TEACHING)).of(TWO_WIRES);
        assertEquals(1, causes.stream().mapToDouble(Cause::probability).sum(), 1e-12);
        Cause outside = causes.get(causes.size() - 1);
        assertEquals(Cause.OUTSIDE, outside.id());
        assertEquals(0.02, outside.probability(), 1e-12);
        assertEquals(List.of("W11", "W13"), causes.get(0).wires());
    }

    @Test
    void splicesAreStaggeredAndKeepTheirDistance() {
        Remedy splice = Posteriors.of(decide(chafed(), Posteriors.LAWLESS), "splice-repair")
                .orElseThrow()
                .remedy();
        List<Remedy.SpliceSite> sites = splice.detail().splices();
        assertEquals(2, sites.size());
        assertTrue(
                Math.abs(sites.get(0).metresAlong() - sites.get(1).metresAlong()) >= SpliceSites.STAGGER - 1e-9,
                sites.toString());
        for (Remedy.SpliceSite s : sites) {
            assertTrue(s.metresToEnd() >= SpliceSites.FROM_END - 1e-9, s.toString());
            assertTrue(Math.abs(s.metresAlong() - 0.7) < 0.3, s.toString());
            Posteriors.TEACHING.splices().values().stream()
                    .filter(x -> x.branch().equals(s.branch()))
                    .forEach(x -> assertTrue(
                            Math.abs(x.metresAlong() - s.metresAlong()) >= SpliceSites.STAGGER - 1e-9,
                            "beside " + x.id()));
        }
    }

    @Test
    void theSweepMarksTheCaseAndFlipsWhereTheBreakEvenSays() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        Sweep sweep = maker.sweep(chafed());
        assertEquals(2, sweep.caseCircuits());
        Weighing.Question q = maker.question(chafed());
        BreakEvens evens = new BreakEvens(maker.weighing(chafed()), q);
        BreakEven circuits = evens.all(evens.answer(q, OptionalInt.empty())).get(1);
        int row = 0;
        for (int i = 0; i < sweep.labourPerHour().size(); i++)
            if (Math.abs(sweep.labourPerHour().get(i) - 120) < 1e-6) row = i;
        int flip = (int) circuits.at().orElseThrow();
        List<String> at120 = sweep.options().get(row);
        assertEquals(circuits.becomes(), at120.get(flip - 1));
        assertNotEquals(at120.get(flip - 1), at120.get(sweep.caseCircuits() - 1));
    }

    @Test
    void twoFaultsAtOnceNeedBothCured() {
        Cause pair = new Cause(
                "pair 1",
                "two",
                List.of("wire.open", "device.failed"),
                "pair",
                Map.of(),
                1,
                false,
                List.of(Map.of("wire", 1.0), Map.of("device", 0.7, "plug", 0.3)),
                List.of(),
                java.util.Optional.empty());
        assertEquals(0, pair.covered(remedy(Map.of("wire", 1.0))));
        assertEquals(0.7, pair.covered(remedy(Map.of("wire", 1.0, "device", 1.0))), 1e-12);
        assertEquals(0.5 * 0.7, pair.covered(remedy(Map.of("wire", 0.5, "device", 1.0))), 1e-12);
    }

    /**
     * A sensor that only a new one cures, f of the time. Where a new one did not do, with 1 − f, standing still is spared by
     * (1 − s), and once more where the second did not: (1 − f)·(1 + 1 − f) times the difference of s times its price.
     */
    @Test
    void standingStillIsSparedWhereACodeShowsThatTheRepairDidNotDo() {
        Ranking active = Posteriors.ranking("device.ntc.open@device:ECT=1");
        Ranking.CodeStatus code = active.codes().get(0);
        Ranking stored = new Ranking(
                List.of(new Ranking.CodeStatus(
                        code.code(), code.label(), Evidence.State.STORED, code.count(), code.explained(), true)),
                active.suspects(),
                active.rollup(),
                active.unlisted(),
                active.unexplained(),
                active.hidden(),
                List.of(),
                1);
        Map<String, RepairCosts.Range> figures = RepairCosts.builtIn().ranges();
        double f = figures.get("fix.device.device").mean();
        double shown = figures.get("shows.lasting").mean()
                - figures.get("shows.passing").mean();
        double still = 50 * figures.get("hours.comeback").mean();
        VerdictMaker maker = maker(RepairCosts.builtIn(), new Rates(100, 50));
        assertEquals((1 - f) * (2 - f) * shown * still, device(maker, stored) - device(maker, active), 1e-9);
    }

    /** A sensor whose plug may be at fault as well: once a new sensor did not do, it cures a fifth to a quarter as often. */
    @Test
    void whatWasDoneInVainIsWeighedDown() {
        Ranking r = Posteriors.ranking("device.ntc.open@device:ECT=0.6;contact.backed-out@cavity:C2/1=0.35");
        PlaceId sensor = new PlaceId(PlaceId.Kind.DEVICE, "ECT");
        PlaceId other = new PlaceId(PlaceId.Kind.DEVICE, "OPS");
        double before = cures(r, List.of());
        double again = RepairCosts.builtIn().ranges().get("share.again").mean();
        WorkDone.Job fitted = new WorkDone.Job(WorkDone.Deed.REPLACED, sensor);
        assertEquals(again * before, cures(r, List.of(fitted)), 1e-12);
        assertEquals(again * again * before, cures(r, List.of(fitted, fitted)), 1e-12);
        assertEquals(before, cures(r, List.of(new WorkDone.Job(WorkDone.Deed.REPLACED, other))), 1e-12);
        assertEquals(before, cures(r, List.of(new WorkDone.Job(WorkDone.Deed.CLEANED, sensor))), 1e-12);
        List<WorkDone.Job> done = List.of(new WorkDone.Job(WorkDone.Deed.REPLACED, sensor));
        String why = "done already, with codes there after it, and so taken to mend less if done again: device ECT";
        assertTrue(decide(after(r, done), Posteriors.LAWLESS).reasons().contains(why));
    }

    /** Pushing a plug home and cleaning it go together; of a section all of it must have been replaced. */
    @Test
    void aRemedyWasDoneWhenItsWorkWas() {
        Handiwork handiwork = new Handiwork(Posteriors.TEACHING, new Layout(Posteriors.TEACHING));
        Verdict v = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS)
                .decide(
                        Situation.codesOnly(Posteriors.ranking("contact.backed-out@cavity:C2/1=0.9")),
                        List.of(),
                        TestWorth.NONE);
        Remedy reseat = Posteriors.of(v, "reseat").orElseThrow().remedy();
        for (WorkDone.Deed deed : WorkDone.Deed.values())
            assertEquals(
                    deed == WorkDone.Deed.RESEATED || deed == WorkDone.Deed.CLEANED ? 1 : 0,
                    handiwork.timesDone(reseat, List.of(new WorkDone.Job(deed, reseat.place()))),
                    deed + " " + reseat.id());
        List<WorkDone.Job> once = handiwork.of(reseat).jobs();
        List<WorkDone.Job> twice = Stream.concat(once.stream(), once.stream()).toList();
        assertEquals(1, handiwork.timesDone(reseat, once));
        assertEquals(2, handiwork.timesDone(reseat, twice));
        Remedy whole = Posteriors.of(v, "full-harness").orElseThrow().remedy();
        List<WorkDone.Job> all = handiwork.of(whole).jobs();
        assertEquals(1, handiwork.timesDone(whole, all));
        assertEquals(0, handiwork.timesDone(whole, all.subList(1, all.size())));
    }

    private static Situation after(Ranking ranking, List<WorkDone.Job> done) {
        return new Situation(ranking, Set.of(), List.of(), List.of(), done, Set.of(), 1, 0, 0);
    }

    private static double cures(Ranking ranking, List<WorkDone.Job> done) {
        Situation s = after(ranking, done);
        return Posteriors.of(decide(s, Posteriors.LAWLESS), "device")
                .orElseThrow()
                .cures();
    }

    private static double device(VerdictMaker maker, Ranking ranking) {
        return Posteriors.of(maker.decide(Situation.codesOnly(ranking), List.of(), TestWorth.NONE), "device")
                .orElseThrow()
                .cost()
                .comeback();
    }

    private static Remedy remedy(Map<String, Double> covers) {
        return new Remedy(
                "x",
                "device",
                new PlaceId(PlaceId.Kind.DEVICE, "ECT"),
                "x",
                List.of(),
                List.of(),
                List.of(),
                0,
                covers,
                List.of(),
                Remedy.Detail.NONE);
    }

    /**
     * An engine is not taken apart on the word of one sensor (common practice, no source), and fluids under pressure are told
     * of; in German too.
     */
    @Test
    void aTrueConditionIsToBeSeenBeforeItIsBelieved() {
        Situation s = Posteriors.situation(
                Posteriors.ranking("condition.engine@engine:overheat=0.96;device.ntc.drift@device:ECT=0.04"), "", "");
        String words = Posteriors.of(decide(s, Posteriors.LAWLESS), "monitor")
                .orElseThrow()
                .remedy()
                .words();
        assertTrue(words.contains("gauge, thermometer or dipstick of your own"), words);
        assertTrue(words.contains("hot and under pressure"), words);
        String german = new Translator(Locale.GERMAN, UnaryOperator.identity()).remedy(words);
        assertTrue(german.contains("Peilstab") && german.contains("heiß und unter Druck"), german);
        Situation gauged = shown(s, "overheat");
        String seen = Posteriors.of(decide(gauged, Posteriors.LAWLESS), "monitor")
                .orElseThrow()
                .remedy()
                .words();
        assertTrue(seen.contains("which was seen with an instrument") && !seen.contains("show first"), seen);
        assertTrue(
                new Translator(Locale.GERMAN, UnaryOperator.identity())
                        .remedy(seen)
                        .contains("mit eigenem Messmittel gezeigt"),
                seen);
    }

    /** A condition of the supply is measured at the battery's posts, with the caution for a battery; in German too. */
    @Test
    void thatNothingChargesIsToBeMeasured() {
        Situation s = Posteriors.situation(Posteriors.ranking("condition.engine@engine:not-charged=0.99"), "", "");
        VerdictMaker maker = Posteriors.maker(Posteriors.LARCH, Posteriors.LAWLESS);
        String words = words(maker, s, "monitor");
        assertTrue(words.contains("show first with a voltmeter across its posts"), words);
        assertTrue(words.contains("acid and hydrogen") && !words.contains("fluids"), words);
        Translator german = new Translator(Locale.GERMAN, UnaryOperator.identity());
        assertTrue(german.remedy(words).contains("Voltmeter an den Polen"), german.remedy(words));
        Situation measured = shown(s, "not-charged");
        String seen = words(maker, measured, "monitor");
        assertTrue(seen.contains("which was read at its posts") && !seen.contains("show first"), seen);
        assertTrue(german.remedy(seen).contains("an den Polen gemessen"), german.remedy(seen));
    }

    /** The situation after a test has shown a condition of the engine. */
    private static Situation shown(Situation s, String condition) {
        return new Situation(
                s.ranking(),
                Set.of(),
                List.of(),
                List.of(),
                List.of(),
                Set.of(new PlaceId(PlaceId.Kind.ENGINE, condition)),
                0,
                1,
                0);
    }

    private static String words(VerdictMaker maker, Situation s, String option) {
        return Posteriors.of(maker.decide(s, List.of(), TestWorth.NONE), option)
                .orElseThrow()
                .remedy()
                .words();
    }

    /** A battery is charged and tested before it is replaced, and what emptied it is looked for; in German too. */
    @Test
    void aBatteryIsChargedAndTestedFirst() {
        Situation s = Posteriors.situation(Posteriors.ranking("device.battery.worn@device:BAT=0.99"), "", "");
        String words = words(Posteriors.maker(Posteriors.LARCH, Posteriors.LAWLESS), s, "device");
        assertTrue(words.startsWith("charge the battery (BAT), test it under load"), words);
        String german = new Translator(Locale.GERMAN, UnaryOperator.identity()).remedy(words);
        assertTrue(german.startsWith("laden und unter Last prüfen"), german);
    }

    /**
     * Eight wires worn through in the machine trunk, of which no section is sold: the rules forbid splicing so many and, before
     * anything was looked at, the harness. A section elsewhere, which cures one case in ten thousand, is no answer to that.
     */
    @Test
    void whatCuresNextToNothingIsNotDoneBecauseTheRestIsForbidden() {
        String posterior = "common.rub-point.open@branch:BM1*W014+W049+W091+W139+W151+W192+W268+W284=0.98;"
                + "contact.open@cavity:C-CKP/1=0.0004";
        VerdictMaker maker = Posteriors.maker(Posteriors.LARCH, Posteriors.RULES);
        Verdict codes = maker.decide(Situation.codesOnly(Posteriors.ranking(posterior)), List.of(), TestWorth.NONE);
        assertEquals(Verdict.NOT_ENOUGH, codes.option());
        assertTrue(codes.leading().isEmpty());
        assertTrue(
                codes.reasons()
                        .contains(
                                "the rules forbid every remedy that cures until something has been measured or looked at"),
                codes.reasons().toString());
        Verdict seen = maker.decide(
                Posteriors.situation(Posteriors.ranking(posterior), "chafe@branch:BM1", ""), List.of(), TestWorth.NONE);
        assertEquals("full-harness", seen.option(), seen.reasons().toString());
        assertEquals(
                "Full replacement is not justified: it is forbidden, as is all else that mends anything.",
                codes.replacement().words());
        assertEquals(
                "Full replacement is justified: nothing else that mends anything is allowed.",
                seen.replacement().words());
        Translator german = new Translator(Locale.GERMAN, UnaryOperator.identity());
        for (Verdict v : List.of(codes, seen))
            assertTrue(german.verdict(v.replacement().words()).startsWith("Ein neuer Kabelbaum ist"));
    }
}
