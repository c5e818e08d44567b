package loomcase.casework;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.InputProblem;
import loomcase.j1939.Code;
import loomcase.j1939.CodeList;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import loomcase.journal.Spot;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import loomcase.model.read.Teaching;
import loomcase.verdict.Verdict;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Opening, answering and recording on the teaching circuit. */
class CaseworkTest {
    private static final Entry.Stamp ADA = Entry.Stamp.of(OffsetDateTime.parse("2024-05-01T10:20:30+02:00"), "ada");

    @TempDir
    private Path folder;

    private Path file;
    private final Casework casework = new Casework(Shop.BUILT_IN);

    @BeforeEach
    void open() throws IOException {
        open(Teaching.FILE);
    }

    private void open(Path harness) throws IOException {
        file = folder.resolve(harness.getFileName() + ".jsonl");
        Path circuit = Files.copy(harness, folder.resolve(harness.getFileName()));
        JournalFile.create(
                file,
                new Fact.Opened(CaseFile.name(file, circuit), "derates", Optional.empty(), OptionalDouble.empty()),
                ADA);
    }

    private void codes() {
        List<Fact.ReadCode> codes =
                List.of(new Fact.ReadCode(new Code(110, 3), OptionalInt.empty(), Fact.State.ACTIVE));
        JournalFile.append(file, new Fact.Codes(codes, List.of("key-on"), Optional.empty(), Optional.empty()), ADA);
    }

    @Test
    void aCaseWithoutCodesHasNoAnswer() {
        OpenCase c = casework.open(file);
        assertEquals(false, c.hasCodes());
        assertThrows(InputProblem.class, c::answer);
    }

    @Test
    void anUnchangedCaseIsAnsweredOnce() {
        codes();
        assertSame(casework.open(file).answer(), casework.open(file).answer());
        assertSame(
                casework.open(file).answer().ranking(),
                casework.open(file).answer().ranking());
    }

    /** A contact that comes and goes reads well or not from one time to the next, so the same reading would always tell more. */
    @Test
    void aTestThatWasMadeIsNotProposedAgainWhicheverWayRoundTheLeadsWere() throws IOException {
        open(Path.of("circuits/larch-13.json"));
        List<Fact.ReadCode> stored =
                List.of(new Fact.ReadCode(new Code(110, 3), OptionalInt.of(24), Fact.State.STORED));
        JournalFile.append(file, new Fact.Codes(stored, List.of("key-on"), Optional.empty(), Optional.empty()), ADA);
        loomcase.meter.Test.Volts first = (loomcase.meter.Test.Volts)
                casework.open(file).answer().next().get(0).test();
        assertEquals(List.of(), first.setup().unplugged());
        JournalFile.append(
                file,
                new Fact.Reading(
                        Fact.Test.VOLTS,
                        first.pointB(),
                        first.pointA(),
                        Shown.parse("-3.6V"),
                        Setup.at(Optional.of("key-on")),
                        Meter.NOT_SAID),
                ADA);
        List<String> then = casework.open(file).answer().next().stream()
                .map(t -> t.test().question())
                .toList();
        assertFalse(then.isEmpty());
        assertFalse(then.contains(first.question()), then.toString());
    }

    @Test
    void aCaseThatGrewIsAnsweredAnewOnTheSameBenchAndTheOldSnapshotStays() {
        codes();
        OpenCase before = casework.open(file);
        Answer old = before.answer();
        double first = old.ranking().suspects().get(0).probability();
        JournalFile.append(file, new Fact.Note("smells of diesel"), ADA);
        OpenCase after = casework.open(file);
        assertEquals(2, before.journal().entries().size());
        assertEquals(3, after.journal().entries().size());
        assertNotSame(old, after.answer());
        assertSame(old.bench(), after.bench());
        assertEquals(first, after.answer().ranking().suspects().get(0).probability(), 1e-12);
    }

    @Test
    void aLineIsRefusedWhenOthersWereFasterAndTheCallerMinds() {
        OpenCase mine = casework.open(file);
        Optional<Digest> known = Optional.of(mine.journal().last());
        casework.open(file).record(new Fact.Note("theirs"), ADA, false, known);
        Fact note = new Fact.Note("mine");
        InputProblem refused = assertThrows(JournalFile.Overtaken.class, () -> mine.record(note, ADA, false, known));
        assertEquals(
                file + ": the case has 2 lines now; somebody added to it since it was read. Read it again",
                refused.getMessage());
        assertEquals(2, JournalFile.read(file).entries().size());
        assertInstanceOf(OpenCase.Added.class, mine.record(note, ADA, false, Optional.empty()));
        assertEquals(3, JournalFile.read(file).entries().size());
    }

    @Test
    void aCircuitFileThatChangedIsReadAnew() throws IOException {
        Path circuit = folder.resolve("teaching.json");
        Bench before = casework.circuit(circuit);
        Files.writeString(circuit, Files.readString(circuit) + "\n");
        assertNotSame(before, casework.circuit(circuit));
        assertThrows(InputProblem.class, () -> casework.open(file));
        assertEquals(file, casework.openWith(file, Optional.empty()).file());
    }

    /**
     * Seven wires worn through at the bulkhead, so plain from the codes that no test saves a minute, and the rules forbid to splice
     * or replace on codes alone: something has to be looked at (common practice, no source), and the branch is proposed.
     */
    @Test
    void whereTheRulesForbidToActOnCodesAloneALookIsProposed() throws IOException {
        open(Path.of("circuits/larch-13.json"));
        List<Fact.ReadCode> codes = CodeList.parse(
                        "91/2,107/3,108/4,111/4,729/7,1176/4,1761/9,2623/4,3216/9,3226/9,3242/9,4334/9")
                .entries()
                .stream()
                .map(e -> new Fact.ReadCode(e.code(), OptionalInt.empty(), Fact.State.ACTIVE))
                .toList();
        JournalFile.append(
                file, new Fact.Codes(codes, List.of("key-on", "idle-warm"), Optional.empty(), Optional.empty()), ADA);
        Answer before = casework.open(file).answer();
        assertEquals(
                List.of("look branch BM1"),
                before.next().stream().map(t -> t.test().id()).toList());
        assertFalse(before.next().get(0).saves());
        assertEquals(Verdict.NOT_ENOUGH, before.verdict(Advice.USUAL).option());
        JournalFile.append(
                file,
                new Fact.Seen(new Spot(new PlaceId(PlaceId.Kind.BRANCH, "BM1"), Optional.empty()), Finding.CHAFE, ""),
                ADA);
        Answer after = casework.open(file).answer();
        assertEquals(List.of(), after.next());
        assertTrue(
                after.verdict(Advice.USUAL).settled(),
                after.verdict(Advice.USUAL).option());
    }
}
