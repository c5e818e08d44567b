package loomcase.cli;

import java.io.Console;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import loomcase.InputProblem;
import picocli.CommandLine;

/** Where the instructor's passphrase comes from: a file, the environment, or the keyboard without echo. */
final class PassphraseInput {
    /** Environment variable that may hold the passphrase. */
    static final String VARIABLE = "LOOMCASE_PASSPHRASE";

    @CommandLine.Option(
            names = "--passphrase-file",
            paramLabel = "FILE",
            description = "file whose first line is the instructor's passphrase; otherwise the environment variable "
                    + VARIABLE + ", otherwise it is asked for")
    private Path file;

    char[] passphrase() {
        if (file != null) return fromFile();
        String set = System.getenv(VARIABLE);
        if (set != null && !set.isEmpty()) return set.toCharArray();
        Console console = System.console();
        char[] typed = console == null ? null : console.readPassword("Instructor's passphrase: ");
        if (typed == null || typed.length == 0)
            throw new InputProblem("no passphrase; give --passphrase-file FILE or set " + VARIABLE);
        return typed;
    }

    private char[] fromFile() {
        try {
            String first = Files.readString(file).lines().findFirst().orElse("").strip();
            if (first.isEmpty())
                throw new InputProblem(file + ": its first line is empty; it should be the passphrase");
            return first.toCharArray();
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
    }
}
