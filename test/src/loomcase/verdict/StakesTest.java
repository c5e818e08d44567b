package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The formula of the package against an example worked by hand, and what it must never do. */
class StakesTest {
    private static final boolean[] ALL = {true, true, true};

    /** A fresh diagnosis 60 minutes, 2 hours of standing at a comeback, 300 minutes outside the circuit. */
    private static final Stakes.Afterwards AFTER = new Stakes.Afterwards(60, 2, 300);

    private static Stakes.Act act(
            String id, int size, Stakes.Bill bill, double[] cures, double fails, double[] hidden, int... cleanedBy) {
        return act(id, size, bill, cures, new double[2], fails, hidden, cleanedBy);
    }

    private static Stakes.Act act(
            String id,
            int size,
            Stakes.Bill bill,
            double[] cures,
            double[] shows,
            double fails,
            double[] hidden,
            int... cleanedBy) {
        return new Stakes.Act(id, size, bill, bill, cures, shows, fails, hidden, cleanedBy, new int[0]);
    }

    /**
     * Two faults, 0.7 in a wire and 0.3 in a sensor; labour 60, downtime 30 an hour; a comeback takes 60 minutes of diagnosis
     * and 2 hours of standing: K = 60 + 30 + 60 = 150. No code shows at a check run what was not cured.
     *
     * <pre>
     * splice  30 minutes, parts 15: M = 30 + 15 + 15 = 60; cures the wire 0.9, fails 0.1, leaves damage 0.2
     * sensor  20 minutes, parts 90: M = 20 + 10 + 90 = 120; cures the sensor 1.0
     * harness 600 minutes, parts 1000: M = 600 + 300 + 1000 = 1900; cures the wire 1.0; takes away what the splice leaves
     *
     * H(splice) = 150 + 1900 = 2050
     * C(wire after splice)    = 150 + 1900 = 2050 (the harness is the only other cure)
     * C(sensor after splice)  = 150 + 120 = 270
     * E(splice) = 60 + 0.7·0.1·2050 + 0.3·270 + 0.7·0.9·(0.1·(150 + 60) + 0.2·2050)
     *           = 60 + 143.5 + 81 + 0.63·(21 + 410) = 60 + 143.5 + 81 + 271.53 = 556.03
     * E(harness) = 1900 + 0.3·270 = 1981
     * E(splice | wire)        = 60 + 0.1·2050 + 0.9·(21 + 410) = 652.9, less than the harness
     * C(wire after sensor)    = 150 + 652.9 = 802.9; E(sensor) = 120 + 0.7·802.9 = 682.03
     * </pre>
     */
    private static Stakes example(Rates rates, double parts, double hidden, double fails) {
        return new Stakes(
                new double[] {0.7, 0.3},
                List.of(),
                List.of(
                        act(
                                "splice",
                                4,
                                new Stakes.Bill(0, 30, 15 * parts),
                                new double[] {0.9, 0},
                                fails,
                                new double[] {hidden, 0},
                                2),
                        act("sensor", 9, new Stakes.Bill(0, 20, 90 * parts), new double[] {0, 1}, 0, new double[2]),
                        act(
                                "harness",
                                7,
                                new Stakes.Bill(0, 600, 1000 * parts),
                                new double[] {1, 0},
                                0,
                                new double[2])),
                rates,
                AFTER);
    }

    @Test
    void theExampleComesOutAsWorkedByHand() {
        Stakes s = example(new Rates(60, 30), 1, 0.2, 0.1);
        assertEquals(150, s.comebackOverhead(), 1e-9);
        ExpectedCost splice = s.expected(0);
        assertEquals(60, splice.now(), 1e-9);
        assertEquals(143.5 + 81, splice.comeback(), 1e-9);
        assertEquals(0.63 * 21, splice.failure(), 1e-9);
        assertEquals(0.63 * 410, splice.hidden(), 1e-9);
        assertEquals(556.03, splice.total(), 1e-9);
        assertEquals(682.03, s.expected(1).total(), 1e-9);
        assertEquals(1981, s.expected(2).total(), 1e-9);
    }

