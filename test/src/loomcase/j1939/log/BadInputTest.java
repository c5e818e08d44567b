package loomcase.j1939.log;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.LogProblem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BadInputTest {
    private static final String FORMS = "logs of candump are read, in its log file form, as"
            + " '(1436509052.249713) can0 18FECA00#00FF00000000FFFF', or its console form";

    @TempDir
    Path folder;

    @Test
    void whatIsNoUsableLogGetsOneSentence() throws IOException {
        Path missing = folder.resolve("missing.log");
        assertEquals(missing + ": there is no such file", problem(missing));
        assertEquals(folder + ": is a folder, not a log; name one log file", problem(folder));
        Path empty = Files.createFile(folder.resolve("empty.log"));
        assertEquals(empty + ": the log is empty; " + FORMS, problem(empty));
        Path text = Files.writeString(folder.resolve("note.txt"), "\nDear reader,\nno frames here\n");
        assertEquals(text + ": no CAN frame in 3 lines, line 2 is 'Dear reader,'; " + FORMS, problem(text));
        Path blank = Files.writeString(folder.resolve("blank.log"), "\n\n");
        assertEquals(blank + ": no CAN frame in 2 lines; " + FORMS, problem(blank));
    }

    @Test
    void binaryJunkIsNoLog() throws IOException {
        byte[] junk = new byte[3_000_000];
        new Random(5).nextBytes(junk);
        Path file = Files.write(folder.resolve("junk.bin"), junk);
        assertTrue(problem(file).startsWith(file + ": no CAN frame in "), problem(file));
        byte[] zeros = new byte[3_000_000];
        Path flat = Files.write(folder.resolve("zeros.bin"), zeros);
        assertTrue(problem(flat).startsWith(flat + ": no CAN frame in 1 lines, line 1 is '....."), problem(flat));
    }

    @Test
    void aFailingDiskIsAProblemWithTheLineReached() {
        InputStream failing = new InputStream() {
            private boolean given;

            @Override
            public int read() throws IOException {
                throw new IOException("disk error");
            }

            @Override
            public int read(byte[] b, int off, int len) throws IOException {
                if (given) {
                    throw new IOException("disk error");
                }
                given = true;
                byte[] line = ("can0 " + Logs.CODE_91 + "\n").getBytes(StandardCharsets.US_ASCII);
                System.arraycopy(line, 0, b, off, line.length);
                return line.length;
            }
        };
        LogProblem problem = assertThrows(
                LogProblem.class, () -> LogReader.read(failing, "x.log", 0, Progress.NONE, ReadOptions.NONE));
        assertEquals("x.log: cannot be read after line 1: disk error", problem.getMessage());
    }

    @Test
    void unreadableLinesAreCountedWithTheFirstOfThem() {
        CodesRead read = Logs.read("can0 " + Logs.CODE_91, "rubbish\u0001here", "(1.0) can0 18FECAZZ#00", "can0 1#00");
        Warning warning = read.warning(Warning.Kind.UNREADABLE_LINE).orElseThrow();
        assertEquals(3, warning.count());
        assertEquals(2, warning.firstLine().orElseThrow());
        assertEquals("rubbish.here", warning.example());
        assertEquals(
                "3 lines are no CAN frame in a form that is known (first in line 2: rubbish.here)", warning.toString());
        assertEquals("91/3x1 ACTIVE", Logs.codes(read));
    }

    @Test
    void linesWithWrongPartsAreUnreadable() {
        for (String line : List.of(
                "(1.0 can0 " + Logs.NO_CODE,
                "(abc) can0 " + Logs.NO_CODE,
                "(99999999999.0) can0 " + Logs.NO_CODE,
                "(2015-13-10 06:17:32.2) can0 " + Logs.NO_CODE,
                "(9999-12-10 06:17:32.2) can0 " + Logs.NO_CODE,
                "can0 F8FECA00#00FF00000000FFFF",
                "can0 18FECA00#00FF00000000FFFFFF",
                "can0 18FECA00#00FG00000000FFFF",
                "can0 18FECA00 8 00 FF",
                "can0 18FECA00 [9] 00 FF 00 00 00 00 FF FF FF",
                "can0 18FECA00 [2] 000 FF",
                "can0 8FF#00")) {
            CodesRead read = Logs.read(line, "can0 " + Logs.NO_CODE);
            assertEquals(1, Logs.warned(read, Warning.Kind.UNREADABLE_LINE), line);
            assertEquals(1, read.frames().total(), line);
        }
    }

    @Test
    void cutOffFramesAreCountedApart() {
        for (String line : List.of(
                "can0 18FECA00#00FF0",
                "can0 18FECA00",
                "can0 18FECA00 [8",
                "can0 18FECA00 [8] 00 FF 00",
                "can0 18FECA00 [8] 00 FF 00 0",
                "can0 18FECA00 [8] 00 FF   '..'",
                "can0 18ECFF00#2012")) {
            CodesRead read = Logs.read(line, "can0 " + Logs.NO_CODE);
            assertEquals(1, Logs.warned(read, Warning.Kind.TRUNCATED_FRAME), line);
        }
        CodesRead read = Logs.read("can0 18FECA00#00FF5B0003");
        assertEquals(1, Logs.warned(read, Warning.Kind.MESSAGE_MALFORMED));
        assertEquals(1, Logs.warned(read, Warning.Kind.NO_TROUBLE_MESSAGES));
    }

    @Test
    void aLogWithFramesButNoTroubleMessageIsAnAnswer() {
        CodesRead read = Logs.read("can0 18FEEE00#82FFFFFFFFFFFFFF");
        assertEquals(List.of(), read.sources());
        assertEquals(
                "1 log: it has CAN frames, but no complete DM1 or DM2 in it",
                read.warnings().get(0).toString());
    }

    @Test
    void timeThatFallsIsDoubted() {
        CodesRead jump = Logs.read(Logs.at(100, Logs.NO_CODE), Logs.at(50, Logs.NO_CODE), Logs.at(51, Logs.NO_CODE));
        assertTrue(Logs.warned(jump, Warning.Kind.TIME_BACKWARDS) > 0);
        List<String> relative = new ArrayList<>();
        for (int i = 0; i < 100; i++) {
            relative.add(Logs.at(i % 2 == 0 ? 0.002 : 0.001, Logs.NO_CODE));
        }
        assertEquals(1, Logs.warned(Logs.read(relative), Warning.Kind.TIME_BACKWARDS));
    }

    @Test
    void aVeryLongLineIsOneUnreadableLine() {
        String longLine = "x".repeat(5_000_000);
        CodesRead read = Logs.read("can0 " + Logs.CODE_91, longLine, "can0 " + Logs.NO_CODE, "y".repeat(5000));
        assertEquals(2, Logs.warned(read, Warning.Kind.UNREADABLE_LINE));
        assertEquals(4, read.lines());
        assertEquals(2, read.frames().j1939());
    }

    @Test
    void linesAreWholeWhereverTheReadsAreCut() {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 300; i++) {
            text.append(Logs.at(i, Logs.CODE_91)).append('\n');
        }
        byte[] bytes = text.toString().getBytes(StandardCharsets.US_ASCII);
        for (int step : new int[] {1, 7, 46, 1000}) {
            InputStream slow = new ByteArrayInputStream(bytes) {
                @Override
                public synchronized int read(byte[] b, int off, int len) {
                    return super.read(b, off, Math.min(step, len));
                }
            };
            CodesRead read = LogReader.read(slow, "slow", bytes.length, Progress.NONE, ReadOptions.NONE);
            assertEquals(300, read.frames().j1939());
            assertEquals(List.of(), read.warnings());
        }
    }

    @Test
    void aFloodOfDifferentCodesAndNetworksIsBounded() {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 25_000; i++) {
            lines.add(String.format("can0 18FECA00#00FF%02X%02X0301FFFF", i & 0xFF, i >> 8));
        }
        for (int i = 0; i < 20; i++) {
            lines.add("net" + i + " " + Logs.NO_CODE);
        }
        CodesRead read = Logs.read(lines);
        assertEquals(20_000, read.sources().get(0).codes().size());
        assertEquals(5_000, Logs.warned(read, Warning.Kind.TOO_MANY_CODES));
        assertEquals(13, Logs.warned(read, Warning.Kind.TOO_MANY_NETWORKS));
    }

    @Test
    void progressRisesToTheSizeOfTheFile() throws IOException {
        Path file = folder.resolve("long.log");
        Files.writeString(file, (Logs.at(1, Logs.CODE_91) + "\n").repeat(80_000));
        List<Long> told = new ArrayList<>();
        LogReader.read(
                file,
                (done, total) -> {
                    assertTrue(done <= total && (told.isEmpty() || done > told.get(told.size() - 1)));
                    told.add(done);
                },
                ReadOptions.NONE);
        assertTrue(told.size() > 2, "told " + told.size() + " times");
        assertEquals(Files.size(file), told.get(told.size() - 1));
    }

    @Test
    void optionsThatCannotBeMeantAreRefused() {
        Exception newer = assertThrows(
                IllegalArgumentException.class, () -> ReadOptions.NONE.with(0, ConversionMethod.VERSION_4));
        assertTrue(newer.getMessage().contains("name version 1, 2 or 3"), newer.getMessage());
        assertThrows(IllegalArgumentException.class, () -> ReadOptions.NONE.with(256, ConversionMethod.VERSION_1));
    }

    private static String problem(Path file) {
        return assertThrows(LogProblem.class, () -> LogReader.read(file)).getMessage();
    }
}
