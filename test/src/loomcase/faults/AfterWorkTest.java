package loomcase.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import loomcase.demo.Harness;
import loomcase.faults.WorkDone.Deed;
import loomcase.faults.WorkDone.Job;
import loomcase.model.Circuit;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What each kind of work leaves of each kind of fault: odds of the hypothesis after against before. */
class AfterWorkTest {
    private static final Harness H = Harness.TEACHING;
    private static final Circuit CIRCUIT = H.circuit();
    private static final Priors PRIORS = Priors.builtIn();
    private static final double MENDED = 0.06;
    private static final double TOUCHED = 0.75;
    private static final double SAME = 1e-9;

    private static PlaceId place(String text) {
        String[] part = text.split(":");
        for (PlaceId.Kind kind : PlaceId.Kind.values())
            if (kind.word().equals(part[0])) return new PlaceId(kind, part[1]);
        throw new IllegalArgumentException(text);
    }

    private static Map<String, Hypothesis> after(WorkDone work) {
        return AfterWork.weigh(CIRCUIT, H.layout(), PRIORS, H.hypotheses(), work).hypotheses().stream()
                .collect(Collectors.toMap(Hypothesis::id, h -> h));
    }

    private static double factor(WorkDone work, String id) {
        return odds(after(work).get(id)) / odds(H.hypothesis(id));
    }

    private static double odds(Hypothesis h) {
        return h.probability() / (1 - h.probability());
    }

    /** Only the repair, so that slips at plugs that were apart do not lie over it. */
    private static WorkDone only(String deed, String place) {
        return new WorkDone(Map.of(), List.of(new Job(Deed.valueOf(deed), place(place))));
    }

    @ParameterizedTest
    @CsvSource({
        "REPLACED, device:ECT, device.ntc.open ECT element open, 0.06",
        "REPLACED, device:ECT, device.ntc.drift ECT reads far too hot, 0.06",
        "CLEANED, device:ECT, device.ntc.open ECT element open, 0.75",
        "REPLACED, device:ECT, device.ratiometric.open OPS gives no signal, 1",
        "REPLACED, device:ECT, condition.engine ECT overheat, 1",
        "REPLACED, device:ECT, contact.fretted C1/1, 1",
        "REPLACED, device:ECT, nothing, 1",
        "REPLACED, control-unit:ECM, control-unit.pin ECM J1/6, 0.06",
        "REPLACED, cavity:J1/6, control-unit.pin ECM J1/6, 1",
        "REPLACED, fuse:F1, fuse.open F1, 0.06",
        "CLEANED, ground:G1, ground.resistive G1 3 ohm, 0.06",
        "CLEANED, ground:G1, ground.open G1, 0.75",
        "REPAIRED, ground:G1, ground.open G1, 0.06",
        "REPAIRED, splice:S1, splice.open S1, 0.06",
        "REPAIRED, splice:S1, splice.leg-open S1 W5, 0.06",
        "REPLACED, wire:W5, splice.leg-open S1 W5, 0.06",
        "REPAIRED, wire:W5, splice.leg-open S1 W5, 0.75",
        "REPAIRED, wire:W5, splice.leg-open S1 W6, 1",
        "REPLACED, cavity:C2/1, contact.fretted C2/1, 0.06",
        "REPLACED, cavity:C2/1, crimp.open C2/1, 0.06",
        "REPLACED, cavity:C2/1, contact.fretted C2/2, 1",
        "RESEATED, cavity:C2/1, contact.backed-out C2/1, 0.06",
        "RESEATED, cavity:C2/1, contact.fretted C2/1, 0.75",
        "RESEATED, connector:C2, common.unplugged C2, 0.06",
        "RESEATED, connector:C2, common.half-latched C2, 0.06",
        "RESEATED, connector:C2, common.wet-connector C2, 0.75",
        "CLEANED, connector:C2, common.wet-connector C2, 0.06",
        "CLEANED, connector:C2, contact.resistive C2/1 30 ohm, 0.06",
        "CLEANED, connector:C2, contact.bridge C2/1 2 200 ohm, 0.06",
        "REPLACED, cavity:C2/1, contact.bridge C2/1 2 200 ohm, 0.75",
        "REPLACED, cavity:C2/1, common.half-latched C2, 0.75",
        "REPLACED, connector:C2, crimp.open C2/3, 0.06",
        "REPLACED, connector:C2, common.swapped-cavities C2/1 2, 0.06",
        "REPLACED, connector:C2, contact.open C3/1, 1",
        "REPLACED, wire:W11, crimp.open C1/1, 0.06",
        "REPLACED, wire:W11, contact.fretted C1/1, 0.75",
        "REPAIRED, wire:W11, crimp.open C1/1, 1",
        "REPAIRED, wire:W11, wire.open W11, 0.06",
        "REROUTED, wire:W11, wire.short-ground W11, 0.06",
        "REROUTED, wire:W11, wire.open W11, 0.75",
        "REPAIRED, branch:B1, common.crushed-clip B1 ground, 0.06",
        "REPLACED, branch:B1, common.branch-cut B1, 0.06",
        "REPLACED, branch:B1, splice.open S1, 0.06",
        "REPAIRED, branch:B1, splice.open S1, 0.75",
        "REPLACED, branch:B2, splice.open S1, 1",
        "REPLACED, branch:B2, common.hot-spot B3, 1",
    })
    void workLeaves(String deed, String place, String id, double factor) {
        assertEquals(factor, factor(only(deed, place), id), SAME);
    }

