package loomcase.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import loomcase.demo.Harness;
import loomcase.faults.WorkDone;
import loomcase.j1939.Code;
import loomcase.journal.ClaimFact;
import loomcase.journal.Fact;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import loomcase.journal.Spot;
import loomcase.meter.Outcome;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;

/** What a case says of work, and which tests made before it still hold. */
class CaseIntakeTest {
    private static final Spot SENSOR = Spot.of(PlaceId.Kind.DEVICE, "ECT");
    private static final Spot TRUNK = Spot.of(PlaceId.Kind.BRANCH, "B1");

    private static CaseIntake intake(Fact... facts) {
        return CaseIntake.of(Harness.TEACHING.circuit(), List.of(facts), Set.of(), List.of());
    }

    private static Fact.Codes active(String... codes) {
        return codes(Fact.State.ACTIVE, codes);
    }

    private static Fact.Codes codes(Fact.State state, String... codes) {
        List<Fact.ReadCode> out = new ArrayList<>();
        for (String c : codes) {
            String[] part = c.split("/");
            out.add(new Fact.ReadCode(
                    new Code(Integer.parseInt(part[0]), Integer.parseInt(part[1])), OptionalInt.empty(), state));
        }
        return new Fact.Codes(out, List.of("key-on", "idle-warm"), Optional.empty(), Optional.empty());
    }

    private static Fact.Work work(Fact.Deed deed, Spot spot) {
        return new Fact.Work(deed, Optional.of(spot), "");
    }

    private static Fact.Work renewed() {
        return work(Fact.Deed.REPLACED, SENSOR);
    }

    private static Fact.Reading ohms(String a, String b, String... apart) {
        Setup setup = new Setup(Optional.empty(), Optional.empty(), List.of(apart), List.of(), OptionalDouble.empty());
        return reading(Fact.Test.OHMS, a, b, new Shown.Number(new BigDecimal("0.2"), Shown.Unit.OHM), setup);
    }

    private static Fact.Reading volts(String a, String... apart) {
        Setup setup =
                new Setup(Optional.of("key-on"), Optional.empty(), List.of(apart), List.of(), OptionalDouble.empty());
        return reading(Fact.Test.VOLTS, a, "chassis", new Shown.Number(new BigDecimal("5.0"), Shown.Unit.VOLT), setup);
    }

    private static Fact.Reading reading(Fact.Test test, String a, String b, Shown shown, Setup setup) {
        return new Fact.Reading(
                test, a, b, shown, setup, new Meter("", OptionalDouble.empty(), OptionalDouble.empty()));
    }

    private static Fact.Seen clean(Spot spot) {
        return new Fact.Seen(spot, Finding.CLEAN, "");
    }

    private static List<String> tests(CaseIntake intake) {
        return intake.intake().evidence().tested().stream()
                .map(t -> t.test().id().replaceAll(" @.*", ""))
                .toList();
    }

    private static WorkDone work(CaseIntake intake) {
        return intake.intake().evidence().work();
    }

    private static final WorkDone.Job NEW_SENSOR =
            new WorkDone.Job(WorkDone.Deed.REPLACED, new PlaceId(PlaceId.Kind.DEVICE, "ECT"));

    @Test
    void aTestHoldsAfterARepairThatChangedNothing() {
        CaseIntake i =
                intake(active("110/3"), ohms("J1/6", "C1/1", "J1", "C1"), clean(TRUNK), renewed(), active("110/3"));
        assertEquals(List.of("ohms J1/6 C1/1", "look branch B1"), tests(i));
        assertEquals(1, i.looked().size());
        assertEquals(
                List.of(
                        "2 tests made before a repair are kept: codes of the same SPNs were active before and after it"),
                i.intake().notes());
        assertEquals(new WorkDone(Map.of(), List.of(NEW_SENSOR)), work(i));
    }

    private static Fact.Reading shows(String value) {
        Fact.Reading r = ohms("J1/6", "C1/1", "J1", "C1");
        return reading(r.test(), r.a(), r.b(), Shown.parse(value), r.setup());
    }

    @Test
    void aReadingThatDisagreesWithAnEarlierOneIsSaid() {
        for (String[] two : new String[][] {{"0.3ohm", "open"}, {"open", "0.3ohm"}, {"0.3ohm", "240ohm"}}) {
            CaseIntake i = intake(active("110/3"), shows(two[0]), shows("0.3ohm"), shows(two[1]), shows(two[1]));
            assertEquals(4, tests(i).size());
            List<String> notes = i.intake().notes();
            assertEquals(1, notes.size(), notes.toString());
            assertTrue(notes.get(0).contains("a slip with the meter: do it again"), notes.get(0));
            assertTrue(notes.get(0).startsWith("ohms from "), notes.get(0));
        }
        for (String[] two :
                new String[][] {{"0.3ohm", "1.2ohm"}, {"open", "12Mohm"}, {"2Mohm", "12Mohm"}, {"200ohm", "230ohm"}})
            assertEquals(
                    List.of(),
                    intake(active("110/3"), shows(two[0]), shows(two[1]))
                            .intake()
                            .notes());
    }

