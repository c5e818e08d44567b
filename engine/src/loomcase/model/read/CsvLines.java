package loomcase.model.read;

import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.model.Conductor;
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * The lines of one comma-separated file whose first line names the columns, in any order.
 *
 * <p>Every mistake names file and line; all lines are looked at before any is refused.
 */
final class CsvLines {
    private static final int MOST_PROBLEMS = 20;

    private final Path file;
    private final Columns columns;
    private final List<String> problems = new ArrayList<>();
    private final Map<String, Integer> column = new HashMap<>();

    /**
     * What the file is made of.
     *
     * @param file what it is, such as {@code wire list}
     * @param lines what its lines are, such as {@code wires}
     * @param needed columns that must be there
     * @param wanted columns that may be there
     * @param words both, for a message
     */
    record Columns(String file, String lines, List<String> needed, List<String> wanted, String words) {}

    /** What is done with each line below the first. */
    interface Each {
        void line(CSVRecord line, long number);
    }

    CsvLines(Path file, Columns columns) {
        this.file = file;
        this.columns = columns;
    }

    /**
     * Reads every line.
     *
     * @throws InputProblem with file and line of every bad line, up to {@value #MOST_PROBLEMS}, each on a line of its own
     */
    void read(Each each) {
        if (Files.isDirectory(file)) throw new InputProblem(file + ": is a folder, not a " + columns.file());
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setIgnoreSurroundingSpaces(true)
                .setIgnoreEmptyLines(true)
                .get();
        try (Reader text = Files.newBufferedReader(file);
                CSVParser parser = format.parse(Json.afterMark(text))) {
            lines(parser, each);
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (AccessDeniedException e) {
            throw new InputProblem(file + ": this user may not read it", e);
        } catch (UncheckedIOException e) {
            throw unreadable(e.getCause());
        } catch (IOException e) {
            throw unreadable(e);
        }
    }

    private InputProblem unreadable(IOException e) {
        if (e instanceof CharacterCodingException) return new InputProblem(file + ": is not UTF-8 text", e);
        if (e instanceof CSVException)
            return new InputProblem(file + ": not valid comma-separated text: " + Cursor.oneLine(e.getMessage()), e);
        return new InputProblem(file + ": cannot be read: " + Cursor.oneLine(String.valueOf(e.getMessage())), e);
    }

    private void lines(CSVParser parser, Each each) {
        boolean any = false;
        for (CSVRecord line : parser) {
            long number = parser.getCurrentLineNumber();
            if (column.isEmpty()) {
                header(line, number);
                if (!problems.isEmpty()) break;
                continue;
            }
            any = true;
            if (line.size() == column.size()) each.line(line, number);
            else problem(number, "has " + line.size() + " fields, the first line names " + column.size());
        }
        if (column.isEmpty()) throw new InputProblem(file + ": is empty; its first line must name " + columns.words());
        if (problems.isEmpty() && !any) problems.add(file + ": has no " + columns.lines() + " below its first line");
        refuse();
    }

    /** Refuses the file when it has problems. */
    void refuse() {
        if (problems.isEmpty()) return;
        int more = problems.size() - MOST_PROBLEMS;
        String shown = String.join("\n", problems.subList(0, Math.min(MOST_PROBLEMS, problems.size())));
        throw new InputProblem(shown + (more > 0 ? "\n" + file + ": " + more + " more problems" : ""));
    }

    private void header(CSVRecord line, long number) {
        for (int i = 0; i < line.size(); i++) {
            String name = line.get(i);
            if (!columns.needed().contains(name) && !columns.wanted().contains(name))
                problem(number, "column '" + name + "' is not known; allowed are " + columns.words());
            else if (column.put(name, i) != null) problem(number, "column '" + name + "' is there twice");
        }
        for (String name : columns.needed())
            if (!column.containsKey(name))
                problem(number, "column '" + name + "' is missing; needed are " + columns.words());
    }

    int problems() {
        return problems.size();
    }

    void problem(long line, String what) {
        problems.add(file + ": line " + line + ": " + Cursor.oneLine(what));
    }

    boolean has(String name) {
        return column.containsKey(name);
    }

    /** A field, empty where the file has no such column. */
    String value(CSVRecord line, String name) {
        return column.containsKey(name) ? line.get(column.get(name)) : "";
    }

    /** A field that must be a name. */
    String name(CSVRecord line, long number, String field) {
        String text = value(line, field);
        if (text.isEmpty()) problem(number, field + " is empty");
        else if (!Cursor.isName(text))
            problem(number, field + " '" + text + "' is no name; leave out spaces and / @ ~ : . , ; ' \"");
        return text;
    }

    /** A wire size, which is a problem where it is none. */
    boolean isSize(long number, String size) {
        if (CircuitReader.SIZE.matcher(size).matches()) return true;
        problem(number, "size '" + size + "' is not a size; write it as AWG18 (0 to 40) or 1.5mm2");
        return false;
    }

    /** The conductor of a size that {@link #isSize} has let pass. */
    static Conductor size(String size) {
        return Conductor.parse(size);
    }

    /** The field {@code metres}; empty where it is not given. */
    OptionalDouble metres(CSVRecord line, long number) {
        String text = value(line, "metres");
        if (text.isEmpty()) return OptionalDouble.empty();
        double metres = text.matches("[0-9]{1,3}([.][0-9]{1,6})?") ? Double.parseDouble(text) : -1;
        if (metres >= 0.001 && metres <= 100) return OptionalDouble.of(metres);
        problem(number, "metres '" + text + "' is not a length within 0.001 to 100, written with a point as in 1.25");
        return OptionalDouble.empty();
    }
}