    @Test
    void theFactorsAreThoseOfThePriorsFile() {
        assertEquals(MENDED, PRIORS.get("work.left.mended"));
        assertEquals(TOUCHED, PRIORS.get("work.left.touched"));
    }

    @Test
    void aSecondNewSensorSaysNoMoreThanTheFirst() {
        WorkDone once = only("REPLACED", "device:ECT");
        assertEquals(MENDED, factor(once.and(once), "device.ntc.open ECT element open"), SAME);
    }

    @Test
    void bothOfTwoBridgedTerminalsRenewedMendTheBridge() {
        WorkDone both = only("REPLACED", "cavity:C2/1").and(only("REPLACED", "cavity:C2/2"));
        assertEquals(MENDED, factor(both, "contact.bridge C2/1 2 200 ohm"), SAME);
    }

    /**
     * W11 runs 1.0 m in B1 and 0.5 m in B2, with 0.05 m at each end. B1 and B2 lie in one zone, whose factor is that of the
     * vibration, temperature and fluid rows; the ends count once.
     */
    @Test
    void aReplacedBranchMendsItsShareOfAWire() {
        double zone = H.hypothesis("wire.open W11").probability();
        double rate = PRIORS.get("wire.open") * 1e-6 * Priors.EXPOSURE_HOURS;
        double metres = -Math.log1p(-zone) / rate;
        double share = (metres - 0.1) * 0.5 / 1.5 / metres;
        assertEquals(
                share * MENDED + 1 - share, factor(only("REPLACED", "branch:B2"), "wire.open W11"), SAME, "B2 alone");
        WorkDone both = only("REPLACED", "branch:B1").and(only("REPLACED", "branch:B2"));
        double ends = 0.1 / metres;
        assertEquals((1 - ends) * MENDED + ends, factor(both, "wire.open W11"), SAME, "both branches");
    }

    /** The two signals have one wire each; the 5 V net has three in B1: W4 to the splice, W5 and W6 from it. */
    @Test
    void insulatingOneOfTwoWiresThatTouchMendsTheShort() {
        String signals = H.hypotheses().stream()
                .map(Hypothesis::id)
                .filter(id -> id.contains("W11") && id.contains("W12") && id.startsWith("wire.short"))
                .findFirst()
                .orElseThrow();
        assertEquals(MENDED, factor(only("REPAIRED", "wire:W11"), signals), SAME);
        assertEquals(MENDED, factor(only("REPAIRED", "wire:W12"), signals), SAME);
        assertEquals(1, factor(only("REPAIRED", "wire:W13"), signals), SAME);
        String supply = H.hypotheses().stream()
                .filter(h -> h.family().equals("wire.short-five-volt")
                        && h.places().stream().anyMatch(p -> p.id().equals("W11")))
                .map(Hypothesis::id)
                .findFirst()
                .orElseThrow();
        assertEquals(MENDED, factor(only("REPAIRED", "wire:W11"), supply), SAME);
        double some = factor(only("REPAIRED", "wire:W4"), supply);
        assertTrue(some > MENDED + 0.1 && some < 0.9, "one of three wires of a net: " + some);
    }