    @Test
    void aReadingAfterWorkDoesNotDisagreeWithOneBefore() {
        CaseIntake i = intake(
                active("110/3"),
                shows("open"),
                work(Fact.Deed.REPAIRED, Spot.of(PlaceId.Kind.CAVITY, "C1/1")),
                active(),
                shows("0.3ohm"));
        assertEquals(
                List.of("1 tests made before the last repair are left out"),
                i.intake().notes());
    }

    /** Cleared at once and read after a drive: what the last reading before the next work shows counts. */
    @Test
    void codesThatComeBackLaterAreTheSameCodes() {
        CaseIntake i = intake(
                active("110/3"),
                clean(TRUNK),
                renewed(),
                new Fact.Work(Fact.Deed.CLEARED_CODES, Optional.empty(), ""),
                active(),
                active("110/3"));
        assertEquals(List.of("look branch B1"), tests(i));
    }

    @Test
    void aTestBeforeARepairThatChangedTheCodesIsLeftOut() {
        for (Fact.Codes after :
                List.of(active("100/4"), active("110/3", "100/4"), active(), codes(Fact.State.STORED, "110/3"))) {
            CaseIntake i = intake(active("110/3"), clean(TRUNK), renewed(), after);
            assertEquals(List.of(), tests(i), after.toString());
            assertEquals(0, i.looked().size());
            assertEquals(
                    List.of("1 tests made before the last repair are left out"),
                    i.intake().notes());
            assertEquals(new WorkDone(Map.of("C1", false), List.of(NEW_SENSOR)), work(i));
        }
    }

    @Test
    void aTestBeforeARepairAfterWhichNobodyReadTheCodesIsLeftOut() {
        CaseIntake i = intake(active("110/3"), clean(TRUNK), renewed(), volts("C2/1"));
        assertEquals(List.of("volts C2/1 chassis"), tests(i));
        assertEquals(WorkDone.NONE, work(i), "work after the codes is no evidence about them");
    }

    /** The first repair brought in the code, the second left it as it was. */
    @Test
    void onlyTestsSinceTheLastChangeAreKept() {
        CaseIntake i = intake(
                active("100/4"),
                clean(Spot.of(PlaceId.Kind.BRANCH, "B2")),
                work(Fact.Deed.REPLACED, Spot.of(PlaceId.Kind.DEVICE, "OPS")),
                active("110/3"),
                clean(TRUNK),
                renewed(),
                active("110/3"));
        assertEquals(List.of("look branch B1"), tests(i));
        assertEquals(Set.of("C2"), work(i).apart().keySet(), "slips only where the work changed something");
        assertEquals(2, work(i).jobs().size());
    }

    @Test
    void twoRepairsBetweenTheSameCodesAreBothInVain() {
        CaseIntake i = intake(
                active("110/3"),
                clean(TRUNK),
                renewed(),
                work(Fact.Deed.REPLACED, Spot.of(PlaceId.Kind.CAVITY, "C1/1")),
                active("110/3"));
        assertEquals(List.of("look branch B1"), tests(i));
        assertEquals(2, work(i).jobs().size());
    }

    /** The FMI that a broken circuit shows is not always the same; its SPN is. */
    @Test
    void anotherFmiOfTheSameSpnIsNoChange() {
        CaseIntake i = intake(active("110/3", "110/0"), clean(TRUNK), renewed(), active("110/3"));
        assertEquals(List.of("look branch B1"), tests(i));
        assertEquals(Set.of(), work(i).apart().keySet());
    }

    /** A code went, so tests made before are left out; none came, so the work has not slipped. */
    @Test
    void aSlipIsLookedForOnlyWhereACodeCame() {
        CaseIntake gone = intake(active("110/3", "100/4"), clean(TRUNK), renewed(), active("100/4"));
        assertEquals(List.of(), tests(gone));
        assertEquals(new WorkDone(Map.of(), List.of(NEW_SENSOR)), work(gone));
        CaseIntake came = intake(active("110/3"), clean(TRUNK), renewed(), active("110/3", "100/4"));
        assertEquals(List.of(), tests(came));
        assertEquals(Set.of("C1"), work(came).apart().keySet());
    }

