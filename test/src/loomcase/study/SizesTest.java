package loomcase.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import loomcase.meter.Subject;
import loomcase.model.Edit;
import loomcase.model.PlaceId;
import loomcase.rank.Ranking;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.stat.inference.KolmogorovSmirnovTest;
import org.junit.jupiter.api.Test;

/** Faults of a study are not of the very size that a hypothesis says, and are still known for what they are. */
class SizesTest {
    private static final Bench BENCH = new Casework(Shop.BUILT_IN).circuit(Path.of("circuits/teaching.json"));
    private static final List<Hypothesis> ALL =
            new FaultGenerator(BENCH.circuit(), BENCH.layout(), BENCH.priors()).generate();
    private static final Sizes SIZES = new Sizes(BENCH.circuit(), 0.4);
    private static final PlaceId WIRE = new PlaceId(PlaceId.Kind.WIRE, "W1");

    private static List<Edit> sized(Hypothesis h, int seed) {
        return SIZES.of(h.place(), ((Hypothesis.Fixed) h.cause()).edits(), new SplittableRandom(seed));
    }

    private static List<Hypothesis> of(String family) {
        return ALL.stream().filter(h -> h.family().equals(family)).toList();
    }

    /** Log-normal about the hypothesis: Kolmogorov and Smirnov's test against the normal law (Commons Math). */
    @Test
    void sizesAreLogNormalAboutTheHypothesis() {
        SplittableRandom random = new SplittableRandom(5);
        double[] logs = IntStream.range(0, 2000)
                .mapToDouble(i -> ((Edit.Series) SIZES.of(WIRE, List.of(new Edit.Series("wire:W1", 30)), random)
                                .get(0))
                        .ohms())
                .map(ohms -> Math.log10(ohms / 30))
                .toArray();
        double p = new KolmogorovSmirnovTest().kolmogorovSmirnovTest(new NormalDistribution(0, 0.4), logs, false);
        assertTrue(p > 0.01, "p = " + p);
    }

    @Test
    void whatHasNoSizeStaysAsItIs() {
        for (Hypothesis h : ALL)
            if (List.of("wire.open", "condition.engine", "device.ratiometric.open", "fuse.open")
                    .contains(h.family())) assertEquals(((Hypothesis.Fixed) h.cause()).edits(), sized(h, 3), h.id());
        List<Edit> one = List.of(new Edit.Bridge("C1/1", "chassis", 1000));
        assertEquals(one, new Sizes(BENCH.circuit(), 0).of(WIRE, one, new SplittableRandom(1)));
    }

    /** A drift is more or less of the same: it goes the way its hypothesis goes and stays within what a sensor can give. */
    @Test
    void aDriftKeepsItsSide() {
        int moved = 0;
        for (int seed = 0; seed < 50; seed++) {
            for (Hypothesis h : of("device.ntc.drift")) {
                if (h.id().contains(" like ")) continue;
                double nominal =
                        ((Edit.Value) ((Hypothesis.Fixed) h.cause()).edits().get(0)).value();
                double factor = ((Edit.Value) sized(h, seed).get(0)).value();
                assertEquals(nominal > 1, factor > 1, h.id() + " " + factor);
                moved += factor == nominal ? 0 : 1;
            }
            for (Hypothesis h : of("device.ratiometric.drift")) {
                double share = ((Edit.Value) sized(h, seed).get(0)).value();
                assertTrue(share >= 0.08 && share <= 0.92, h.id() + " " + share);
                assertTrue(SIZES.same(member(h, sized(h, seed)), h), h.id() + " " + share);
            }
        }
        assertEquals(50 * 4, moved, "ECT too cold and too hot, a little and a lot");
    }

    private static Ranking.Member member(Hypothesis h, List<Edit> edits) {
        return new Ranking.Member(
                "another size", h.words(), h.place(), 1, edits, new Subject(h.family(), h.places(), false, edits));
    }

    /** Any size of one fault is that fault; the other way to drift, a break, another place are not. */
    @Test
    void aFaultIsTheSameWhateverItsSize() {
        for (String family : List.of("wire.resistive", "wire.leak-ground", "contact.resistive", "device.ntc.drift"))
            for (Hypothesis h : of(family)) {
                assertTrue(SIZES.same(member(h, sized(h, 8)), h), h.id());
                for (Hypothesis other : of(family)) {
                    List<Edit> edits = ((Hypothesis.Fixed) other.cause()).edits();
                    boolean same = family.equals("device.ntc.drift")
                            ? cold(h) == cold(other) && (h.equals(other) || drifts(h) && drifts(other))
                            : h.places().equals(other.places());
                    assertEquals(same, SIZES.same(member(other, edits), h), h.id() + " taken for " + other.id());
                }
            }
        Hypothesis open = of("contact.open").get(0);
        assertFalse(SIZES.same(member(open, List.of(new Edit.Series("contact:C1/1", 30))), open));
    }

    private static boolean drifts(Hypothesis h) {
        return !h.id().contains(" like ");
    }

    private static boolean cold(Hypothesis h) {
        return h.id().contains("cold");
    }

    /** With other sizes the rest of a case is drawn as before, so that studies can be laid beside each other. */
    @Test
    void theRestOfACaseDoesNotHangOnSizes() {
        World exact = new World(1, 1.2, 0.07, 0.004, 0, 0);
        CaseDraw one = new CaseDraw(BENCH.circuit(), ALL, exact, h -> true, 3);
        CaseDraw other = new CaseDraw(BENCH.circuit(), ALL, World.USUAL, h -> true, 3);
        int differ = 0;
        for (Planted.Kind kind : Planted.Kind.values())
            for (int i = 0; i < 30; i++) {
                SplittableRandom a = new SplittableRandom(i);
                SplittableRandom b = new SplittableRandom(i);
                Planted p = one.draw(kind, a, new SplittableRandom(~i));
                Planted q = other.draw(kind, b, new SplittableRandom(~i));
                assertEquals(p.truth(), q.truth());
                assertEquals(p.off(), q.off());
                assertEquals(a.nextLong(), b.nextLong(), "more was drawn in one of them");
                differ += p.faults().equals(q.faults()) ? 0 : 1;
            }
        assertTrue(differ > 60, "cases whose fault has another size: " + differ);
    }
}
