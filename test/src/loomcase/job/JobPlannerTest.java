package loomcase.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.model.AccessStep;
import loomcase.model.Branch;
import loomcase.model.Circuit;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.model.read.CircuitReader;
import loomcase.policy.Policy;
import loomcase.predict.CircuitFacts;
import org.junit.jupiter.api.Test;

/**
 * Properties that any job sheet must have. An order in which each step follows those it needs is a topological order (A. B.
 * Kahn, "Topological sorting of large networks", CACM 5 (1962) 558): the check below is its definition.
 */
class JobPlannerTest {
    private static final Circuit CIRCUIT = CircuitReader.read(Path.of("circuits/larch-13.json"));
    private static final JobPlanner PLANNER = new JobPlanner(
            CIRCUIT,
            new Layout(CIRCUIT),
            Policy.builtIn().decide(CircuitFacts.codes(CIRCUIT), CircuitFacts.places(CIRCUIT)));

    private static List<Work> works() {
        List<Work> out = new ArrayList<>();
        out.add(new Work.Harness());
        CIRCUIT.costs().sections().forEach(s -> out.add(new Work.Section(s.id())));
        CIRCUIT.connectors().keySet().forEach(c -> out.add(repair(PlaceId.Kind.CONNECTOR, c)));
        CIRCUIT.splices().keySet().forEach(s -> out.add(repair(PlaceId.Kind.SPLICE, s)));
        CIRCUIT.branches().keySet().forEach(b -> out.add(repair(PlaceId.Kind.BRANCH, b)));
        return out;
    }

    private static Work repair(PlaceId.Kind kind, String id) {
        return new Work.Repair(List.of(new PlaceId(kind, id)));
    }

    private static List<String> steps(List<Task> tasks) {
        return tasks.stream()
                .map(Task::step)
                .flatMap(Optional::stream)
                .distinct()
                .toList();
    }

    @Test
    void everyStepFollowsThoseItNeedsAndStandsOnce() {
        for (Work w : works()) {
            List<String> order = steps(PLANNER.plan(w, Set.of()).opening());
            Set<String> done = new HashSet<>();
            for (String id : order) {
                assertTrue(done.containsAll(CIRCUIT.access().get(id).needs()), w + ": " + id + " in " + order);
                assertTrue(done.add(id), w + ": " + id + " stands twice");
            }
        }
    }

    @Test
    void closingIsTheReverseOfOpening() {
        for (Work w : works()) {
            JobSheet sheet = PLANNER.plan(w, Set.of());
            List<String> back = new ArrayList<>(steps(sheet.opening()));
            Collections.reverse(back);
            assertEquals(back, steps(sheet.closing()), w.words());
        }
    }

    @Test
    void minutesAreThoseOfTheDistinctSteps() {
        for (Work w : works()) {
            JobSheet sheet = PLANNER.plan(w, Set.of());
            double sum = steps(sheet.opening()).stream()
                    .mapToDouble(s -> CIRCUIT.access().get(s).minutes())
                    .sum();
            assertEquals(sum, sheet.accessMinutes(), 1e-9, w.words());
        }
    }

    @Test
    void whatIsOpenIsNotOpenedAgainButIsClosed() {
        Work w = repair(PlaceId.Kind.CONNECTOR, "J2");
        JobSheet all = PLANNER.plan(w, Set.of());
        JobSheet rest = PLANNER.plan(w, Set.of("hood", "left-guard"));
        assertEquals(List.of("unit-bracket"), steps(rest.opening()));
        assertEquals(steps(all.closing()), steps(rest.closing()));
        assertEquals(2, rest.alreadyOpen().size());
        assertEquals(CIRCUIT.access().get("unit-bracket").minutes(), rest.accessMinutes());
    }

    @Test
    void everythingAStepCallsForAfterwardsIsALineWithItsCautionBeside() {
        for (Work w : works()) {
            JobSheet sheet = PLANNER.plan(w, Set.of());
            for (String id : steps(sheet.opening())) {
                AccessStep s = CIRCUIT.access().get(id);
                long lines = sheet.closing().stream()
                        .filter(t -> t.step().equals(Optional.of(id)))
                        .count();
                assertEquals(1 + s.after().size(), lines, w.words() + " " + id);
                if (!s.caution().isEmpty())
                    assertTrue(
                            sheet.opening().stream()
                                    .filter(t -> t.step().equals(Optional.of(id)))
                                    .allMatch(t -> !t.cautions().isEmpty()),
                            id);
            }
        }
    }

    @Test
    void noBranchIsLaidBeforeTheOneItHangsOn() {
        Set<String> reached = new HashSet<>();
        CIRCUIT.controlUnit()
                .connectors()
                .forEach(c -> reached.add(CIRCUIT.connectors().get(c).at()));
        List<Branch> laid = new Route(CIRCUIT, CIRCUIT.branches().keySet()).laid();
        assertEquals(CIRCUIT.branches().size(), laid.size());
        for (Branch b : laid) {
            assertTrue(reached.contains(b.from()) || reached.contains(b.to()), b.id() + " hangs in the air");
            reached.add(b.from());
            reached.add(b.to());
        }
    }

    @Test
    void theControlUnitIsPluggedLastAndUnpluggedFirst() {
        JobSheet sheet = PLANNER.plan(new Work.Harness(), Set.of());
        int n = sheet.working().size();
        assertTrue(sheet.working().get(n - 1).words().contains("(J2)")
                || sheet.working().get(n - 1).words().contains("(J1)"));
        assertTrue(sheet.unplugging().get(0).words().contains("control unit plug"));
        assertEquals(CIRCUIT.connectors().size(), sheet.unplugging().size());
    }

    @Test
    void aSectionThatIsNotThereIsNamed() {
        InputProblem p = assertThrows(InputProblem.class, () -> PLANNER.plan(new Work.Section("nose"), Set.of()));
        assertEquals(
                "section nose: the circuit has sections under-cover-front, under-cover-rear, hot-side, front, engine,"
                        + " frame, cab, aftertreatment",
                p.getMessage());
    }
}
