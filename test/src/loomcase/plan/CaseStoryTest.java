package loomcase.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import loomcase.demo.Harness;
import loomcase.faults.Hypothesis;
import loomcase.faults.WorkDone;
import loomcase.j1939.Code;
import loomcase.meter.MeterPrediction;
import loomcase.meter.Outcome;
import loomcase.meter.Outcomes;
import loomcase.meter.Subject;
import loomcase.model.Circuit;
import loomcase.model.Device;
import loomcase.model.Edit;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;

/** Whole cases on the reference harness, from codes to one place, the tests answered by the planted fault's network. */
class CaseStoryTest {
    private static final Harness H = Harness.LARCH;
    private static final Circuit CIRCUIT = H.circuit();
    private static final int MOST_TESTS = 8;

    private static Evidence codes(Evidence.State state, int count, String... codes) {
        List<Evidence.Seen> seen = new ArrayList<>();
        for (String c : codes) {
            String[] part = c.split("/");
            seen.add(new Evidence.Seen(
                    new Code(Integer.parseInt(part[0]), Integer.parseInt(part[1])), state, OptionalInt.of(count)));
        }
        return new Evidence(seen, List.of("key-on", "idle-warm"));
    }

    private record End(Ranking ranking, PlaceId place, double probability, int tests, double minutes) {}

    /** Follows the planner's first proposal until it proposes none, opening access on the way. */
    private static End follow(Evidence start, Subject truth) {
        Evidence e = start;
        Set<String> open = new TreeSet<>();
        Planner planner = PlannerTest.planner(H);
        double minutes = 0;
        int tests = 0;
        Ranking ranking = H.ranker().rank(e, s -> {});
        while (tests < MOST_TESTS) {
            MeterPrediction meter = H.ranker().meter(e);
            List<NextTest> plan = planner.plan(new CaseSoFar(ranking, meter, open, Set.of()));
            if (plan.isEmpty()) break;
            NextTest next = plan.get(0);
            minutes += next.minutes();
            open.addAll(next.steps());
            e = e.with(new Evidence.Tested(next.test(), answer(meter, next.test(), truth)));
            ranking = H.ranker().rank(e, s -> {});
            tests++;
        }
        Ranking.PlaceShare best = ranking.rollup().stream()
                .filter(p ->
                        p.place().kind() != PlaceId.Kind.BRANCH && p.place().kind() != PlaceId.Kind.CONNECTOR)
                .findFirst()
                .orElseThrow();
        return new End(ranking, best.place(), best.probability(), tests, minutes);
    }

    private static Outcome answer(MeterPrediction meter, loomcase.meter.Test test, Subject truth) {
        return meter.outcomes(test, List.of(truth), List.of(1.0)).stream()
                .max(Comparator.comparingDouble(Outcomes.Likely::probability))
                .orElseThrow()
                .outcome();
    }

    @Test
    void fiveLowPressuresLeadToTheSharedSplice() {
        PlaceId splice = new PlaceId(PlaceId.Kind.SPLICE, "S5A");
        List<Edit> edits = CIRCUIT.wires().values().stream()
                .filter(w -> w.from().equals("S5A") || w.to().equals("S5A"))
                .<Edit>map(w -> new Edit.Series(Names.leg("S5A", w.id()), Edit.OPEN_OHMS))
                .toList();
        End end = follow(
                codes(Evidence.State.ACTIVE, 2, "94/4", "98/4", "100/4", "101/4", "157/4"),
                new Subject("splice.open", List.of(splice), false, edits));
        System.out.printf("shared splice: %s %.2f after %d tests%n", end.place, end.probability, end.tests);
        assertEquals(splice, end.place());
        assertTrue(end.probability() > 0.6, end.place() + " " + end.probability());
        assertTrue(end.tests() < MOST_TESTS, end.tests() + " tests");
    }

