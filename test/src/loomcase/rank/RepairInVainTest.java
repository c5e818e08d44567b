package loomcase.rank;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.demo.Harness;
import loomcase.faults.WorkDone;
import loomcase.faults.WorkDone.Deed;
import loomcase.faults.WorkDone.Job;
import loomcase.meter.Outcome;
import loomcase.meter.Setup;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;

/**
 * A repair after which the codes are the same. Bayes in closed form: the odds of a fault that the repair leaves with
 * probability f move by f against every fault that it does not concern, whatever the codes are.
 */
class RepairInVainTest {
    private static final Harness H = Harness.TEACHING;
    private static final double MENDED = 0.06;
    private static final double SAME = 1e-9;
    private static final PlaceId ECT = new PlaceId(PlaceId.Kind.DEVICE, "ECT");
    private static final WorkDone NEW_SENSOR = WorkDone.inVain(List.of(new Job(Deed.REPLACED, ECT)));

    private static Ranking rank(Evidence e) {
        return H.ranker().rank(e, share -> {});
    }

    /** Share of each hypothesis listed as a fault by itself. */
    private static Map<String, Double> singles(Ranking r) {
        Map<String, Double> out = new HashMap<>();
        r.suspects().stream()
                .filter(s -> !s.twoFaults())
                .flatMap(s -> s.members().stream())
                .forEach(m -> out.put(m.id(), m.probability()));
        return out;
    }

    @Test
    void theOddsMoveByExactlyTheFactor() {
        Evidence codes = Complaints.typed("110/3", "", Complaints.BOTH);
        Ranking before = rank(codes);
        Ranking after = rank(codes.with(NEW_SENSOR));
        Map<String, Double> was = singles(before);
        Map<String, Double> is = singles(after);
        double others = after.unexplained() / before.unexplained();
        int mended = 0;
        int left = 0;
        for (String id : was.keySet()) {
            if (!is.containsKey(id)) continue;
            boolean sensor = id.startsWith("device.") && id.contains("ECT");
            assertEquals(sensor ? MENDED : 1, is.get(id) / was.get(id) / others, SAME, id);
            if (sensor) mended++;
            else left++;
        }
        assertTrue(mended >= 1 && left >= 10, mended + " of the sensor, " + left + " others compared");
    }

    /** Where the likeliest single fault is. */
    private static PlaceId likeliest(Ranking r) {
        return r.suspects().get(0).members().get(0).place();
    }

    /** Without the work the sensor is the likeliest fault; with it another is. */
    @Test
    void theNewSensorIsNotBlamedAgain() {
        Evidence codes = Complaints.typed("110/3", "", Complaints.BOTH);
        assertEquals(ECT, likeliest(rank(codes)));
        Ranking after = rank(codes.with(NEW_SENSOR));
        assertTrue(!likeliest(after).equals(ECT), after.suspects().get(0).words());
    }

    /** Measured after the repair, the new sensor is open by itself: nothing else explains that. */
    @Test
    void aRepairedPlaceComesFirstWhereNothingElseExplainsTheReading() {
        Evidence.Tested open = new Evidence.Tested(
                new loomcase.meter.Test.Ohms("C1/1~", "C1/2~", Setup.off().unplug(List.of("C1"))),
                new Outcome.OverRange());
        Ranking after = rank(
                Complaints.typed("110/3", "", Complaints.BOTH).with(NEW_SENSOR).with(open));
        assertEquals(ECT, after.suspects().get(0).place());
        assertTrue(
                after.suspects().get(0).probability() > 0.7,
                after.suspects().get(0).toString());
    }

    /** The repair cured one fault and left another: codes of a wire that nobody worked at lead to that wire as before. */
    @Test
    void otherCodesAfterTheRepairAreExplainedAsEver() {
        Evidence codes = Complaints.typed("100/4", "", Complaints.BOTH);
        PlaceId first = rank(codes).suspects().get(0).place();
        assertEquals(first, rank(codes.with(NEW_SENSOR)).suspects().get(0).place());
    }

    /** Every pair moves by the factors of its halves, so whatever a pair with the new sensor scored it scores f times that. */
    @Test
    void pairsMoveWithTheirHalves() {
        Evidence codes = Complaints.typed("110/3,647/5", "", Complaints.BOTH);
        Map<String, Double> was = pairs(codes);
        Map<String, Double> is = pairs(codes.with(NEW_SENSOR));
        int with = 0;
        for (String id : was.keySet()) {
            if (!is.containsKey(id)) continue;
            boolean sensor = id.contains("device.ntc.open ECT");
            assertEquals(sensor ? Math.log(MENDED) : 0, is.get(id) - was.get(id), SAME, id);
            if (sensor) with++;
        }
        assertTrue(with >= 1, is.keySet().toString());
    }

    /** Scores of the pairs of single faults, every fault a group by itself, so that leaders are the same with work and without. */
    private static Map<String, Double> pairs(Evidence e) {
        Ranker.Weighed w = H.ranker().weighed(e, share -> {});
        List<Group> each = w.groups().stream()
                .flatMap(g -> g.members().stream())
                .filter(c -> Set.of("device.ntc.open", "wire.open", "device.coil.open")
                        .contains(c.hypothesis().family()))
                .flatMap(c -> Group.of(List.of(c)).stream())
                .toList();
        return new AllPairs(w.predictor(), w.likelihood(), each, 50, Double.NEGATIVE_INFINITY)
                .search(List.of()).stream()
                        .collect(Collectors.toMap(s -> PairOracle.ids(s.a(), s.b()), AllPairs.Scored::score));
    }

    @Test
    void theRepairIsListedAmongTheEvidence() {
        Evidence codes = Complaints.typed("110/3", "", Complaints.BOTH);
        Ranking after = rank(codes.with(NEW_SENSOR));
        List<Ranking.TestPiece> sensor = after.suspects().stream()
                .filter(x -> x.members().stream().anyMatch(m -> m.id().equals("device.ntc.open ECT element open")))
                .findFirst()
                .orElseThrow()
                .tests();
        assertEquals(1, sensor.size());
        // The sensor is in a group whose first is another one.
        assertEquals("device ECT replaced, a fault there", sensor.get(0).words());
        assertEquals("codes there after it", sensor.get(0).outcome());
        assertEquals(MENDED, sensor.get(0).likelihoodRatio(), SAME);
        assertTrue(rank(codes).suspects().stream().allMatch(s -> s.tests().isEmpty()));
    }

    /** What was kept on disk for a complaint is not taken for that of the complaint after work. */
    @Test
    void aComplaintAfterWorkIsAnotherOne() {
        Evidence codes = Complaints.typed("110/3", "", Complaints.BOTH);
        MetBefore met = new MetBefore(Set.of()).with(codes);
        assertTrue(met.has(codes));
        assertTrue(!met.has(codes.with(NEW_SENSOR)));
    }
}
