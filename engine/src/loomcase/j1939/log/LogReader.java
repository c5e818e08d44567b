package loomcase.j1939.log;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Objects;
import loomcase.j1939.LogProblem;

/**
 * Reads a CAN log and tells the trouble codes in it.
 *
 * <p>Time grows with the length of the log, memory does not: two buffers of {@value #BUFFER_BYTES} bytes and bounded tables.
 */
public final class LogReader {
    /** How much is read at once. */
    public static final int BUFFER_BYTES = 1 << 20;

    /** No frame form is longer; a line beyond it is junk and is passed over without being held. */
    private static final int MAX_LINE_BYTES = 4096;

    private static final String FORMS = "logs of candump are read, in its log file form, as"
            + " '(1436509052.249713) can0 18FECA00#00FF00000000FFFF', or its console form";

    private LogReader() {}

    /**
     * Reads a file to its end.
     *
     * @param progress told from this thread how far the read has come
     * @throws LogProblem when the file is missing, is no file, is empty, or has no CAN frame in it; one sentence for the user
     */
    public static CodesRead read(Path file, Progress progress, ReadOptions options) {
        Objects.requireNonNull(progress, "progress");
        Objects.requireNonNull(options, "options");
        if (Files.isDirectory(file)) {
            throw new LogProblem(file + ": is a folder, not a log; name one log file");
        }
        try (InputStream in = Files.newInputStream(file)) {
            return read(in, file.toString(), Files.size(file), progress, options);
        } catch (NoSuchFileException missing) {
            throw new LogProblem(file + ": there is no such file", missing);
        } catch (AccessDeniedException denied) {
            throw new LogProblem(file + ": this user may not read it", denied);
        } catch (IOException failed) {
            throw new LogProblem(file + ": cannot be read: " + failed.getMessage(), failed);
        }
    }

    /** Reads a file without progress and with nothing known beforehand. */
    public static CodesRead read(Path file) {
        return read(file, Progress.NONE, ReadOptions.NONE);
    }

    /**
     * Reads a stream to its end and leaves it open.
     *
     * @param name how messages call it
     * @param bytesTotal its length, 0 if not known
     * @throws LogProblem as for a file
     */
    public static CodesRead read(InputStream in, String name, long bytesTotal, Progress progress, ReadOptions options) {
        LogCollector collector = new LogCollector(options);
        long bytes;
        try {
            bytes = lines(in, bytesTotal, progress, collector);
        } catch (IOException failed) {
            throw new LogProblem(
                    name + ": cannot be read after line " + collector.lines() + ": " + failed.getMessage(), failed);
        }
        if (bytes == 0) {
            throw new LogProblem(name + ": the log is empty; " + FORMS);
        }
        if (collector.frames().total() == 0) {
            throw new LogProblem(nothing(name, collector));
        }
        return collector.result();
    }

    private static String nothing(String name, LogCollector collector) {
        String first = "";
        for (Warning warning : collector.warnings()) {
            if (warning.firstLine().isPresent()) {
                first = ", line " + warning.firstLine().getAsLong() + " is '" + warning.example() + "'";
                break;
            }
        }
        return name + ": no CAN frame in " + collector.lines() + " lines" + first + "; " + FORMS;
    }

    /** Cuts the stream into lines; returns how many bytes there were. */
    private static long lines(InputStream in, long bytesTotal, Progress progress, LogCollector collector)
            throws IOException {
        byte[] buffer = new byte[BUFFER_BYTES];
        long done = 0;
        int held = 0;
        boolean skipping = false;
        for (int got = in.read(buffer); got >= 0; got = in.read(buffer, held, buffer.length - held)) {
            int start = done == 0 ? afterByteOrderMark(buffer, got) : 0;
            done += got;
            int filled = held + got;
            for (int i = Math.max(start, held); i < filled; i++) {
                if (buffer[i] == '\n') {
                    if (!skipping) {
                        line(collector, buffer, start, i);
                    }
                    skipping = false;
                    start = i + 1;
                }
            }
            held = filled - start;
            if (skipping) {
                held = 0;
            } else if (held > MAX_LINE_BYTES) {
                collector.longLine(buffer, start, start + MAX_LINE_BYTES);
                skipping = true;
                held = 0;
            }
            System.arraycopy(buffer, start, buffer, 0, held);
            progress.at(done, Math.max(bytesTotal, 0));
        }
        if (held > 0) {
            line(collector, buffer, 0, held);
        }
        return done;
    }

    private static void line(LogCollector collector, byte[] buffer, int from, int to) {
        if (to - from > MAX_LINE_BYTES) {
            collector.longLine(buffer, from, from + MAX_LINE_BYTES);
        } else {
            collector.line(buffer, from, to > from && buffer[to - 1] == '\r' ? to - 1 : to);
        }
    }

    /** Some editors on Windows put three bytes before the first line. */
    private static int afterByteOrderMark(byte[] buffer, int got) {
        boolean mark = got >= 3 && buffer[0] == (byte) 0xEF && buffer[1] == (byte) 0xBB && buffer[2] == (byte) 0xBF;
        return mark ? 3 : 0;
    }
}
