package loomcase.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import loomcase.demo.Harness;
import loomcase.faults.Priors;
import loomcase.j1939.CodeList;
import loomcase.meter.Harm;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.model.Names;
import loomcase.model.PlaceId;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** From suspects to the next test, on the teaching harness. */
class PlannerTest {
    private static final Harness H = Harness.TEACHING;

    /** Harms that the built-in rules forbid. */
    private static final Set<Harm> FORBIDDEN = EnumSet.of(
            Harm.OHMS_ON_LIVE_CIRCUIT, Harm.JUMPER_ON_DRIVER, Harm.JUMPER_ON_SUPPLY, Harm.JUMPER_ON_INJECTOR);

    /** A planner under the built-in rules and priors. */
    static Planner planner(Harness h) {
        return new Planner(
                h.circuit(),
                h.layout(),
                Priors.builtIn(),
                FORBIDDEN,
                h.circuit().costs()::partMinutes);
    }

    private static Evidence evidence(String codes, List<Evidence.Tested> tested) {
        List<Evidence.Seen> seen = CodeList.parse(codes).entries().stream()
                .map(e -> new Evidence.Seen(e.code(), Evidence.State.ACTIVE, OptionalInt.empty()))
                .toList();
        return new Evidence(seen, List.of("key-on", "idle-warm"), tested);
    }

    private static List<NextTest> plan(Evidence e, Set<String> open, Set<String> refused) {
        Ranking ranking = H.ranker().rank(e, share -> {});
        return planner(H).plan(new CaseSoFar(ranking, H.ranker().meter(e), open, refused));
    }

    @Test
    void theFirstProposalPaysForItself() {
        NextTest t = plan(evidence("110/3", List.of()), Set.of(), Set.of()).get(0);
        assertTrue(t.expectedMinutes() < t.settleNow(), t.toString());
        assertTrue(t.minutes() <= t.expectedMinutes());
        assertEquals(
                1,
                t.outcomes().stream().mapToDouble(NextTest.Outcome::probability).sum(),
                1e-6);
    }

    /** One fault is left, so nothing is to be parted; a look may be wanted all the same before anybody acts. */
    @Test
    void whereOneFaultIsLeftATestIsProposedOnlyWhenOneIsWanted() {
        Evidence e = evidence("110/3", List.of());
        Ranking all = H.ranker().rank(e, share -> {});
        Ranking.Suspect s = all.suspects().get(0);
        Ranking.Suspect alone = new Ranking.Suspect(
                1,
                1,
                s.places(),
                s.words(),
                s.members().subList(0, 1),
                s.explains(),
                s.leaves(),
                s.predictsButAbsent(),
                s.evidence(),
                s.tests(),
                Set.of());
        Ranking one = new Ranking(all.codes(), List.of(alone), all.rollup(), 0, 0, 0, List.of(), 1);
        Planner planner = planner(H);
        CaseSoFar soFar = new CaseSoFar(one, H.ranker().meter(e), Set.of(), Set.of());
        assertEquals(List.of(), planner.plan(soFar));
        List<NextTest> wanted = planner.plan(soFar, () -> true);
        assertEquals(1, wanted.size());
        assertFalse(wanted.get(0).saves(), wanted.toString());
    }

    /**
     * An injector under the valve cover and a coolant sensor both read open. No pair of places has a tenth of the whole, and
     * the sensor is by far the easier to come at, so it is measured before anything is settled on.
     */
    @Test
    void ofTwoFaultsTheOneThatIsEasyToComeAtIsTestedBeforeAnythingIsSettledOn() {
        Harness larch = Harness.LARCH;
        Evidence e = evidence("110/3,655/5", List.of());
        Ranking ranking = larch.ranker().rank(e, share -> {});
        List<NextTest> plan =
                planner(larch).plan(new CaseSoFar(ranking, larch.ranker().meter(e), Set.of(), Set.of()));
        assertFalse(plan.isEmpty());
        assertTrue(plan.get(0).test().id().contains("C-ECT"), plan.get(0).test().id());
    }

    @Test
    void refusedTestsAreNotProposedAgain() {
        Evidence e = evidence("110/3", List.of());
        String first = plan(e, Set.of(), Set.of()).get(0).test().id();
        assertTrue(plan(e, Set.of(), Set.of(first)).stream()
                .noneMatch(t -> t.test().id().equals(first)));
    }

    @Test
    void accessAlreadyOpenCostsNothing() {
        Evidence e = evidence("110/3", List.of());
        NextTest closed = plan(e, Set.of(), Set.of()).get(0);
        Set<String> all = H.circuit().access().keySet();
        assertTrue(closed.steps().size() > 0);
        for (NextTest t : plan(e, all, Set.of())) assertEquals(List.of(), t.steps());
    }

    @Test
    void harmfulTestsAreNeverProposed() {
        for (String codes : List.of("110/3", "100/4,102/4", "647/5"))
            for (NextTest t : plan(evidence(codes, List.of()), Set.of(), Set.of()))
                assertTrue(
                        t.harms().stream().noneMatch(FORBIDDEN::contains),
                        t.test().id());
    }