    @Test
    void scalingAllMoneyScalesTheCostsAndChangesNothingElse() {
        Stakes one = example(new Rates(60, 30), 1, 0.2, 0.1);
        Stakes ten = example(new Rates(600, 300), 10, 0.2, 0.1);
        for (int a = 0; a < 3; a++)
            assertEquals(10 * one.expected(a).total(), ten.expected(a).total(), 1e-6);
        assertEquals(one.cheapest(one.totals(), ALL), ten.cheapest(ten.totals(), ALL));
    }

    @Test
    void aHigherComebackRateNeverFavoursTheWeakerRepair() {
        Random random = new Random(7);
        for (int i = 0; i < 500; i++) {
            double b = random.nextDouble() * 0.5;
            Stakes low = example(new Rates(60, 30), 1, random.nextDouble(), b);
            Stakes high = example(new Rates(60, 30), 1, low.acts().get(0).hidden()[0], b + 0.3);
            double before = low.expected(0).total() - low.expected(2).total();
            double after = high.expected(0).total() - high.expected(2).total();
            assertTrue(after >= before - 1e-9, before + " then " + after);
        }
    }

    @Test
    void aHigherDamageProbabilityNeverFavoursTheSmallerRepair() {
        double last = Double.NEGATIVE_INFINITY;
        for (double g = 0; g <= 1; g += 0.01) {
            Stakes s = example(new Rates(60, 30), 1, g, 0.1);
            double margin = s.expected(0).total() - s.expected(2).total();
            assertTrue(margin >= last, "at " + g);
            last = margin;
        }
    }

    @Test
    void expectationIsLinearInTheWeights() {
        Stakes s = example(new Rates(60, 30), 1, 0.2, 0.1);
        double[] parts = new double[3];
        for (double[] w : List.of(new double[] {0.7, 0}, new double[] {0, 0.3})) {
            double[] t = s.weighing(w).totals();
            for (int a = 0; a < 3; a++) parts[a] += t[a];
        }
        double[] whole = s.totals();
        for (int a = 0; a < 3; a++) assertEquals(whole[a], parts[a], 1e-9);
    }

    @Test
    void forbiddenActsAreNotChosenAndTheSmallerWorkBreaksATie() {
        Stakes s = example(new Rates(60, 30), 1, 0.2, 0.1);
        assertEquals(0, s.cheapest(s.totals(), ALL).orElseThrow());
        assertEquals(
                1, s.cheapest(s.totals(), new boolean[] {false, true, true}).orElseThrow());
        assertTrue(s.cheapest(s.totals(), new boolean[3]).isEmpty());
        List<Stakes.Act> twins = new ArrayList<>(s.acts().subList(0, 1));
        Stakes.Act a = twins.get(0);
        twins.add(0, act("larger", 8, a.now(), a.cures(), a.fails(), a.hidden(), 0));
        twins.add(s.acts().get(2));
        Stakes tied = new Stakes(s.weight(), List.of(), twins, s.rates(), AFTER);
        double[] totals = tied.totals();
        totals[0] = totals[1];
        assertEquals(1, tied.cheapest(totals, ALL).orElseThrow());
    }

    private static final boolean[] FOUR = {true, true, true, true};

    /**
     * Two faults at once, one at a plug and one in a sensor, behind the same cover of 30 minutes. Labour 60 and downtime 30 an
     * hour, so a minute costs 1.5, and K = 150 as above. Hypotheses: both at once, the plug alone, the sensor alone; the last
     * two are the halves of the first and carry no weight.
     *
     * <pre>
     * plug    30 + 10 minutes, parts 5:  M = 65;  cures the plug 0.9, fails 0.1, so b·(K + M) = 21.50
     * sensor  30 + 20 minutes, parts 45: M = 120; cures the sensor 1.0
     * harness 600 minutes, parts 1000:   M = 1900; cures the plug 1.0
     * both    30 + 30 minutes, parts 50: M = 140; the cover is opened once: 45 less than 65 + 120
     *
     * What comes next is weighed like a first repair:
     * R(plug) = 65 + 0.1·(150 + 1900) + 0.9·21.50 = 289.35, R(sensor) = 120, and once the plug was tried R = 1900
     * </pre>
     */
    private static Stakes twoFaults(double atOnce, double plugAlone) {
        return twoFaults(atOnce, plugAlone, new double[5]);
    }

