package loomcase.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.faults.WorkDone;
import loomcase.faults.WorkDone.Deed;
import loomcase.faults.WorkDone.Job;
import loomcase.j1939.Code;
import loomcase.model.PlaceId;
import loomcase.rank.Evidence;
import loomcase.rank.Ranking;
import loomcase.verdict.Handiwork;
import loomcase.verdict.HarnessNeed;
import loomcase.verdict.Remedy;
import org.junit.jupiter.api.Test;

/** Going on in the same visit: what the check run shows, what a remedy is as work done, and how a case ends. */
class GoingOnTest {
    private static final Bench BENCH = new Casework(Shop.BUILT_IN).circuit(Path.of("circuits/teaching.json"));
    private static final World EXACT = new World(0, 0, 0, 0, 0, 0);
    private static final List<String> POINTS = List.of("key-on");

    private static Set<Code> codes(List<Evidence.Seen> seen) {
        return seen.stream().map(Evidence.Seen::code).collect(Collectors.toSet());
    }

    /** Of a fault that stays, in a world where nothing is missed, the check run shows the codes that were read before. */
    @Test
    void theCheckRunShowsWhatIsLeft() {
        Cases cases = new Cases(BENCH, POINTS, EXACT, 4);
        int shown = 0;
        for (Cases.Case one : cases.dozen(Planted.Kind.SINGLE, 0)) {
            if (one.evidence().isEmpty()) continue;
            List<Evidence.Seen> again =
                    cases.replies().checkRun(one, one.planted().faults(), POINTS, 1);
            assertEquals(
                    spns(one.evidence().get().codes()),
                    spns(again),
                    one.planted().truth().get(0).id());
            shown += again.isEmpty() ? 0 : 1;
            assertEquals(List.of(), cases.replies().checkRun(one, List.of(), POINTS, 1));
        }
        assertTrue(shown > 3, "faults that show a code: " + shown);
    }

    /** The FMI that one condition is shown with is drawn anew each time. */
    private static Set<Integer> spns(List<Evidence.Seen> seen) {
        return codes(seen).stream().map(Code::spn).collect(Collectors.toSet());
    }

    private static Remedy remedy(String option, PlaceId place, List<String> replaced) {
        return new Remedy(
                option + " " + place.id(),
                option,
                place,
                option,
                List.of(),
                List.of(),
                List.of(),
                1,
                Map.of(),
                replaced,
                new Remedy.Detail(List.of(), List.of(), List.of(), List.of(), List.of(), List.of()));
    }

    @Test
    void aRemedyIsTheWorkThatATechnicianWouldWriteDown() {
        Handiwork handiwork = new Handiwork(BENCH.circuit(), BENCH.layout());
        PlaceId plug = new PlaceId(PlaceId.Kind.CONNECTOR, "C1");
        PlaceId cavity = new PlaceId(PlaceId.Kind.CAVITY, "C1/1");
        PlaceId sensor = new PlaceId(PlaceId.Kind.DEVICE, "ECT");
        PlaceId branch = new PlaceId(PlaceId.Kind.BRANCH, "B2");
        assertEquals(
                List.of(new Job(Deed.RESEATED, plug), new Job(Deed.CLEANED, plug)),
                handiwork.of(remedy("reseat", plug, List.of())).jobs());
        assertEquals(
                List.of(new Job(Deed.REPAIRED, cavity)),
                handiwork.of(remedy("terminal", cavity, List.of())).jobs());
        assertEquals(
                List.of(new Job(Deed.REPLACED, sensor)),
                handiwork.of(remedy("device", sensor, List.of())).jobs());
        assertEquals(
                WorkDone.section(BENCH.circuit(), BENCH.layout(), List.of("B2")),
                handiwork.of(remedy("branch-section", branch, List.of("B2"))));
        assertTrue(handiwork.of(remedy("monitor", sensor, List.of())).isNone());
    }

    /** A case ends mended or comes back; with more than one repair the visit went on; each costs minutes. */
    @Test
    void everyCaseEndsMendedOrComesBack() {
        Cases cases = new Cases(BENCH, POINTS, World.USUAL, 4);
        Play play = new Play(BENCH, cases.replies());
        List<Worked> all = new ArrayList<>();
        for (Planted.Kind kind : List.of(Planted.Kind.DOUBLE, Planted.Kind.UNIFORM))
            for (Cases.Case one : cases.dozen(kind, 0)) {
                if (one.evidence().isEmpty() || !one.shows()) continue;
                all.addAll(BENCH.solving(ranker -> {
                    Ranking ranking = ranker.rank(one.evidence().get(), share -> {});
                    return play.all(one, ranking, ranker).values();
                }));
            }
        for (Worked w : all) {
            Worked.Ruled last = w.verdicts().get(w.verdicts().size() - 1);
            // With sensors first several that were fitted at once are one entry, which mends when the first of them
            // did.
            // What is stopped when the loom is open ends mended by the harness, and its verdict did not mend.
            boolean stopped = w.harness() == HarnessNeed.RULES;
            if (!last.option().equals("device") && !stopped) assertEquals(w.back(), !last.mends(), w.toString());
            assertTrue(w.back() || w.minutes() > 0, w.toString());
        }
        assertTrue(all.stream().anyMatch(w -> w.verdicts().size() > 1 && !w.back()), "no visit went on and ended well");
        assertTrue(all.stream().anyMatch(Worked::back), "nothing ever came back");
    }

    /**
     * More wires hurt at one place than the rules let anybody splice, in a branch of no section: whatever was chosen, the open
     * loom shows it, and the harness is fitted, which takes the 150 minutes of the circuit file.
     */
    @Test
    void whatTheRulesStopEndsWithTheHarness() {
        Cases cases = new Cases(BENCH, POINTS, World.USUAL, 4);
        Play play = new Play(BENCH, cases.replies());
        List<Worked> stopped = new ArrayList<>();
        for (int n = 0; n < 10 && stopped.size() < 4; n++)
            for (Cases.Case one : cases.dozen(Planted.Kind.COMMON, n)) {
                if (one.evidence().isEmpty() || !one.shows()) continue;
                BENCH
                        .solving(ranker -> {
                            Ranking ranking = ranker.rank(one.evidence().get(), share -> {});
                            return play.all(one, ranking, ranker).values();
                        })
                        .stream()
                        .filter(w -> w.harness() == HarnessNeed.RULES && !w.back())
                        .forEach(stopped::add);
            }
        assertTrue(stopped.stream().anyMatch(w -> w.verdicts().stream().noneMatch(Worked.Ruled::harness)));
        for (Worked w : stopped) {
            assertTrue(w.minutes() >= 150, w.toString());
            assertTrue(w.verdicts().stream().allMatch(v -> !v.mends() || v.harness()), w.toString());
        }
    }
}
