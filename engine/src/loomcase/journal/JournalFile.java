package loomcase.journal;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import loomcase.InputProblem;

/**
 * Entry of this stage: a case file created, read and added to.
 *
 * <p>Adding takes an exclusive lock on the file, moves the bytes of a torn last line aside, writes the whole new line with
 * one call, and returns only when the disk has it. Nothing else ever changes a byte of the file.
 */
public final class JournalFile {
    /** More than this is no case. */
    private static final long MOST_BYTES = 64L << 20;

    /** Lines at fault that one message names. */
    private static final int MOST_NAMED = 5;

    /**
     * An entry was added.
     *
     * @param entry as written
     * @param notices what a person should know, such as a torn line that was moved aside
     */
    public record Added(Entry entry, List<String> notices) {
        public Added {
            notices = List.copyOf(notices);
        }
    }

    /** Others added lines to a case since it was read, and the caller did not want to follow them unseen. */
    public static final class Overtaken extends InputProblem {
        private static final long serialVersionUID = 1L;

        /**
         * @param lines how many the case has now
         */
        public Overtaken(Path file, int lines) {
            super(file + ": the case has " + lines
                    + " lines now; somebody added to it since it was read. Read it again");
        }
    }

    private JournalFile() {}

    /**
     * Creates a case.
     *
     * @throws InputProblem when anything stands there already or the folder cannot be written
     */
    public static Entry create(Path file, Fact.Opened opened, Entry.Stamp stamp) {
        byte[] line = EntryLine.write(1, stamp, opened, Digest.NONE);
        Entry entry = FactReader.entry(file, 1, text(file, 1, line)); // before anything is written
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
            write(channel, 0, line);
        } catch (FileAlreadyExistsException e) {
            throw new InputProblem(file + ": exists already; a new case needs a new file", e);
        } catch (IOException e) {
            throw unusable(file, "cannot be created", e);
        }
        forceFolder(file);
        return entry;
    }

    /**
     * Reads a case.
     *
     * @throws InputProblem when it cannot be read, its chain is broken, or a line is not as the schema says; a broken chain
     *     names the first lines at fault, {@link #chainProblems} names all
     */
    public static Journal read(Path file) {
        return journal(file, Lines.of(bytes(file)));
    }

    /** What is wrong with the chain of a file, one sentence a line; none when every line is as it was written. */
    public static List<String> chainProblems(Path file) {
        return Chain.problems(Lines.of(bytes(file)).lines());
    }

    /**
     * Adds a line.
     *
     * @throws InputProblem when the case cannot be read or written, somebody else is writing to it, or the fact cannot
     *     follow what is there; nothing was added then
     */
    public static Added append(Path file, Fact fact, Entry.Stamp stamp) {
        return locked(file, Optional.empty(), fact, stamp);
    }

    /**
     * Adds a line, but only directly behind the line with a digest.
     *
     * @param last digest of the line that the caller knows as the last
     * @throws Overtaken when another line is the last by now; nothing was added then
     * @throws InputProblem as {@link #append} does
     */
    public static Added appendAfter(Digest last, Path file, Fact fact, Entry.Stamp stamp) {
        return locked(file, Optional.of(last), fact, stamp);
    }

    private static Added locked(Path file, Optional<Digest> last, Fact fact, Entry.Stamp stamp) {
        if (Files.isDirectory(file)) throw new InputProblem(file + ": is a folder, not a case file");
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
            WriteLock.take(file, channel);
            return append(file, channel, last, fact, stamp);
        } catch (IOException e) {
            throw unusable(file, "cannot be written", e);
        }
    }

    private static Added append(Path file, FileChannel channel, Optional<Digest> last, Fact fact, Entry.Stamp stamp)
            throws IOException {
        Lines lines = Lines.of(bytes(file, channel));
        Journal before = journal(file, lines);
        if (last.isPresent() && !last.get().equals(before.last()))
            throw new Overtaken(file, before.entries().size());
        Corrections.complaint(before.entries(), fact).ifPresent(complaint -> {
            throw new InputProblem(file + ": " + complaint);
        });
        int n = before.entries().size() + 1;
        byte[] line = EntryLine.write(n, stamp, fact, Digest.of(lines.lines().get(n - 2)));
        Entry entry = FactReader.entry(file, n, text(file, n, line)); // before anything is written
        List<String> notices = lines.torn().length > 0 ? setAside(file, channel, lines) : before.notices();
        write(channel, lines.end(), lines.feedMissing() ? withFeedBefore(line) : line);
        return new Added(entry, notices);
    }

    private static List<String> setAside(Path file, FileChannel channel, Lines lines) throws IOException {
        new Torn(file).keep(lines.torn());
        channel.truncate(lines.end());
        channel.force(true);
        return List.of(file + ": the last line was torn, as after a kill or a power cut; its " + lines.torn().length
                + " bytes were moved to " + Torn.beside(file) + ", what it said must be recorded again");
    }

    private static byte[] withFeedBefore(byte[] line) {
        byte[] out = new byte[line.length + 1];
        out[0] = '\n';
        System.arraycopy(line, 0, out, 1, line.length);
        return out;
    }

    /** Writes all or, when the disk refuses, takes back what it wrote. */
    private static void write(FileChannel channel, long at, byte[] bytes) throws IOException {
        try {
            ByteBuffer buffer = ByteBuffer.wrap(bytes);
            while (buffer.hasRemaining()) channel.write(buffer, at + buffer.position());
            channel.force(true);
        } catch (IOException e) {
            takeBack(channel, at, e);
            throw e;
        }
    }

    private static void takeBack(FileChannel channel, long at, IOException cause) {
        try {
            channel.truncate(at);
        } catch (IOException e) {
            cause.addSuppressed(e); // the next writer finds a torn line and moves it aside
        }
    }

    private static Journal journal(Path file, Lines lines) {
        if (lines.lines().isEmpty())
            throw new InputProblem(
                    file
                            + ": holds no whole line, as when the opening of a case was cut off; delete it and open the case again");
        List<String> broken = Chain.problems(lines.lines());
        if (!broken.isEmpty()) throw new InputProblem(firstOf(broken, file));
        List<Entry> entries = new ArrayList<>();
        for (byte[] line : lines.lines()) {
            int n = entries.size() + 1;
            Entry entry = FactReader.entry(file, n, text(file, n, line));
            Corrections.complaint(entries, entry.fact()).ifPresent(complaint -> {
                throw new InputProblem(file + ": line " + n + ": " + complaint);
            });
            entries.add(entry);
        }
        return new Journal(
                entries, lines.notices().stream().map(n -> file + ": " + n).toList());
    }

    /** What one can read: a file that is no case at all has thousands of lines at fault. */
    private static String firstOf(List<String> broken, Path file) {
        List<String> said = new ArrayList<>(broken.subList(0, Math.min(MOST_NAMED, broken.size())));
        if (broken.size() > MOST_NAMED)
            said.add("and " + (broken.size() - MOST_NAMED) + " more lines; 'loomcase check' names them all");
        return String.join("\n", said.stream().map(b -> file + ": " + b).toList());
    }

    private static String text(Path file, int n, byte[] line) {
        return Lines.text(line).orElseThrow(() -> new InputProblem(file + ": line " + n + ": is not UTF-8 text"));
    }

    private static byte[] bytes(Path file) {
        if (Files.isDirectory(file)) throw new InputProblem(file + ": is a folder, not a case file");
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            return bytes(file, channel);
        } catch (IOException e) {
            throw unusable(file, "cannot be read", e);
        }
    }

    private static byte[] bytes(Path file, FileChannel channel) throws IOException {
        if (channel.size() > MOST_BYTES)
            throw new InputProblem(file + ": has " + channel.size() + " bytes; a case has at most " + MOST_BYTES);
        ByteBuffer buffer = ByteBuffer.allocate((int) channel.size());
        while (buffer.hasRemaining() && channel.read(buffer, buffer.position()) >= 0)
            ; // a read may give less than was asked for
        return java.util.Arrays.copyOf(buffer.array(), buffer.position());
    }

    private static InputProblem unusable(Path file, String what, IOException e) {
        if (e instanceof NoSuchFileException)
            return new InputProblem(file + ": no such file" + (what.endsWith("read") ? "" : " or folder"), e);
        if (e instanceof AccessDeniedException) return new InputProblem(file + ": this user may not use it", e);
        return new InputProblem(file + ": " + what + ": " + e.getMessage(), e);
    }

    /** Makes the name of a new file last; a system that cannot do this for a folder needs it not or has no better. */
    private static void forceFolder(Path file) {
        try (FileChannel folder = FileChannel.open(file.toAbsolutePath().getParent(), StandardOpenOption.READ)) {
            folder.force(true);
        } catch (IOException e) {
            return;
        }
    }
}
