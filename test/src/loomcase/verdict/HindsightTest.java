package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What a remedy costs once the truth is known, worked by hand from the package's formula. */
class HindsightTest {
    private static final int HARNESS = 2;

    /**
     * The wire and sensor of {@link StakesTest}: labour 60, downtime 30 an hour, K = 60 + 30 + 60 = 150.
     *
     * @param splice probability that the splice cures the wire
     */
    private static Hindsight example(double splice, int... truths) {
        Stakes.Bill small = new Stakes.Bill(0, 30, 15);
        Stakes.Bill part = new Stakes.Bill(0, 20, 90);
        Stakes.Bill whole = new Stakes.Bill(0, 600, 1000);
        List<Stakes.Act> acts = List.of(
                new Stakes.Act(
                        "splice", 4, small, small, new double[] {splice, 0}, 0.1, new double[] {0.2, 0}, new int[] {2}),
                new Stakes.Act("sensor", 9, part, part, new double[] {0, 1}, 0, new double[2], new int[0]),
                new Stakes.Act("harness", 7, whole, whole, new double[] {1, 0}, 0, new double[2], new int[0]));
        return new Hindsight(new Stakes(new double[] {0.7, 0.3}, acts, new Rates(60, 30), 60, 2, 300), HARNESS, truths);
    }

    /**
     * <pre>
     * E(splice | wire)    = 60 + 0.1·2050 + 0.9·(0.1·210 + 0.2·2050) = 60 + 205 + 387.9 = 652.9
     * E(splice | sensor)  = 60 + 150 + 120 = 330
     * E(sensor | wire)    = 120 + 150 + 60 + 0.2·2050 = 740
     * E(harness | wire)   = 1900
     * minutes: splice | wire 30 + 0.1·(60 + 30); splice | sensor 30 + 60 + 20
     * </pre>
     */
    @Test
    void oneFaultCostsWhatTheFormulaSays() {
        assertEquals(652.9, example(0.9, 0).of(0).money(), 1e-9);
        assertEquals(39, example(0.9, 0).of(0).minutes(), 1e-9);
        assertTrue(example(0.9, 0).of(0).mends());
        assertEquals(330, example(0.9, 1).of(0).money(), 1e-9);
        assertEquals(110, example(0.9, 1).of(0).minutes(), 1e-9);
        assertFalse(example(0.9, 1).of(0).mends());
        assertEquals(740, example(0.9, 0).of(1).money(), 1e-9);
        assertEquals(1900, example(0.9, 0).of(HARNESS).money(), 1e-9);
    }

    /** 60 for the splice once, 652.9 − 60 for what follows in the wire, 330 − 60 for the sensor that it leaves. */
    @Test
    void ofTwoFaultsTheBillIsCountedOnce() {
        assertEquals(60 + 592.9 + 270, example(0.9, 0, 1).of(0).money(), 1e-9);
        assertFalse(example(0.9, 0, 1).of(0).mends());
    }

    /** Not cured costs a comeback and the cure: 150 + 60 + 0.2·2050 for the wire. */
    @Test
    void doingNothingCostsAComebackAndTheCure() {
        Hindsight.Outcome none = example(0.9, 0).of(Optional.empty());
        assertEquals(620, none.money(), 1e-9);
        assertEquals(90, none.minutes(), 1e-9);
        assertFalse(none.mends());
    }

    /** With a splice that never holds in this wire, E(splice | wire) = 60 + 150 + 1900 = 2110 and E(harness | wire) = 1900. */
    @Test
    void aFaultThatOnlyAHarnessMendsNeedsOne() {
        assertFalse(example(0.9, 0).harnessNeeded());
        assertFalse(example(0.9, 1).harnessNeeded());
        assertFalse(example(0.9, 0, 1).harnessNeeded());
        assertTrue(example(0, 0).harnessNeeded());
        assertTrue(example(0, 0, 1).harnessNeeded());
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
        assertFalse(h.of(chosen).mends());
        assertFalse(h.harnessNeeded());
        Optional<Remedy> elsewhere = maker.choose(
                        Situation.codesOnly(Posteriors.ranking("device.failed@device:FAN=0.9")),
                        List.of(),
                        TestWorth.NONE)
                .leading();
        assertThrows(IllegalArgumentException.class, () -> h.of(elsewhere));
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
        options.forEach(o ->
                assertTrue(h.of(Optional.of(o.remedy())).money() > 0, o.remedy().id()));
    }
}
