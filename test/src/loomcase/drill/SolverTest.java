package loomcase.drill;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import loomcase.casework.Bench;
import loomcase.model.PlaceId;
import org.junit.jupiter.api.Test;

/** The planner plays drawn drills; harder ones take it longer. */
class SolverTest {
    private static final int SMALL = 7;

    private record Total(List<Double> finding, int right, int found) {
        double mean() {
            return finding.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
        }
    }

    private static Map<Difficulty, Total> play(Bench bench, int each, long seed) {
        Planter planter = new Planter(bench);
        Solver solver = new Solver(bench);
        Map<Difficulty, Total> out = new EnumMap<>(Difficulty.class);
        for (Difficulty d : Difficulty.values()) {
            List<Double> finding = new ArrayList<>();
            int right = 0;
            int found = 0;
            for (int k = 0; k < each; k++) {
                Planter.Made made = planter.draw(d, seed + k);
                Played played = solver.play(made.truth(), made.first());
                assertEquals(
                        played.bill().minutes(),
                        played.moves().stream()
                                .mapToDouble(m -> m.bill().minutes())
                                .sum(),
                        1e-9);
                finding.add(played.findingMinutes());
                if (played.rightFirst()) right++;
                if (played.found()) found++;
            }
            out.put(d, new Total(finding, right, found));
        }
        return out;
    }

    /** Twenty-one drawn drills: mean minutes to find rise with the difficulty. */
    @Test
    void harderDrillsTakeThePlannerLonger() {
        Map<Difficulty, Total> small = play(Shops.TEACHING, SMALL, 100);
        ordered(small);
        assertTrue(small.get(Difficulty.EASY).right() >= SMALL - 1, small.toString());
    }

    @Test
    void aHardDrillOfTheReferenceHarnessIsDrawnAndPlayed() {
        Planter.Made made = new Planter(Shops.larch()).draw(Difficulty.HARD, 2002);
        Played played = new Solver(Shops.larch()).play(made.truth(), made.first());
        assertTrue(Difficulty.HARD.holds(made.rating().score()), made.rating().toString());
        assertTrue(played.findingMinutes() > 0 && played.tests() > 0, played.toString());
    }

    private static void ordered(Map<Difficulty, Total> totals) {
        double easy = totals.get(Difficulty.EASY).mean();
        double medium = totals.get(Difficulty.MEDIUM).mean();
        double hard = totals.get(Difficulty.HARD).mean();
        assertTrue(easy < medium && medium < hard, easy + " < " + medium + " < " + hard);
    }

    @Test
    void theSameDrillIsPlayedTheSame() {
        Planter.Made made = new Planter(Shops.TEACHING)
                .plant(List.of("device.ratiometric.open MAP gives no signal"), Optional.empty(), false, 3);
        Played once = new Solver(Shops.TEACHING).play(made.truth(), made.first());
        assertEquals(once, new Solver(Shops.TEACHING).play(made.truth(), made.first()));
        assertEquals(List.of(new PlaceId(PlaceId.Kind.DEVICE, "MAP")), once.named());
        assertTrue(once.rightFirst() && once.found());
    }

    @Test
    void anEngineConditionIsNamedNotRepaired() {
        Planter.Made made =
                new Planter(Shops.TEACHING).plant(List.of("condition.engine OPS low-oil"), Optional.empty(), false, 3);
        Played played = new Solver(Shops.TEACHING).play(made.truth(), made.first());
        assertEquals(PlaceId.Kind.ENGINE, played.named().get(0).kind());
        assertEquals(0, played.bill().parts().signum());
        assertTrue(played.found());
    }
}