    @Test
    void aTestPartsASuspectThatCodesCouldNot() {
        Evidence before = evidence("110/3", List.of());
        PlaceId sensor = new PlaceId(PlaceId.Kind.DEVICE, "ECT");
        double codesOnly = share(before, sensor);
        // the element itself, measured at its plug, is open: the wires are out of it
        var ohms = new loomcase.meter.Test.Ohms(
                "C1/1~", "C1/2~", loomcase.meter.Setup.off().unplug(List.of("C1")));
        Evidence open = evidence("110/3", List.of(new Evidence.Tested(ohms, new Outcome.OverRange())));
        assertTrue(share(open, sensor) > 0.9, "sensor " + share(open, sensor) + " after, " + codesOnly + " before");
        // healthy: 2.2 kohm at 25 degrees, some 2.7 kohm at 20
        Evidence healthy =
                evidence("110/3", List.of(new Evidence.Tested(ohms, new Outcome.Reading(2700, Outcome.Unit.OHMS))));
        assertTrue(share(healthy, sensor) < 0.1 * codesOnly, "sensor " + share(healthy, sensor));
    }

    private static double share(Evidence e, PlaceId place) {
        return H.ranker().rank(e, s -> {}).shares().getOrDefault(place, 0.0);
    }

    @Test
    void contradictoryReadingsRaiseUnexplained() {
        var rest = loomcase.meter.Setup.on("key-on", "rest");
        Evidence.Tested high = new Evidence.Tested(
                new loomcase.meter.Test.Volts("J1/6", "chassis", rest), new Outcome.Reading(8.2, Outcome.Unit.VOLTS));
        Evidence.Tested odd = new Evidence.Tested(
                new loomcase.meter.Test.Volts("C1/1", "chassis", rest), new Outcome.Reading(2.0, Outcome.Unit.VOLTS));
        double before = H.ranker().rank(evidence("110/3", List.of()), s -> {}).unexplained();
        double after =
                H.ranker().rank(evidence("110/3", List.of(high, odd)), s -> {}).unexplained();
        assertTrue(after > 0.5 && after > 10 * before, "unexplained " + before + " before, " + after + " after");
    }

    @Test
    void sameQuestionSameAnswer() {
        Evidence e = evidence("100/4,102/4", List.of());
        assertEquals(plan(e, Set.of(), Set.of()), plan(e, Set.of(), Set.of()));
    }

    /** A 5 V supply is down at the control unit and at a sensor's plug: its own supply is dead, or a wire of it is chafed. */
    private static Evidence supplyDown(Evidence.Tested... more) {
        Setup on = Setup.on("key-on", "rest");
        List<Evidence.Tested> tested = new ArrayList<>(List.of(
                read(new loomcase.meter.Test.Volts("J1/3", Names.CHASSIS, on), 0.002, Outcome.Unit.VOLTS),
                read(
                        new loomcase.meter.Test.Volts("C3/1", "C3/2", on.unplug(List.of("C3"))),
                        0.006,
                        Outcome.Unit.VOLTS)));
        tested.addAll(List.of(more));
        return evidence("100/4,102/4,3509/4", tested);
    }

    private static Evidence.Tested read(loomcase.meter.Test test, double value, Outcome.Unit unit) {
        return new Evidence.Tested(test, new Outcome.Reading(value, unit));
    }

    /** A control unit costs as much as eight hours of work here: on 95 % it is not fitted while a test is left. */
    @Test
    void aControlUnitIsNotFittedBeforeTheWireIsMeasured() {
        Setup apart = Setup.off().unplug(List.of("C2", "C3", "J1"));
        Evidence e = supplyDown(new Evidence.Tested(
                new loomcase.meter.Test.Isolation("C3/1", Names.CHASSIS, apart), new Outcome.OverRange()));
        PlaceId unit = new PlaceId(PlaceId.Kind.CONTROL_UNIT, "ECM");
        double share = H.ranker().rank(e, s -> {}).shares().get(unit);
        assertTrue(share > 0.9, "control unit " + share);
        assertFalse(plan(e, Set.of(), Set.of()).isEmpty());
    }

    /**
     * Ohm's law: what is unplugged conducts nothing, so a short that is read with control unit and sensors apart is in the
     * harness, whether the meter shows nothing at all or an ohm.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0, 0.05, 0.2, 0.5, 1})
    void aShortReadWithAllUnpluggedIsInTheHarness(double ohms) {
        Setup apart = Setup.off().unplug(List.of("C2", "C3", "J1"));
        Ranking r = H.ranker()
                .rank(
                        supplyDown(read(
                                new loomcase.meter.Test.Isolation("J1/3", Names.CHASSIS, apart),
                                ohms,
                                Outcome.Unit.OHMS)),
                        s -> {});
        double unplugged = r.shares().entrySet().stream()
                .filter(p -> p.getKey().kind() == PlaceId.Kind.CONTROL_UNIT
                        || p.getKey().kind() == PlaceId.Kind.DEVICE)
                .mapToDouble(java.util.Map.Entry::getValue)
                .sum();
        assertTrue(unplugged < 0.5, ohms + " ohm: unplugged parts have " + unplugged);
    }
}