    @Test
    void aWornContactIsFoundByItsCountsAndAWiggle() {
        Evidence counted = codes(Evidence.State.STORED, 24, "110/3");
        Ranking before = H.ranker().rank(counted, s -> {});
        Ranking once = H.ranker().rank(codes(Evidence.State.STORED, 1, "110/3"), s -> {});
        assertTrue(
                atConnector(before) > 5 * atConnector(once),
                "a high count points at a contact that comes and goes: " + atConnector(once) + " with a count of 1, "
                        + atConnector(before) + " with 24");
        var wiggle = new loomcase.meter.Test.Wiggle(new PlaceId(PlaceId.Kind.CONNECTOR, "C-ECT"), "key-on");
        Evidence moved = new Evidence(
                counted.codes(),
                counted.operatingPoints(),
                List.of(new Evidence.Tested(wiggle, new Outcome.Noticed(Outcome.Sign.RESPONDS))));
        Ranking after = H.ranker().rank(moved, s -> {});
        double was = atConnector(before);
        double is = atConnector(after);
        System.out.println("worn contact at C-ECT: " + was + " before the wiggle, " + is + " after");
        assertTrue(is > 0.9 && is > was, was + " before, " + is + " after");
        assertEquals("C-ECT", Names.connectorOf(after.suspects().get(0).place().id()));
    }

    /** The sensor was replaced, the codes cleared, and the same code came back: the wire behind it is found. */
    @Test
    void aSensorReplacedInVainLeadsToItsWire() {
        Hypothesis broken = H.hypothesis("wire.open W208");
        PlaceId sensor = new PlaceId(PlaceId.Kind.DEVICE, "ECT");
        Evidence start = codes(Evidence.State.ACTIVE, 1, "110/3");
        Evidence again = start.with(WorkDone.inVain(List.of(new WorkDone.Job(WorkDone.Deed.REPLACED, sensor))));
        Ranking before = H.ranker().rank(start, s -> {});
        assertEquals(sensor, before.suspects().get(0).members().get(0).place());
        double was = before.shares().get(sensor);
        double is = H.ranker().rank(again, s -> {}).shares().get(sensor);
        // The group has nearly all of the posterior, so the sensor's share s becomes f·s / (1 − s + f·s).
        assertEquals(0.06 * was / (1 - was + 0.06 * was), is, 1e-9);
        End end = follow(again, subject(broken));
        System.out.printf(
                "sensor in vain: %.2f before, %.2f after; %s %.2f after %d tests, %.0f minutes%n",
                was, is, end.place, end.probability, end.tests, end.minutes);
        assertEquals(broken.place(), end.place());
        assertTrue(end.probability > 0.6, end.place() + " " + end.probability());
        assertTrue(end.tests() < MOST_TESTS, end.tests() + " tests");
    }

    /**
     * The wire of one sensor broken, that of another rubbed through to ground: both are named, though each is far from being
     * the likeliest fault with its codes.
     */
    @Test
    void twoFaultsAtOnceAreBothNamed() {
        Hypothesis broken = H.hypothesis("wire.open W214");
        Hypothesis rubbed = H.hypothesis("wire.short-ground W280");
        Evidence start = codes(Evidence.State.ACTIVE, 1, "100/4", "171/4");
        Ranking before = H.ranker().rank(start, s -> {});
        assertTrue(before.suspects().get(0).twoFaults());
        End end = follow(start, Subject.both(subject(broken), subject(rubbed)));
        System.out.println("two faults: " + end.ranking.suspects().get(0).words() + " after " + end.tests + " tests");
        for (Hypothesis h : List.of(broken, rubbed)) {
            double was = before.shares().getOrDefault(h.place(), 0.0);
            double is = end.ranking.shares().getOrDefault(h.place(), 0.0);
            assertTrue(is > 0.6 && is > 2 * was, h.id() + ": " + was + " before, " + is + " after");
        }
    }

    /**
     * Low oil pressure by its code: seen by a gauge before anything else, though it is far likelier true than not. A gauge that
     * shows pressure leaves the sensor and its wires.
     */
    @Test
    void aConditionOfTheEngineIsGaugedFirst() {
        Evidence start = codes(Evidence.State.ACTIVE, 1, "100/1");
        Ranking ranking = H.ranker().rank(start, s -> {});
        assertEquals("oil-lost", ranking.suspects().get(0).place().id());
        Planner planner = PlannerTest.planner(H);
        NextTest next = planner.plan(new CaseSoFar(ranking, H.ranker().meter(start), Set.of(), Set.of()))
                .get(0);
        assertEquals("gauge OPS", next.test().id());
        assertTrue(next.hazard().contains("under pressure"), next.hazard());
        Device.Condition lost = H.circuit().devices().get("OPS").conditions().get(1);
        Ranking low = after(start, next, Outcome.Condition.of(lost));
        assertTrue(low.shares().get(new PlaceId(PlaceId.Kind.ENGINE, "oil-lost")) > 0.99);
        Ranking healthy = after(start, next, Outcome.Condition.HEALTHY);
        assertTrue(healthy.shares().getOrDefault(new PlaceId(PlaceId.Kind.ENGINE, "oil-lost"), 0.0) < 0.5);
        assertTrue(healthy.shares().get(new PlaceId(PlaceId.Kind.DEVICE, "OPS")) > 0.3);
        assertTrue(
                planner
                        .plan(new CaseSoFar(
                                healthy,
                                H.ranker().meter(start),
                                Set.of(),
                                Set.of(next.test().id())))
                        .stream()
                        .noneMatch(t -> t.test().id().equals("gauge OPS")));
    }