    private static Stakes twoFaults(double atOnce, double plugAlone, double[] shows) {
        double[] none = new double[5];
        Stakes.Bill plug = new Stakes.Bill(30, 10, 5);
        Stakes.Bill sensor = new Stakes.Bill(30, 20, 45);
        Stakes.Bill harness = new Stakes.Bill(0, 600, 1000);
        Stakes.Bill both = new Stakes.Bill(30, 30, 50);
        int[] clean = {};
        return new Stakes(
                new double[] {atOnce, plugAlone, 1 - atOnce - plugAlone, 0, 0},
                List.of(new Stakes.Pair(
                        0,
                        new Stakes.Half(new int[] {3}, new double[] {1}),
                        new Stakes.Half(new int[] {4}, new double[] {1}))),
                List.of(
                        new Stakes.Act(
                                "plug",
                                1,
                                plug,
                                plug,
                                new double[] {0, 0.9, 0, 0.9, 0},
                                shows,
                                0.1,
                                none,
                                clean,
                                clean),
                        new Stakes.Act(
                                "sensor",
                                9,
                                sensor,
                                sensor,
                                new double[] {0, 0, 1, 0, 1},
                                shows,
                                0,
                                none,
                                clean,
                                clean),
                        new Stakes.Act(
                                "harness",
                                7,
                                harness,
                                harness,
                                new double[] {0, 1, 0, 1, 0},
                                shows,
                                0,
                                none,
                                clean,
                                clean),
                        new Stakes.Act(
                                "both",
                                9,
                                both,
                                both,
                                new double[] {0.9, 0.9, 1, 0.9, 1},
                                shows,
                                0.1,
                                none,
                                clean,
                                new int[] {0, 1})),
                new Rates(60, 30),
                AFTER);
    }

    /**
     * Both at once 0.80, the plug alone 0.15, the sensor alone 0.05:
     *
     * <pre>
     * E(both)   = 140 + 0.80·(0.1·2050 + 21.50) + 0.15·(0.1·2050 + 0.9·21.50) + 0.05·21.50
     *           = 140 + 181.20 + 33.6525 + 1.075 = 355.9275
     * E(plug)   = 65 + 0.80·(0.9·(150 + 120) + 0.1·(150 + 1900 + 120) + 0.9·21.50)
     *               + 0.15·(0.1·2050 + 0.9·21.50) + 0.05·(150 + 120)
     *           = 65 + 383.48 + 33.6525 + 13.50 = 495.6325
     * E(sensor) = 120 + 0.95·(150 + 289.35) = 537.3825
     * </pre>
     */
    @Test
    void twoFaultsThatAreLikelyAreRepairedInOneVisit() {
        Stakes s = twoFaults(0.8, 0.15);
        assertEquals(355.9275, s.expected(3).total(), 1e-9);
        assertEquals(495.6325, s.expected(0).total(), 1e-9);
        assertEquals(537.3825, s.expected(1).total(), 1e-9);
        assertEquals(3, s.cheapest(s.totals(), FOUR).orElseThrow());
    }

    /**
     * Both at once 0.10, the plug alone 0.85, the sensor alone 0.05:
     *
     * <pre>
     * E(both) = 140 + 0.10·(205 + 21.50) + 0.85·(205 + 19.35) + 0.05·21.50 = 140 + 22.65 + 190.6975 + 1.075 = 354.4225
     * E(plug) = 65 + 0.10·(243 + 217 + 19.35) + 0.85·(205 + 19.35) + 0.05·270 = 65 + 47.935 + 190.6975 + 13.50
     *         = 317.1325
     * </pre>
     */
    @Test
    void whereOneFaultIsLikelierOneRepairIsEnough() {
        Stakes s = twoFaults(0.1, 0.85);
        assertEquals(354.4225, s.expected(3).total(), 1e-9);
        assertEquals(317.1325, s.expected(0).total(), 1e-9);
        assertEquals(0, s.cheapest(s.totals(), FOUR).orElseThrow());
    }

