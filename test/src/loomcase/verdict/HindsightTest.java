package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;

/** What a remedy costs once the truth is known, worked by hand from the package's formula. */
class HindsightTest {
    /** Number of the harness among the acts of {@link #stakes}. */
    static final int HARNESS = 2;

    private static final Remedy WHOLE = new Remedy(
            "harness",
            "full-harness",
            new PlaceId(PlaceId.Kind.BRANCH, "all"),
            "replace the whole harness",
            List.of(),
            List.of(),
            List.of(),
            0,
            Map.of(),
            List.of(),
            Remedy.Detail.NONE);

    /**
     * The wire and sensor of {@link StakesTest}: labour 60, downtime 30 an hour, K = 60 + 30 + 60 = 150.
     *
     * @param splice probability that the splice cures the wire
     * @param weight of the wire, and of the sensor where it is among the causes
     */
    static Stakes stakes(double splice, double... weight) {
        Stakes.Bill small = new Stakes.Bill(0, 30, 15);
        Stakes.Bill part = new Stakes.Bill(0, 20, 90);
        Stakes.Bill whole = new Stakes.Bill(0, 600, 1000);
        int n = weight.length;
        List<Stakes.Act> acts = List.of(
                act("splice", 4, small, first(n, splice, 0), 0.1, first(n, 0.2, 0), 2),
                act("sensor", 9, part, first(n, 0, 1), 0, new double[n]),
                act("harness", 7, whole, first(n, 1, 0), 0, new double[n]));
        return new Stakes(weight, List.of(), acts, new Rates(60, 30), new Stakes.Afterwards(60, 2, 300));
    }

    private static Hindsight example(double splice, int... truths) {
        return new Hindsight(stakes(splice, 0.7, 0.3), WHOLE, truths);
    }

    private static double[] first(int n, double... x) {
        return Arrays.copyOf(x, n);
    }

    private static Stakes.Act act(
            String id, int size, Stakes.Bill bill, double[] cures, double fails, double[] hidden, int... cleanedBy) {
        return new Stakes.Act(
                id, size, bill, bill, cures, new double[cures.length], fails, hidden, cleanedBy, new int[0]);
    }

    /**
     * <pre>
     * E(splice | wire)    = 60 + 0.1·2050 + 0.9·(0.1·210 + 0.2·2050) = 60 + 205 + 387.9 = 652.9
     * E(harness | wire)   = 1900
     * minutes: splice | wire 30 + 0.1·(60 + 30)
     * </pre>
     */
    @Test
    void oneFaultThatIsCuredCostsWhatTheFormulaSays() {
        assertEquals(652.9, example(0.9, 0).of(0).money(), 1e-9);
        assertEquals(39, example(0.9, 0).of(0).minutes(), 1e-9);
        assertEquals(1900, example(0.9, 0).of(HARNESS).money(), 1e-9);
    }

    /** The splice leaves the sensor: its own bill alone, and at the comeback 150 and the sensor's 120; 60 + 20 minutes. */
    @Test
    void whatIsNotCuredIsNotReckonedUntilItComesBack() {
        Hindsight h = example(0.9, 1);
        assertEquals(new Hindsight.Outcome(60, 30), h.of(0));
        assertEquals(new Hindsight.Outcome(270, 80), h.comeback(new boolean[1]));
        assertEquals(new Hindsight.Outcome(330, 110), h.of(0).then(h.comeback(new boolean[1])));
    }

    /** 652.9 for the splice as above; then 150 and 120 for the sensor that it leaves. */
    @Test
    void ofTwoFaultsTheBillIsCountedOnce() {
        Hindsight h = example(0.9, 0, 1);
        assertEquals(652.9, h.of(0).money(), 1e-9);
        assertEquals(270, h.comeback(new boolean[] {true, false}).money(), 1e-9);
    }

    /** Not cured costs a comeback and the cure: 150 + 652.9 for the wire; the sensor's 120 comes in the same one. */
    @Test
    void aComebackIsPaidOnceForAllThatIsLeft() {
        assertEquals(new Hindsight.Outcome(802.9, 90), example(0.9, 0).comeback(new boolean[1]));
        Hindsight.Outcome both = example(0.9, 0, 1).comeback(new boolean[2]);
        assertEquals(922.9, both.money(), 1e-9);
        assertEquals(110, both.minutes(), 1e-9);
    }

    /**
     * The wire is left and only the harness may mend it: 150 and 1900, 60 + 600 minutes. With the sensor left too the harness
     * comes on top of its comeback, 270 and 80 minutes.
     */
    @Test
    void aComebackForTheHarnessBuysIt() {
        assertEquals(new Hindsight.Outcome(2050, 660), example(0.9, 0).comebackForHarness(new boolean[1]));
        assertEquals(new Hindsight.Outcome(2170, 680), example(0.9, 0, 1).comebackForHarness(new boolean[2]));
    }