    /**
     * The supply sags while injecting: that nothing charges is likeliest by far, and is measured at the posts before anybody acts
     * on it. A charging voltage there leaves the ground and the feed of the control unit.
     */
    @Test
    void aConditionOfTheSupplyIsMeasuredFirst() {
        Evidence start = new Evidence(codes(Evidence.State.ACTIVE, 1, "168/18").codes(), List.of("idle-warm"));
        PlaceId notCharged = new PlaceId(PlaceId.Kind.ENGINE, "not-charged");
        Ranking ranking = H.ranker().rank(start, s -> {});
        assertEquals(notCharged, ranking.suspects().get(0).place());
        Planner planner = PlannerTest.planner(H);
        NextTest next = planner.plan(new CaseSoFar(ranking, H.ranker().meter(start), Set.of(), Set.of()))
                .get(0);
        assertEquals("volts C-BAT/1 chassis @idle-warm/rest", next.test().id());
        assertTrue(next.hazard().contains("acid"), next.hazard());
        Ranking low = after(start, next, new Outcome.Reading(11.9, Outcome.Unit.VOLTS));
        assertTrue(low.shares().get(notCharged) > 0.99);
        Ranking charging = after(start, next, new Outcome.Reading(13.8, Outcome.Unit.VOLTS));
        assertTrue(charging.shares().get(notCharged) < 0.5);
        assertEquals("G1", charging.suspects().get(0).place().id());
    }

    /** A voltage that is low with outputs on is the battery's; where it is not low at the posts, it is lost on the way. */
    @Test
    void aGoodBatteryLeavesTheWayToTheUnit() {
        Evidence start = new Evidence(codes(Evidence.State.ACTIVE, 1, "168/4").codes(), List.of("key-on"));
        PlaceId battery = new PlaceId(PlaceId.Kind.DEVICE, "BAT");
        assertTrue(H.ranker().rank(start, s -> {}).shares().get(battery) > 0.9);
        Ranking good = H.ranker()
                .rank(
                        start.with(new Evidence.Tested(
                                new loomcase.meter.Test.Volts(
                                        "C-BAT/1", Names.CHASSIS, loomcase.meter.Setup.on("key-on", "drive")),
                                new Outcome.Reading(11.9, Outcome.Unit.VOLTS))),
                        s -> {});
        assertTrue(good.shares().get(battery) < 0.5);
        assertEquals("G1", good.suspects().get(0).place().id());
    }

    private static Ranking after(Evidence start, NextTest test, Outcome outcome) {
        return H.ranker().rank(start.with(new Evidence.Tested(test.test(), outcome)), s -> {});
    }

    /** Damage seen at the plug of one of them points at that plug, and the other fault stays. */
    @Test
    void aLookThatFindsOneOfTwoFaultsLeavesTheOther() {
        Evidence start = codes(Evidence.State.ACTIVE, 1, "100/4", "171/4");
        PlaceId plug = new PlaceId(PlaceId.Kind.CONNECTOR, "C-OPS");
        Evidence seen = new Evidence(
                start.codes(),
                start.operatingPoints(),
                List.of(new Evidence.Tested(
                        new loomcase.meter.Test.Look(plug), new Outcome.Seen(loomcase.model.Finding.SPREAD_TERMINAL))));
        double was = H.ranker().rank(start, s -> {}).shares().get(plug);
        Ranking after = H.ranker().rank(seen, s -> {});
        double is = after.shares().get(plug);
        assertTrue(after.suspects().get(0).twoFaults(), after.suspects().get(0).words());
        assertTrue(is > 0.75 && is > 1.5 * was, "at the plug " + was + " before, " + is + " after");
    }

    private static Subject subject(Hypothesis h) {
        return new Subject(h.family(), h.places(), false, ((Hypothesis.Fixed) h.cause()).edits());
    }

    private static double atConnector(Ranking r) {
        return r.shares().getOrDefault(new PlaceId(PlaceId.Kind.CONNECTOR, "C-ECT"), 0.0);
    }
}
