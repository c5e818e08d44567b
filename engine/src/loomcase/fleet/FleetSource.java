package loomcase.fleet;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.regex.Pattern;
import loomcase.InputProblem;
import loomcase.casework.Casework;

/**
 * The cases of several files, in order, read as they are needed. A file whose first line is the opening of a case is that
 * one case; any other is a list, one case a line, blank lines left out.
 */
public final class FleetSource implements Iterator<FleetSource.Case>, AutoCloseable {
    /** The longest line taken, in characters; a longer one is no case. */
    private static final int LONGEST = 1 << 20;

    private static final Pattern OPENING = Pattern.compile("^\\{\\s*\"n\"\\s*:\\s*1\\s*,.*\"kind\"\\s*:\\s*\"opened\"");

    private final ArrayDeque<Path> left;
    private final Optional<BufferedReader> given;
    private final Optional<Path> circuit;
    private Optional<BufferedReader> reader = Optional.empty();
    private Path file = Path.of("list");
    private int line;
    private long characters;
    private Optional<Case> next = Optional.empty();

    private FleetSource(List<Path> files, Optional<BufferedReader> given, Optional<Path> circuit) {
        this.circuit = circuit;
        this.left = new ArrayDeque<>(files);
        this.given = given;
        this.reader = given;
    }

    /**
     * The cases of these files.
     *
     * @param circuit the circuit file of lines that name none
     * @throws InputProblem when one of the files does not exist
     */
    public static FleetSource of(List<Path> files, Optional<Path> circuit) {
        for (Path f : files) {
            if (Files.isDirectory(f)) throw new InputProblem(f + ": is a folder, not a list of cases");
            if (!Files.exists(f)) throw new InputProblem(f + ": no such file");
        }
        return new FleetSource(files, Optional.empty(), circuit);
    }

    /** A list that somebody has opened already; it stays open. */
    public static FleetSource of(BufferedReader list, Optional<Path> circuit) {
        return new FleetSource(List.of(), Optional.of(list), circuit);
    }

    /** One case, not yet read. */
    public sealed interface Case {
        /** File and line, for messages. */
        String where();

        /** Opens it. */
        FleetLine.Asked ask(Casework casework);
    }

    private record InList(FleetLine line) implements Case {
        @Override
        public String where() {
            return line.list() + ": line " + line.line();
        }

        @Override
        public FleetLine.Asked ask(Casework casework) {
            return line.ask(casework);
        }
    }

    private record OwnFile(Path file) implements Case {
        @Override
        public String where() {
            return file.toString();
        }

        @Override
        public FleetLine.Asked ask(Casework casework) {
            return new FleetLine.Asked(
                    Optional.of(file.toString()), casework.open(file).answer());
        }
    }

    /** How many characters of the files have been read. */
    public long characters() {
        return characters;
    }

    @Override
    public boolean hasNext() {
        while (next.isEmpty()) {
            if (reader.isEmpty() && left.isEmpty()) return false;
            if (reader.isEmpty()) open(left.remove());
            else advance();
        }
        return true;
    }

    @Override
    public Case next() {
        if (!hasNext()) throw new NoSuchElementException("no case is left");
        Case out = next.orElseThrow();
        next = Optional.empty();
        return out;
    }

    private void open(Path path) {
        file = path;
        line = 0;
        try {
            reader = Optional.of(Files.newBufferedReader(path, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new InputProblem(path + ": cannot be read: " + e.getMessage(), e);
        }
    }

    private void advance() {
        try {
            String text = reader.orElseThrow().readLine();
            line++;
            if (text == null) {
                close();
                return;
            }
            characters += text.length() + 1;
            if (line == 1 && OPENING.matcher(text).find()) {
                next = Optional.of(new OwnFile(file));
                close();
            } else if (!text.isBlank()) {
                String kept = text.length() > LONGEST ? text.substring(0, LONGEST) : text;
                next = Optional.of(new InList(new FleetLine(file, line, kept, circuit)));
            }
        } catch (CharacterCodingException e) {
            throw new InputProblem(file + ": line " + (line + 1) + ": is not UTF-8 text", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
    }

    @Override
    public void close() {
        try {
            if (reader.isPresent() && given.isEmpty()) reader.get().close();
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        } finally {
            reader = Optional.empty();
        }
    }
}
