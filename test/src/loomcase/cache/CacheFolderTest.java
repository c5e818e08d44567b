package loomcase.cache;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.stream.Stream;
import loomcase.casework.Answer;
import loomcase.casework.Bench;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.intake.Intake;
import loomcase.j1939.CodeList;
import loomcase.journal.Digest;
import loomcase.json.RankJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CacheFolderTest {
    private static final Path TEACHING = Path.of("circuits/teaching.json");
    private static final List<String> COMPLAINTS = List.of("110/3,100/4", "110/3", "100/4x3", "190/2");
    private static final Digest SOME = Digest.of("some circuit");

    @TempDir
    Path folder;

    private CacheFolder cache() {
        return new CacheFolder(Optional.of(folder), Optional.empty(), "this program", CacheFolder.MOST_BYTES);
    }

    private static String answers(Casework casework) {
        StringWriter out = new StringWriter();
        for (String codes : COMPLAINTS) {
            Bench bench = casework.circuit(TEACHING);
            Intake intake = Intake.typed(bench.circuit(), CodeList.parse(codes), CodeList.parse(""), List.of());
            RankJson.of(bench.answer(intake)).print(new PrintWriter(out));
        }
        return out.toString();
    }

    private static Casework with(CacheFolder cache) {
        return new Casework(Shop.BUILT_IN, cache::of);
    }

    private List<Path> tables() throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.sorted().toList();
        }
    }

    @Test
    void answersAreTheSameToTheLastByteWithAndWithoutWhatWasKept() throws IOException {
        String without = answers(new Casework(Shop.BUILT_IN));
        assertEquals(without, answers(with(cache())), "the run that fills the folder");
        assertEquals(3, tables().size(), "a table for each operating point looked at, and what the rules say");
        for (Path table : tables()) Files.setLastModifiedTime(table, FileTime.fromMillis(0));
        List<FileTime> before = used();
        assertEquals(without, answers(with(cache())), "the run that reads it");
        assertNotEquals(before, used(), "the tables were read");
        for (Path table : tables()) Files.delete(table);
        assertEquals(without, answers(with(cache())), "the folder emptied");
    }

    @Test
    void whatWasSolvedForAComplaintIsKeptWhenAskedForAndGivesTheSameAnswer() throws IOException {
        String without = kept(new Casework(Shop.BUILT_IN));
        assertEquals(without, kept(with(cache())), "the run that fills the folder");
        List<Path> all = tables();
        assertEquals(
                8,
                all.size(),
                "also joint rows at both operating points, for watch tests at one; readings; complaints met");
        assertEquals(without, kept(with(cache())), "the run that reads it");
        Random random = new Random(12);
        for (int turn = 0; turn < 16; turn++) {
            Path table = all.get(turn % all.size());
            byte[] bad = Files.readAllBytes(table);
            bad[random.nextInt(bad.length)] ^= (byte) (1 << random.nextInt(8));
            Files.write(table, bad);
            assertEquals(without, kept(with(cache())), "damaged in turn " + turn);
        }
    }

    private static String kept(Casework casework) {
        StringWriter out = new StringWriter();
        for (String codes : COMPLAINTS) {
            Bench bench = casework.circuit(TEACHING);
            Answer answer =
                    bench.answer(Intake.typed(bench.circuit(), CodeList.parse(codes), CodeList.parse(""), List.of()));
            RankJson.of(answer).print(new PrintWriter(out));
            answer.next().forEach(t -> out.append(t.toString()).append('\n'));
            answer.keep();
        }
        return out.toString();
    }

    private List<FileTime> used() throws IOException {
        List<FileTime> out = new ArrayList<>();
        for (Path table : tables()) out.add(Files.getLastModifiedTime(table));
        return out;
    }

    @Test
    void damagedTablesAreThrownAwayAndWrittenAnew() throws IOException {
        String sound = answers(with(cache()));
        Random random = new Random(11);
        for (int turn = 0; turn < 40; turn++) {
            Path table = tables().get(turn % 3);
            byte[] good = Files.readAllBytes(table);
            byte[] bad = good.clone();
            if (turn % 4 == 0) bad = java.util.Arrays.copyOf(good, random.nextInt(good.length));
            else bad[random.nextInt(bad.length)] ^= (byte) (1 << random.nextInt(8));
            Files.write(table, bad);
            assertEquals(sound, answers(with(cache())), "turn " + turn);
            assertArrayEquals(good, Files.readAllBytes(table), "written anew in turn " + turn);
        }
    }

    @Test
    void tablesOfAnotherProgramCircuitOrOperatingPointAreNotSeen() {
        cache().of(SOME).put("idle", new byte[] {1});
        CacheFolder other =
                new CacheFolder(Optional.of(folder), Optional.empty(), "another program", CacheFolder.MOST_BYTES);
        assertTrue(other.of(SOME).get("idle").isEmpty());
        assertTrue(cache().of(SOME).get("key-on").isEmpty());
        assertTrue(cache().of(Digest.of("another circuit")).get("idle").isEmpty());
        assertArrayEquals(new byte[] {1}, cache().of(SOME).get("idle").orElseThrow());
    }

    @Test
    void tablesThatCameWithTheProgramAreReadAndLeftAlone() throws IOException {
        Path shipped = folder.resolve("shipped");
        new CacheFolder(Optional.of(shipped), Optional.empty(), "this program", 100)
                .of(SOME)
                .put("idle", new byte[] {7});
        Path own = folder.resolve("own");
        CacheFolder both = new CacheFolder(Optional.of(own), Optional.of(shipped), "this program", 100);
        assertArrayEquals(new byte[] {7}, both.of(SOME).get("idle").orElseThrow());
        both.of(SOME).put("idle", new byte[] {8});
        assertArrayEquals(new byte[] {8}, both.of(SOME).get("idle").orElseThrow());
        CacheFolder theirs = new CacheFolder(Optional.of(shipped), Optional.empty(), "this program", 100);
        assertArrayEquals(new byte[] {7}, theirs.of(SOME).get("idle").orElseThrow());
        CacheFolder noOwn = new CacheFolder(Optional.empty(), Optional.of(shipped), "this program", 100);
        noOwn.of(SOME).put("idle", new byte[] {9});
        assertArrayEquals(new byte[] {7}, noOwn.of(SOME).get("idle").orElseThrow());
    }

    @Test
    void theFolderStaysBelowItsSizeAndLosesWhatWasUsedLongestAgo() throws IOException {
        CacheFolder small = new CacheFolder(Optional.of(folder), Optional.empty(), "this program", 250);
        for (int i = 0; i < 3; i++) {
            small.of(SOME).put("point " + i, new byte[100]);
            for (Path t : tables())
                Files.setLastModifiedTime(
                        t, FileTime.fromMillis(Files.getLastModifiedTime(t).toMillis() - 10_000));
            small.of(SOME).get("point 0");
        }
        assertEquals(2, tables().size());
        assertTrue(small.of(SOME).get("point 0").isPresent(), "used again and again");
        assertTrue(small.of(SOME).get("point 1").isEmpty(), "used longest ago");
        small.of(SOME).put("too large by itself", new byte[300]);
        assertTrue(small.of(SOME).get("too large by itself").isEmpty());
        assertTrue(small.of(SOME).get("point 0").isPresent(), "nothing was given up for it");
    }

    @Test
    void aFolderThatCannotBeMadeSavesNothingAndHarmsNothing() throws IOException {
        Path file = Files.writeString(folder.resolve("a file"), "in the way");
        CacheFolder blocked = new CacheFolder(Optional.of(file), Optional.empty(), "this program", 100);
        blocked.of(SOME).put("idle", new byte[] {1});
        assertTrue(blocked.of(SOME).get("idle").isEmpty());
        assertEquals("in the way", Files.readString(file));
    }

    @Test
    void theProgramIsAnotherWhenOneOfItsClassesChanges() throws IOException {
        Path jar = folder.resolve("program.jar");
        write(jar, "loomcase/A.class", "one");
        Optional<String> first = Program.identity(jar);
        assertTrue(first.isPresent());
        assertEquals(first, Program.identity(jar));
        write(jar, "loomcase/A.class", "two");
        assertNotEquals(first, Program.identity(jar));
        assertTrue(Program.identity(folder.resolve("nowhere.jar")).isEmpty());
        Files.writeString(jar, "not a jar at all, but long enough to be one");
        assertTrue(Program.identity(jar).isEmpty());
    }

    private static void write(Path jar, String name, String content) throws IOException {
        try (JarOutputStream out = new JarOutputStream(Files.newOutputStream(jar))) {
            out.putNextEntry(new JarEntry(name));
            out.write(content.getBytes(java.nio.charset.StandardCharsets.UTF_8));
        }
    }
}