    /**
     * With the sensor never there alone and both at once with share x: E(both) − E(plug) = 75 + x·(205 + 21.50 − 243 −
     * 217 − 19.35) = 75 − 252.85·x, so from x = 75 / 252.85 = 0.2966 on both are repaired.
     */
    @Test
    void theShareFromWhichBothAreRepairedIsTheOneWorkedOut() {
        for (double x : new double[] {0.25, 0.29, 0.30, 0.35}) {
            Stakes s = twoFaults(x, 1 - x);
            assertEquals(x > 75 / 252.85 ? 3 : 0, s.cheapest(s.totals(), FOUR).orElseThrow(), "at " + x);
        }
    }

    /** Known to be two faults, each act is that of the tree: 0.9 · 1 both cured, else a comeback for what is left. */
    @Test
    void theExpectationIsThatOfTheTreeOfOutcomes() {
        Stakes s = twoFaults(1, 0);
        double tree = 140 + 0.9 * 1 * 21.5 + 0.1 * 1 * (21.5 + 150 + 1900);
        assertEquals(tree, s.expected(3).total(), 1e-9);
    }

    /**
     * The first example where the sensor's fault shows a code at the check run 0.8 of the time and the wire's 0.5. A diagnosis
     * costs 60 + 30 = 90 and standing still 60, so what is paid before the next remedy is 90 + 0.2·60 = 102 and 90 + 0.5·60 =
     * 120.
     *
     * <pre>
     * E(splice) = 60 + 0.7·0.1·(120 + 1900) + 0.3·(102 + 120) + 271.53 = 60 + 141.4 + 66.6 + 271.53 = 539.53
     * E(splice | wire) = 60 + 0.1·(120 + 1900) + 0.9·431 = 649.9
     * E(sensor) = 120 + 0.7·(120 + 649.9) = 658.93
     * </pre>
     */
    @Test
    void whatTheCheckRunShowsIsGoneOnWithInTheSameVisit() {
        Stakes none = example(new Rates(60, 30), 1, 0.2, 0.1);
        double[] shows = {0.5, 0.8};
        List<Stakes.Act> acts = none.acts().stream()
                .map(a -> act(a.id(), a.size(), a.now(), a.cures(), shows, a.fails(), a.hidden(), a.cleanedBy()))
                .toList();
        Stakes s = new Stakes(none.weight(), List.of(), acts, none.rates(), AFTER);
        assertEquals(539.53, s.expected(0).total(), 1e-9);
        assertEquals(658.93, s.expected(1).total(), 1e-9);
    }

    /**
     * Known to be two faults, each of which shows a code with 0.5 where it is left. Before the next remedy 90 + 0.5·60 = 120
     * where one is left; where both are, 0.75 that either shows: 90 + 0.25·60 = 105. R(plug) is then 65 + 0.1·(120 + 1900) +
     * 0.9·21.50 = 286.35.
     *
     * <pre>
     * E(both)   = 140 + 0.1·(120 + 1900) + 21.50 = 363.50
     * E(plug)   = 65 + 0.9·(120 + 120) + 0.1·(105 + 1900 + 120) + 0.9·21.50 = 512.85
     * E(sensor) = 120 + 120 + 286.35 = 526.35
     * </pre>
     */
    @Test
    void ofTwoFaultsEitherMayShowThatOneIsLeft() {
        double[] shows = {0, 0.5, 0.5, 0.5, 0.5};
        Stakes s = twoFaults(1, 0, shows);
        assertEquals(363.5, s.expected(3).total(), 1e-9);
        assertEquals(512.85, s.expected(0).total(), 1e-9);
        assertEquals(526.35, s.expected(1).total(), 1e-9);
    }

    /** What nothing cures is found outside: 300 minutes, and 2 hours of standing unless it showed: 300 + 150 + 0.2·60. */
    @Test
    void whatNothingCuresStandsStillOnlyWhereNoCodeShowsIt() {
        double[] shows = {0.8};
        Stakes.Act any = new Stakes.Act(
                "any",
                1,
                Stakes.Bill.NOTHING,
                Stakes.Bill.NOTHING,
                new double[1],
                shows,
                0,
                new double[1],
                new int[0],
                new int[0]);
        Stakes s = new Stakes(new double[] {1}, List.of(), List.of(any), new Rates(60, 30), AFTER);
        assertEquals(462, s.expected(0).total(), 1e-9);
    }
}
