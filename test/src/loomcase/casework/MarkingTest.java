package loomcase.casework;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import loomcase.j1939.Code;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.model.Layout;
import loomcase.model.PlaceId;
import loomcase.model.Wire;
import loomcase.rank.Ranking;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Wires that light when a suspect is tapped, against where the circuit file lays them. */
class MarkingTest {
    private static final Casework CASEWORK = new Casework(Shop.BUILT_IN);

    private static Answer demo(String name) {
        return CASEWORK.open(Path.of("demo-cases", name + ".jsonl")).answer();
    }

    private static List<String> traced(Answer a, int rank) {
        return a.suspicion(rank).trace();
    }

    /** The demo case of a branch rubbed through; every wire that lights must run along that branch. */
    @Test
    void aRubbedBranchLightsWiresThatRunAlongIt() {
        Answer a = demo("chafed-branch");
        Ranking.Suspect first = a.ranking().suspects().get(0);
        assertEquals(PlaceId.Kind.BRANCH, first.place().kind());
        Layout layout = a.layout();
        Set<String> along = layout.in(first.place().id()).stream().map(Wire::id).collect(Collectors.toSet());
        List<String> lit = traced(a, first.rank());
        assertFalse(lit.isEmpty());
        assertTrue(along.containsAll(lit), lit + " of " + along);
        assertTrue(lit.size() < along.size(), "not simply the whole branch");
    }

    /** The teaching harness' coolant plug has two cavities, with wires W11 and W10 in its file. */
    @Test
    void aPlugThatIsOffLightsAllItsWires(@TempDir Path folder) {
        Path file = folder.resolve("off.jsonl");
        Entry.Stamp ada = Entry.Stamp.of(OffsetDateTime.parse("2024-05-01T10:20:30+02:00"), "ada");
        JournalFile.create(
                file,
                new Fact.Opened(
                        CaseFile.name(file, Path.of("circuits/teaching.json").toAbsolutePath()),
                        "x",
                        Optional.empty(),
                        OptionalDouble.empty()),
                ada);
        Fact.ReadCode code = new Fact.ReadCode(new Code(110, 3), OptionalInt.empty(), Fact.State.ACTIVE);
        JournalFile.append(
                file,
                new Fact.Codes(List.of(code), List.of("key-on", "idle-warm"), Optional.empty(), Optional.empty()),
                ada);
        Answer a = CASEWORK.open(file).answer();
        Ranking.Suspect off = a.ranking().suspects().stream()
                .filter(s ->
                        s.places().stream().anyMatch(p -> p.place().equals(new PlaceId(PlaceId.Kind.CONNECTOR, "C1"))))
                .findFirst()
                .orElseThrow();
        List<String> lit = traced(a, off.rank());
        assertTrue(lit.containsAll(List.of("W11", "W10")), lit.toString());
    }

    @Test
    void noSuspectOfADemoCaseIsLeftDark() {
        for (String name : List.of("chafed-branch", "oil-in-unit-plug", "shared-splice")) {
            Answer a = demo(name);
            for (Ranking.Suspect s : a.ranking().suspects())
                if (s.place().kind() != PlaceId.Kind.ENGINE && s.place().kind() != PlaceId.Kind.CONTROL_UNIT)
                    assertFalse(traced(a, s.rank()).isEmpty(), name + ": " + s.words());
        }
    }
}
