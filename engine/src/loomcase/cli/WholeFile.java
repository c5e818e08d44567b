package loomcase.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import loomcase.InputProblem;

/** Writes a file whole or not at all: a reader never meets half a picture, and a failure leaves the old one. */
final class WholeFile {
    private static final String NO_FOLDER = "its folder does not exist";
    private static final String ANOTHER_KIND =
            "exists and holds something else than is to be written; name another file, or delete it first";
    private static final String NOT_ALLOWED = "this user may not write there";

    private WholeFile() {}

    /**
     * Writes UTF-8 text to a file beside the wanted one, then renames it.
     *
     * @throws InputProblem naming the file and why it cannot be written
     */
    static void write(Path file, String text) {
        write(file, text.getBytes(StandardCharsets.UTF_8));
    }

    /**
     * The same with bytes.
     *
     * @throws InputProblem naming the file and why it cannot be written, such as that something of another kind stands there
     */
    static void write(Path file, byte[] bytes) {
        if (Files.isDirectory(file)) throw new InputProblem(file + ": is a folder; name a file to write");
        // A pipe or a device, such as /dev/stdout, cannot be renamed onto.
        boolean special = Files.exists(file) && !Files.isRegularFile(file);
        Path target = file.toAbsolutePath();
        Path beside = special
                ? target
                : target.resolveSibling("." + target.getFileName() + "."
                        + ProcessHandle.current().pid());
        try {
            if (!special && ofAnotherKind(target, bytes)) throw new InputProblem(file + ": " + ANOTHER_KIND);
            try {
                Files.write(beside, bytes);
                if (!special) move(beside, realTarget(target));
            } finally {
                if (!special) Files.deleteIfExists(beside);
            }
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be written: " + why(e), e);
        }
    }

    /**
     * Refuses a file that could not be written, before the work whose result it is to hold.
     *
     * @throws InputProblem when its folder is not there or may not be written to
     */
    static void requireRoom(Path file) {
        Path folder = Files.isDirectory(file) ? file : file.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder))
            throw new InputProblem(file + ": cannot be written: " + NO_FOLDER);
        if (!Files.exists(file) && !Files.isWritable(folder))
            throw new InputProblem(file + ": cannot be written: " + NOT_ALLOWED);
    }

    /**
     * Whether a file holds what a page, picture, PDF or table never begins with. A case, a photo or a circuit file named by
     * mistake is evidence, and there may be no second copy.
     */
    private static boolean ofAnotherKind(Path file, byte[] bytes) throws IOException {
        if (!Files.exists(file) || bytes.length == 0) return false;
        try (InputStream there = Files.newInputStream(file)) {
            int first = there.read();
            return first >= 0 && first != Byte.toUnsignedInt(bytes[0]);
        }
    }

    /** Writes through a symbolic link instead of replacing it. */
    private static Path realTarget(Path file) throws IOException {
        return Files.exists(file) ? file.toRealPath() : file;
    }

    private static void move(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    private static String why(IOException e) {
        if (e instanceof NoSuchFileException) return NO_FOLDER;
        if (e instanceof AccessDeniedException) return NOT_ALLOWED;
        if (e instanceof FileSystemException f && f.getReason() != null) return f.getReason();
        return String.valueOf(e.getMessage());
    }
}
