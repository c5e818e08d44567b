package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import loomcase.InputProblem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A kill at any byte, real kills, and two writers at once. */
class CrashTest {
    private static final Fact.Note MORE = new Fact.Note("after the crash");

    @TempDir
    private Path folder;

    @Test
    void killAtAnyByteOfTheLastLineLosesAtMostThatLineAndSaysSo() throws IOException {
        Path file = Samples.write(folder, List.of(new Fact.Note("kept"), new Fact.Note("é at risk")));
        byte[] whole = Files.readAllBytes(file);
        int start = lastLine(whole);
        for (int end = start; end <= whole.length; end++) {
            Files.write(file, Arrays.copyOf(whole, end));
            Files.deleteIfExists(Torn.beside(file));
            int lost = end >= whole.length - 1 ? 0 : 1;
            Journal read = JournalFile.read(file);
            assertEquals(3 - lost, read.entries().size(), "cut at " + end);
            assertEquals(
                    end == start || end == whole.length ? 0 : 1, read.notices().size(), "cut at " + end);
            JournalFile.Added added = JournalFile.append(file, MORE, Samples.STAMP);
            assertEquals(4 - lost, added.entry().n());
            assertEquals(read.notices().size(), added.notices().size());
            Journal after = JournalFile.read(file);
            assertEquals(List.of(), after.notices());
            assertEquals(4 - lost, after.entries().size());
            keptAside(file, Arrays.copyOfRange(whole, start, end), lost == 1 && end > start);
        }
    }

    private static void keptAside(Path file, byte[] torn, boolean expected) throws IOException {
        assertEquals(expected, Files.exists(Torn.beside(file)));
        if (!expected) return;
        ByteArrayOutputStream piece = new ByteArrayOutputStream();
        piece.writeBytes(torn);
        piece.write('\n');
        assertArrayEquals(piece.toByteArray(), Files.readAllBytes(Torn.beside(file)));
    }

    private static int lastLine(byte[] bytes) {
        int at = bytes.length - 1;
        while (bytes[at - 1] != '\n') at--;
        return at;
    }

    @Test
    void tornLineIsAnnouncedWordForWord() throws IOException {
        Path file = Samples.write(folder, List.of(new Fact.Note("kept")));
        Files.writeString(file, Files.readString(file) + "{\"n\": 3, \"at");
        assertEquals(
                List.of(file + ": the last line is torn, as after a kill or a power cut, or somebody is writing it now;"
                        + " its 12 bytes are left out"),
                JournalFile.read(file).notices());
        assertEquals(
                List.of(file + ": the last line was torn, as after a kill or a power cut; its 12 bytes were moved to "
                        + file + ".torn, what it said must be recorded again"),
                JournalFile.append(file, MORE, Samples.STAMP).notices());
        Files.writeString(file, Files.readString(file) + "second");
        JournalFile.append(file, MORE, Samples.STAMP);
        assertEquals("{\"n\": 3, \"at\nsecond\n", Files.readString(Torn.beside(file)));
    }

    @Test
    void lineThatLostOnlyItsEndIsKept() throws IOException {
        Path file = Samples.write(folder, List.of(new Fact.Note("kept")));
        Files.writeString(file, Files.readString(file).stripTrailing());
        assertEquals(
                List.of(file + ": line 2 had lost only its line end; nothing is missing"),
                JournalFile.append(file, MORE, Samples.STAMP).notices());
        assertEquals(3, JournalFile.read(file).entries().size());
    }

    @Test
    void cutOffOpeningIsSaidAndNothingTouched() throws IOException {
        Path file = Samples.write(folder, List.of());
        byte[] whole = Files.readAllBytes(file);
        for (int end = 0; end < whole.length - 1; end += 7) {
            Files.write(file, Arrays.copyOf(whole, end));
            String message = file + ": holds no whole line, as when the opening of a case was cut off; delete it and"
                    + " open the case again";
            assertEquals(
                    message,
                    assertThrows(InputProblem.class, () -> JournalFile.read(file))
                            .getMessage());
            assertEquals(
                    message,
                    assertThrows(InputProblem.class, () -> JournalFile.append(file, MORE, Samples.STAMP))
                            .getMessage());
            assertEquals(end, Files.size(file));
        }
    }

