package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import loomcase.InputProblem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Old lines stay; the last correction of a line holds. */
class CorrectionTest {
    private static final Fact WRONG = Samples.reading(Fact.Test.VOLTS, "C1/1", "chassis", "4.98V", Samples.KEY_ON);
    private static final Fact RIGHT = Samples.reading(Fact.Test.VOLTS, "C1/1", "chassis", "4.89V", Samples.KEY_ON);

    @TempDir
    private Path folder;

    private String refusal(Path file, Fact fact) {
        return assertThrows(InputProblem.class, () -> JournalFile.append(file, fact, Samples.STAMP))
                .getMessage();
    }

    @Test
    void correctedLineStandsInItsOldPlace() {
        Path file = Samples.write(folder, List.of(WRONG, new Fact.Note("between"), new Fact.Correction(2, RIGHT)));
        Journal journal = JournalFile.read(file);
        assertEquals(4, journal.entries().size());
        assertEquals(WRONG, journal.entries().get(1).fact());
        assertEquals(
                List.of(Samples.opened(), RIGHT, new Fact.Note("between")),
                journal.standing().stream().map(Standing::fact).toList());
        assertEquals(OptionalInt.of(4), journal.standing().get(1).correctedBy());
        assertEquals(OptionalInt.empty(), journal.standing().get(2).correctedBy());
    }

    @Test
    void lastCorrectionHolds() {
        Path file = Samples.write(
                folder,
                List.of(WRONG, new Fact.Correction(2, RIGHT), new Fact.Correction(2, new Fact.Note("wrong truck"))));
        Standing second = JournalFile.read(file).standing().get(1);
        assertEquals(new Fact.Note("wrong truck"), second.fact());
        assertEquals(OptionalInt.of(4), second.correctedBy());
    }

    @Test
    void openingIsCorrectedByAnOpeningOnly() {
        Path file = Samples.write(folder, List.of(WRONG));
        Fact.Opened other =
                new Fact.Opened(Samples.opened().circuit(), "no power", Optional.empty(), OptionalDouble.empty());
        JournalFile.append(file, new Fact.Correction(1, other), Samples.STAMP);
        assertEquals("no power", JournalFile.read(file).opened().complaint());
        assertEquals(
                file + ": line 1 opens the case; only another opening can stand in its place",
                refusal(file, new Fact.Correction(1, RIGHT)));
        assertEquals(
                file + ": line 2 cannot become an opening; only line 1 is one",
                refusal(file, new Fact.Correction(2, other)));
        assertEquals(file + ": only the first line of a case is of kind opened", refusal(file, other));
    }

    @Test
    void correctionsOfCorrectionsAndOfLaterLinesAreRefused() {
        Path file = Samples.write(folder, List.of(WRONG, new Fact.Correction(2, RIGHT)));
        assertEquals(
                file + ": line 3 is a correction of line 2; correct line 2 again",
                refusal(file, new Fact.Correction(3, RIGHT)));
        assertEquals(
                file + ": corrects line 4, which is not written yet; lines are 1 to 3",
                refusal(file, new Fact.Correction(4, RIGHT)));
        assertEquals(3, JournalFile.read(file).entries().size());
        assertEquals(
                "a correction cannot be replaced by a correction",
                assertThrows(
                                IllegalArgumentException.class,
                                () -> new Fact.Correction(2, new Fact.Correction(2, RIGHT)))
                        .getMessage());
    }

    /** A forger who computes the digests aright is still held to what may follow what. */
    @Test
    void readerHoldsTheSameRules() throws IOException {
        Path file = Samples.write(folder, List.of(WRONG));
        Digest before = Digest.of(Samples.lines(file).get(1));
        byte[] line = EntryLine.write(3, Samples.STAMP, new Fact.Correction(9, RIGHT), before);
        Files.write(file, line, java.nio.file.StandardOpenOption.APPEND);
        assertEquals(
                file + ": line 3: corrects line 9, which is not written yet; lines are 1 to 2",
                assertThrows(InputProblem.class, () -> JournalFile.read(file)).getMessage());
        Files.write(file, EntryLine.write(1, Samples.STAMP, WRONG, Digest.NONE));
        assertEquals(
                file + ": line 1: the first line of a case is of kind opened, not reading",
                assertThrows(InputProblem.class, () -> JournalFile.read(file)).getMessage());
    }

    @Test
    void openAccessFollowsCorrections() {
        Path file = Samples.write(
                folder,
                List.of(
                        new Fact.OpenedAccess("cover"),
                        new Fact.OpenedAccess("fan-guard"),
                        new Fact.ClosedAccess("cover"),
                        new Fact.Correction(4, new Fact.ClosedAccess("fan-guard"))));
        assertEquals(Set.of("cover"), JournalFile.read(file).openAccess());
    }
}
