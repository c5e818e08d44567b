package loomcase.verdict;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import loomcase.meter.Subject;
import loomcase.model.PlaceId;
import loomcase.plan.NextTest;
import org.junit.jupiter.api.Test;

/** What a test leaves of two faults at once; shares by Bayes' rule, by hand. */
class OutlookTest {
    private static final String FIRST = "contact.open@cavity:C1/1=0.75; wire.open@wire:W1=0.25";
    private static final String SECOND = "device.ratiometric.fixed@device:OPS=1";
    private static final String ALONE = "contact.open@cavity:C2/1=0.2";
    private static final PlaceId PLUG = Posteriors.place("cavity:C1/1");

    /** A look at the plug: finds something under a fault there with this probability, else never. */
    private static final double FOUND = 0.8;

    private static final TestWorth.Prospects LOOK = (test, subjects, weights) -> {
        List<Double> found = new ArrayList<>();
        for (Subject s : subjects) found.add(s.named().contains(PLUG) ? FOUND : 0);
        return List.of(found, found.stream().map(p -> 1 - p).toList());
    };

    private static Weighing weighing(double atOnce) {
        Situation s = Posteriors.situation(Posteriors.twoFaults(atOnce, FIRST, SECOND, ALONE), "", "");
        return Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS).weighing(s);
    }

    private static List<Outlook> outlook(double atOnce) {
        Weighing w = weighing(atOnce);
        return Outlook.of(w.causes(), w.pairs(), Posteriors.test(5).test(), LOOK);
    }

    @Test
    void whatEitherMayBeFollowsBayesRule() {
        List<Outlook> out = outlook(0.7);
        int pair = weighing(0.7).pairs().get(0).hypothesis();
        assertEquals(0.75 * FOUND, out.get(0).chance()[pair], 1e-12);
        assertEquals(1 - 0.75 * FOUND, out.get(1).chance()[pair], 1e-12);
        assertArrayEquals(new double[] {1, 0}, out.get(0).pairs().get(0).first().shares(), 1e-12);
        double clean = 0.75 * (1 - FOUND) + 0.25;
        assertArrayEquals(
                new double[] {0.75 * (1 - FOUND) / clean, 0.25 / clean},
                out.get(1).pairs().get(0).first().shares(),
                1e-12);
        for (Outlook o : out)
            assertArrayEquals(new double[] {1}, o.pairs().get(0).second().shares(), 1e-12);
    }

    @Test
    void anImprobablePairShowsWhatTheOthersDo() {
        Weighing w = weighing(0.005);
        Outlook found = Outlook.of(w.causes(), w.pairs(), Posteriors.test(5).test(), LOOK)
                .get(0);
        assertEquals(0, found.chance()[w.pairs().get(0).hypothesis()], 1e-12);
        assertSame(w.pairs().get(0), found.pairs().get(0));
    }

    @Test
    void chancesAddUpToOneForEveryCause() {
        List<Outlook> out = outlook(0.7);
        for (int h = 0; h < weighing(0.7).causes().size(); h++) {
            int which = h;
            assertEquals(1, out.stream().mapToDouble(o -> o.chance()[which]).sum(), 1e-12);
        }
    }

    /** A test that tells where the first of two faults is saves the comeback of a repair at the other place. */
    @Test
    void aTestPaysWhereItTellsWhichOfTwoPlacesToRepair() {
        String even = "contact.open@cavity:C1/1=0.5; wire.open@wire:W1=0.5";
        Situation s = Posteriors.situation(Posteriors.twoFaults(0.98, even, SECOND, "engine@engine:x=0.01"), "", "");
        NextTest test = Posteriors.test(1);
        TestWorth.Prospects perfect = (t, subjects, weights) -> {
            List<Double> plug = subjects.stream()
                    .map(x -> x.named().contains(PLUG) ? 1.0 : 0.0)
                    .toList();
            return List.of(plug, plug.stream().map(p -> 1 - p).toList());
        };
        Verdict v = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS).decide(s, List.of(test), perfect);
        TestWorth worth = v.worth().orElseThrow();
        assertTrue(worth.pays(), worth.toString());
    }

    /**
     * What a test saves is what verdicts on each of its outcomes would save, decided one by one with what it leaves of the two
     * faults: among them one that no remedy joined before the test cures.
     */
    @Test
    void savingIsThatOfTheVerdictsThatFollow() {
        double atOnce = 0.98;
        List<String> first = List.of("contact.open@cavity:C1/1", "wire.open@wire:W1", "device.ntc.open@device:ECT");
        double[] shares = {0.4, 0.35, 0.25};
        TestWorth.Prospects perfect = (t, subjects, weights) -> {
            List<List<Double>> out = new ArrayList<>();
            for (String f : first) {
                PlaceId place = Posteriors.place(f.substring(f.indexOf('@') + 1));
                out.add(subjects.stream()
                        .map(x -> x.named().contains(place) ? 1.0 : 0.0)
                        .toList());
            }
            return out;
        };
        VerdictMaker maker = Posteriors.maker(Posteriors.TEACHING, Posteriors.LAWLESS);
        String all = first.get(0) + "=0.4;" + first.get(1) + "=0.35;" + first.get(2) + "=0.25";
        Verdict now = maker.decide(situation(atOnce, all), List.of(Posteriors.test(1)), perfect);
        double later = 0;
        for (int o = 0; o < 3; o++)
            later += shares[o]
                    * maker.decide(situation(atOnce, first.get(o) + "=1"), List.of(), TestWorth.NONE)
                            .leading()
                            .orElseThrow()
                            .cost()
                            .total();
        double act = now.leading().orElseThrow().cost().total();
        assertEquals(act - later, now.worth().orElseThrow().saving(), 0.01 * act);
    }

    /** What is missing to 1 is outside the model and shows each outcome as often as the pair does. */
    private static Situation situation(double atOnce, String first) {
        return Posteriors.situation(Posteriors.twoFaults(atOnce, first, SECOND, "engine@engine:x=0.0001"), "", "");
    }
}