    @Test
    void creatingNeverOverwrites() throws IOException {
        Path file = Files.writeString(folder.resolve("case.jsonl"), "");
        assertEquals(
                file + ": exists already; a new case needs a new file",
                assertThrows(InputProblem.class, () -> JournalFile.create(file, Samples.opened(), Samples.STAMP))
                        .getMessage());
        assertEquals(0, Files.size(file));
        Path deep = folder.resolve("no/such/case.jsonl");
        assertEquals(
                deep + ": no such file or folder",
                assertThrows(InputProblem.class, () -> JournalFile.create(deep, Samples.opened(), Samples.STAMP))
                        .getMessage());
        assertEquals(
                folder + ": is a folder, not a case file",
                assertThrows(InputProblem.class, () -> JournalFile.read(folder)).getMessage());
    }

    /** Every line that the killed writer had called written is there, and at most one more. */
    @Test
    void killedWriterLosesNothingItHadReported() throws IOException, InterruptedException {
        Path file = Samples.write(folder, List.of());
        Random random = new Random(5);
        int reported = 1;
        for (int kill = 0; kill < 5; kill++) {
            Path said = folder.resolve("said" + kill);
            Process writer = WriterProcess.start(file, "w" + kill, 100_000, said);
            while (Files.size(said) == 0 && writer.isAlive()) Thread.sleep(10);
            Thread.sleep(random.nextInt(150));
            writer.destroyForcibly().waitFor();
            int now =
                    (int) Files.readString(said).chars().filter(c -> c == '\n').count();
            assertTrue(now > 0, "the writer wrote nothing before it was killed: " + Files.readString(said));
            int there = JournalFile.read(file).entries().size();
            assertTrue(there >= reported + now && there <= reported + now + 1, there + " of " + reported + "+" + now);
            reported = there;
        }
        JournalFile.append(file, MORE, Samples.STAMP);
        assertEquals(reported + 1, JournalFile.read(file).entries().size());
    }

    @Test
    void twoProcessesWriteOneSoundCase() throws IOException, InterruptedException {
        Path file = Samples.write(folder, List.of());
        Path saidOne = folder.resolve("one");
        Path saidTwo = folder.resolve("two");
        Process one = WriterProcess.start(file, "one", 60, saidOne);
        Process two = WriterProcess.start(file, "two", 60, saidTwo);
        assertEquals(0, one.waitFor(), () -> text(saidOne));
        assertEquals(0, two.waitFor(), () -> text(saidTwo));
        List<Entry> entries = JournalFile.read(file).entries();
        assertEquals(121, entries.size());
        for (String who : List.of("one", "two"))
            assertEquals(
                    60, entries.stream().filter(e -> e.stamp().by().equals(who)).count());
        assertFalse(Files.exists(Torn.beside(file)));
    }

    private static String text(Path file) {
        return String.join("\n", Samples.lines(file));
    }

    @Test
    void writerThatFindsTheCaseTakenWaitsThenSaysSo() throws IOException, InterruptedException {
        Path file = Samples.write(folder, List.of());
        Path said = folder.resolve("said");
        Process holder = WriterProcess.hold(file, said);
        while (Files.size(said) == 0 && holder.isAlive()) Thread.sleep(10);
        assertEquals("held", text(said));
        long start = System.nanoTime();
        assertEquals(
                file + ": somebody else is writing to this case; nothing was recorded, try again",
                assertThrows(InputProblem.class, () -> JournalFile.append(file, MORE, Samples.STAMP))
                        .getMessage());
        long millis = (System.nanoTime() - start) / 1_000_000;
        assertTrue(millis >= WriteLock.WAIT_MILLIS && millis < 3 * WriteLock.WAIT_MILLIS, millis + " ms");
        holder.destroyForcibly().waitFor();
        JournalFile.append(file, MORE, Samples.STAMP);
        assertEquals(2, JournalFile.read(file).entries().size());
    }

    @Test
    void threadsOfOneProcessWaitForEachOther() throws InterruptedException {
        Path file = Samples.write(folder, List.of());
        Thread[] threads = new Thread[4];
        for (int t = 0; t < threads.length; t++) {
            threads[t] = new Thread(() -> {
                for (int i = 0; i < 10; i++) JournalFile.append(file, MORE, Samples.STAMP);
            });
            threads[t].start();
        }
        for (Thread t : threads) t.join();
        assertEquals(41, JournalFile.read(file).entries().size());
    }
}