    /** A lead on the old sensor, or on its wire while it was plugged in; a look at its plug, which was apart since. */
    @Test
    void aTestOfWhatWasReplacedIsLeftOut() {
        CaseIntake i = intake(
                active("110/3"),
                ohms("C1/1~", "C1/2~", "C1"),
                volts("J1/6"),
                volts("J1/6", "C1"),
                volts("J1/8"),
                clean(SENSOR),
                clean(Spot.of(PlaceId.Kind.CONNECTOR, "C1")),
                clean(Spot.of(PlaceId.Kind.CONNECTOR, "C3")),
                new Fact.Swapped(SENSOR, Spot.of(PlaceId.Kind.DEVICE, "MAP"), Fact.Outcome.STAYED, ""),
                renewed(),
                active("110/3"));
        assertEquals(List.of("volts J1/6 chassis", "volts J1/8 chassis", "look connector C3"), tests(i));
        assertEquals(
                List.of(
                        "3 tests made before a repair are kept: codes of the same SPNs were active before and after it",
                        "5 tests of what was repaired since are left out"),
                i.intake().notes());
    }

    /** A gauge shows the engine, so what it showed holds when the sensor is another one. */
    @Test
    void whatAGaugeShowedHoldsAfterTheSensorIsReplaced() {
        CaseIntake i = intake(
                active("110/3"), new Fact.Gauged(SENSOR, "overheat", "thermometer 118"), renewed(), active("110/3"));
        assertEquals(List.of("gauge ECT"), tests(i));
        Outcome.Condition seen =
                (Outcome.Condition) i.intake().evidence().tested().get(0).outcome();
        assertEquals("overheat", seen.id());
        CaseIntake healthy = intake(active("110/3"), new Fact.Gauged(SENSOR, Fact.Gauged.HEALTHY, ""));
        assertEquals(
                Outcome.Condition.HEALTHY,
                healthy.intake().evidence().tested().get(0).outcome());
    }

    /** With the sensor's plug apart the sensor had no part in the codes; with that of another on its return it had. */
    @Test
    void codesWatchedWithTheReplacedPartUnpluggedStillHold() {
        CaseIntake i = intake(active("110/3"), watched("C1"), watched("C2"), watched("C4"), renewed(), active("110/3"));
        assertEquals(List.of("unplug C1 watch 110/0,110/3,110/4", "unplug C4 watch 110/3,647/3,647/4,647/5"), tests(i));
    }

    private static Fact.Watched watched(String plug) {
        Setup setup =
                new Setup(Optional.of("key-on"), Optional.empty(), List.of(plug), List.of(), OptionalDouble.empty());
        return new Fact.Watched(Fact.Method.UNPLUG, setup, List.of(new Code(110, 3)));
    }

    /** Splice S1 feeds C2 and C3; nothing of it hangs on J1/6. */
    @Test
    void aReadingOverTheCopperThatWasRepairedIsLeftOut() {
        CaseIntake i = intake(
                active("110/3"),
                ohms("J1/3", "C2/1", "J1", "C2"),
                ohms("J1/6", "C1/1", "J1", "C1"),
                clean(Spot.of(PlaceId.Kind.SPLICE, "S1")),
                clean(Spot.of(PlaceId.Kind.SPLICE, "S2")),
                work(Fact.Deed.REPAIRED, Spot.of(PlaceId.Kind.SPLICE, "S1")),
                active("110/3"));
        assertEquals(List.of("ohms J1/6 C1/1", "look splice S2"), tests(i));
    }

    @Test
    void aLookAtWhatLiesInAReplacedBranchIsLeftOut() {
        CaseIntake i = intake(
                active("110/3"),
                clean(Spot.of(PlaceId.Kind.SPLICE, "S1")),
                clean(Spot.of(PlaceId.Kind.WIRE, "W14")),
                clean(Spot.of(PlaceId.Kind.WIRE, "W1")),
                work(Fact.Deed.REPLACED, TRUNK),
                active("110/3"));
        assertEquals(List.of("look wire W1"), tests(i));
    }

    @Test
    void aReplacedBranchOfAChosenHarnessIsAllOfIt() {
        Fact chosen = new ClaimFact.Chose(ClaimFact.Option.FULL_HARNESS, TRUNK, "", Optional.empty());
        CaseIntake i = intake(active("110/3"), chosen, work(Fact.Deed.REPLACED, TRUNK), active("100/4"));
        Set<String> plugs = Harness.TEACHING.circuit().connectors().keySet();
        assertEquals(plugs, work(i).apart().keySet());
        CaseIntake one = intake(active("110/3"), work(Fact.Deed.REPLACED, TRUNK), active("100/4"));
        assertEquals(Set.of(), work(one).apart().keySet());
    }
}