    /** A posterior that is wrong altogether: the truth still gets its own remedy, and the harness is not it. */
    @Test
    void theTruthNeedNotBeAmongTheSuspects() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        Situation s = Situation.codesOnly(Posteriors.ranking("device.failed@device:ECT=0.9"));
        var truth = Posteriors.ranking("contact.backed-out@cavity:C1/1=1")
                .suspects()
                .get(0)
                .members();
        Hindsight h = maker.hindsight(s, truth);
        Optional<Remedy> chosen = maker.choose(s, List.of(), TestWorth.NONE).leading();
        assertEquals("device ECT", chosen.orElseThrow().id());
        assertArrayEquals(new boolean[] {false}, h.cured(chosen));
        assertArrayEquals(new boolean[] {false}, h.cured(Optional.empty()));
        Optional<Remedy> elsewhere = maker.choose(
                        Situation.codesOnly(Posteriors.ranking("device.failed@device:FAN=0.9")),
                        List.of(),
                        TestWorth.NONE)
                .leading();
        assertThrows(IllegalArgumentException.class, () -> h.of(elsewhere.orElseThrow()));
    }

    /** However many places share the posterior, the truth's own remedies come on top and push out none of the others. */
    @Test
    void everyRemedyOfTheVerdictHasItsHindsight() {
        VerdictMaker maker = Posteriors.maker(Posteriors.LARCH, Posteriors.LAWLESS);
        String spread = IntStream.rangeClosed(1, 16)
                .mapToObj(n -> "contact.backed-out@cavity:J2/" + n + "=" + (0.06 - 0.001 * n))
                .collect(Collectors.joining(";"));
        Situation s = Situation.codesOnly(Posteriors.ranking(spread));
        var truth = Posteriors.ranking("contact.backed-out@cavity:C-ECT/1=1")
                .suspects()
                .get(0)
                .members();
        Hindsight h = maker.hindsight(s, truth);
        List<Verdict.Weighed> options =
                maker.decide(s, List.of(), TestWorth.NONE).options();
        assertTrue(options.size() > 14);
        options.forEach(o -> assertTrue(h.of(o.remedy()).money() > 0, o.remedy().id()));
    }

    /**
     * Codes name two of the three wires that wore through. Who opens the loom there sees the third; who lays new wires for the two
     * does not.
     */
    @Test
    void theOpenLoomShowsEveryWireThatWasHurt() {
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        Situation s = Situation.codesOnly(Posteriors.ranking("common.rub-point.open@branch:B1*W11+W13=0.97"));
        var truth = Posteriors.ranking("common.rub-point.open@branch:B1*W11+W13+W14=1")
                .suspects()
                .get(0)
                .members();
        Hindsight h = maker.hindsight(s, truth);
        Verdict v = maker.decide(s, List.of(), TestWorth.NONE);
        assertArrayEquals(new boolean[] {true}, h.cured(Optional.of(remedy(v, "splice-repair B1"))));
        assertArrayEquals(new boolean[] {false}, h.cured(Optional.of(remedy(v, "overlay-wire B1"))));
        assertEquals("splice-repair B1", v.leading().orElseThrow().remedy().id());
    }

    /**
     * Branch BE2 of larch-13 is 0.7 m long and has its rub points at 0.22 and 0.55 m. A wire worn at one is spliced there, but
     * 300 mm off the end where there is room for that (FAA AC 43.13-1B ch. 11: 12 inches, from memory).
     */
    @Test
    void aWireIsSplicedAtTheRubPointThatItIsWornAt() {
        assertEquals(0.22, splicedAt("R2"), 0.1);
        assertEquals(0.4, splicedAt("R3"), 0.05);
    }

    private static double splicedAt(String rubPoint) {
        Ranking bare = Posteriors.ranking("common.rub-point.open@branch:BE2*W147+W148=0.97");
        Ranking.Suspect s = bare.suspects().get(0);
        Ranking.Member m = s.members().get(0);
        Ranking.Member worn = new Ranking.Member(
                m.id(), m.words(), m.place(), 0.97, m.edits(), m.subject().at(Optional.of(rubPoint)));
        Ranking ranking = new Ranking(
                bare.codes(),
                List.of(new Ranking.Suspect(
                        1,
                        0.97,
                        s.places(),
                        s.words(),
                        List.of(worn),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        Set.of())),
                bare.rollup(),
                0,
                0.03,
                0,
                List.of(),
                1);
        Verdict v = Posteriors.maker(Posteriors.LARCH, Posteriors.LAWLESS)
                .decide(Situation.codesOnly(ranking), List.of(), TestWorth.NONE);
        return remedy(v, "splice-repair BE2").detail().splices().stream()
                .mapToDouble(Remedy.SpliceSite::metresAlong)
                .average()
                .orElseThrow();
    }

    private static Remedy remedy(Verdict v, String id) {
        return v.options().stream()
                .map(Verdict.Weighed::remedy)
                .filter(r -> r.id().equals(id))
                .findFirst()
                .orElseThrow();
    }
}