    @Test
    void workAtARubPointConcernsThatPointAlone() {
        WorkDone there = new WorkDone(
                Map.of(), List.of(new Job(Deed.REPAIRED, new PlaceId(PlaceId.Kind.BRANCH, "B1"), Optional.of("R1"))));
        assertEquals(MENDED, factor(there, "common.rub-point.ground B1 R1"), SAME);
        assertEquals(1, factor(there, "common.crushed-clip B1 ground"), SAME);
        assertEquals(1, factor(there, "wire.short-ground W11"), SAME);
    }

    @Test
    void aCommonCauseIsLeftForTheWiresThatWereNotRepaired() {
        Hypothesis h = after(only("REPAIRED", "wire:W11")).get("common.rub-point.ground B1 R1");
        assertEquals(
                H.hypothesis(h.id()).probability(), h.probability(), SAME, "the cause itself may have hit other wires");
        for (Hypothesis.Hit hit : ((Hypothesis.AnyOf) h.cause()).hits())
            assertEquals(
                    hit.place().id().equals("W11") ? MENDED : 1,
                    hit.left(),
                    SAME,
                    hit.place().id());
    }

    /** A terminal not seated after all plugs' terminals were moved is as probable as the slip, mended or not. */
    @Test
    void aSlipIsTheLeastThatIsLeft() {
        WorkDone work = WorkDone.of(CIRCUIT, new Job(Deed.REPLACED, place("connector:C2")));
        assertEquals(Map.of("C2", true), work.apart());
        Map<String, Hypothesis> after = after(work);
        assertEquals(
                PRIORS.get("work.slip.not-seated") / 3,
                after.get("contact.backed-out C2/1").probability(),
                SAME);
        assertEquals(
                PRIORS.get("work.slip.unplugged"),
                after.get("common.unplugged C2").probability(),
                SAME);
        assertEquals(MENDED, factor(work, "contact.fretted C2/1"), SAME);
    }

    @Test
    void aSectionHasThePlugsAtItsEnds() {
        WorkDone front = WorkDone.section(CIRCUIT, H.layout(), List.of("B2"));
        assertEquals(Map.of("C1", false, "C2", false, "C4", false), front.apart());
        assertEquals(MENDED, factor(front, "crimp.open C2/1"), SAME);
        assertEquals(1, factor(front, "crimp.open C3/1"), SAME);
        WorkDone all = WorkDone.section(
                CIRCUIT, H.layout(), List.copyOf(CIRCUIT.branches().keySet()));
        assertTrue(
                all.apart().keySet().containsAll(CIRCUIT.connectors().keySet()),
                all.apart().toString());
        assertEquals(MENDED, factor(all, "ground.resistive G1 3 ohm"), SAME);
        assertEquals(1, factor(all, "device.ntc.open ECT element open"), SAME);
    }

    @Test
    void whatWorkDidIsSaid() {
        WorkDone work = WorkDone.of(CIRCUIT, new Job(Deed.REPLACED, place("device:ECT")));
        AfterWork after = AfterWork.weigh(CIRCUIT, H.layout(), PRIORS, H.hypotheses(), work);
        AfterWork.Effect mended = after.effects().get("device.ntc.open ECT element open");
        assertEquals("device ECT replaced", mended.words());
        assertEquals(MENDED, mended.odds(), SAME);
        AfterWork.Effect slip = after.effects().get("common.unplugged C1");
        assertEquals("plug taken apart in the work", slip.words());
        assertTrue(slip.odds() > 50, slip.toString());
        assertTrue(!after.effects().containsKey("wire.open W11"), "a wire that nobody worked at");
    }
}
