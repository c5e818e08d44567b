package loomcase.cli;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import loomcase.InputProblem;

/** The file of a fleet's answers: where it ends, so that a stopped run neither repeats nor loses a line. */
final class FleetOutput {
    private static final Pattern NUMBER = Pattern.compile("^\\{\"n\":(\\d+)[,}]");
    private static final int PIECE = 1 << 16;

    private FleetOutput() {}

    /** Opens the file for the lines that follow. */
    static Writer open(Path file) {
        try {
            return Files.newBufferedWriter(
                    file, StandardCharsets.UTF_8, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
        } catch (IOException e) {
            throw cannot(file, e);
        }
    }

    /**
     * How many answers the file holds. A last line without its end was being written when the run was stopped; it is cut
     * off and answered again.
     *
     * @param resume whether a file that holds answers may be gone on with
     * @throws InputProblem when it holds answers and may not, or is not a file of answers
     */
    static long linesBefore(Path file, boolean resume) {
        if (!Files.exists(file)) return 0;
        if (!Files.isRegularFile(file)) throw new InputProblem(file + ": is not a file that answers can be added to");
        try (RandomAccessFile open = new RandomAccessFile(file.toFile(), "rw")) {
            if (open.length() == 0) return 0;
            if (!resume)
                throw new InputProblem(file + ": exists already; go on with it by --resume, or name another file");
            long lines = 0;
            long end = 0;
            long lastStart = 0;
            byte[] piece = new byte[PIECE];
            long at = 0;
            for (int n = open.read(piece); n >= 0; n = open.read(piece)) {
                for (int i = 0; i < n; i++)
                    if (piece[i] == '\n') {
                        lines++;
                        lastStart = end;
                        end = at + i + 1;
                    }
                at += n;
            }
            if (lines > 0 && number(open, lastStart) != lines)
                throw new InputProblem(file + ": line " + lines + ": is not answer " + lines + " of a fleet");
            open.setLength(end);
            return lines;
        } catch (IOException e) {
            throw cannot(file, e);
        }
    }

    private static long number(RandomAccessFile open, long start) throws IOException {
        byte[] head = new byte[(int) Math.min(40, open.length() - start)];
        open.seek(start);
        open.readFully(head);
        Matcher m = NUMBER.matcher(new String(head, StandardCharsets.UTF_8));
        return m.find() ? Long.parseLong(m.group(1)) : -1;
    }

    private static InputProblem cannot(Path file, IOException e) {
        return new InputProblem(file + ": cannot be written: " + e.getMessage(), e);
    }
}
