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
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.model.Conductor;
import loomcase.model.Wire;
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * A wire list: comma-separated text with one line a wire, as a harness drawing carries it, read into wires of a circuit.
 *
 * <p>The first line names the columns, in any order: {@value #COLUMNS}. An end without a cavity is a splice or a ground
 * stud; a fuse has the cavities {@code in} and {@code out}. Columns that are not known are refused, as are two wires of
 * one name. What a wire list cannot say (zones, devices, the control unit, watches) is for the circuit file. Every
 * mistake names file and line; all lines are looked at before any is refused.
 *
 * @param wires in file order
 * @param connectors cavities named of each connector, in order of first mention; fuses are among them, as a wire list does
 *     not tell them apart
 * @param branches branches named, in order of first mention; where a wire passes several, they are divided by spaces
 */
public record WireList(List<Wire> wires, Map<String, Set<String>> connectors, Set<String> branches) {
    /** Columns that must be there, then those that may be. */
    public static final String COLUMNS = "wire, size, fromConnector, fromCavity, toConnector, toCavity, branch, metres,"
            + " and if wanted colour, circuit, insulation";

    private static final List<String> NEEDED =
            List.of("wire", "size", "fromConnector", "fromCavity", "toConnector", "toCavity", "branch", "metres");
    private static final List<String> WANTED = List.of("colour", "circuit", "insulation");
    private static final int MOST_PROBLEMS = 20;

    public WireList {
        wires = List.copyOf(wires);
        Map<String, Set<String>> copy = new LinkedHashMap<>();
        connectors.forEach((id, cavities) -> copy.put(id, java.util.Collections.unmodifiableSet(cavities)));
        connectors = java.util.Collections.unmodifiableMap(copy);
        branches = java.util.Collections.unmodifiableSet(new LinkedHashSet<>(branches));
    }

    /**
     * Reads a wire list.
     *
     * @throws InputProblem with file and line of every bad line, up to {@value #MOST_PROBLEMS}, each on a line of its own
     */
    public static WireList read(Path file) {
        if (Files.isDirectory(file)) throw new InputProblem(file + ": is a folder, not a wire list");
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setIgnoreSurroundingSpaces(true)
                .setIgnoreEmptyLines(true)
                .get();
        try (Reader text = Files.newBufferedReader(file);
                CSVParser parser = format.parse(Json.afterMark(text))) {
            return new Lines(file).read(parser);
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (AccessDeniedException e) {
            throw new InputProblem(file + ": this user may not read it", e);
        } catch (UncheckedIOException e) {
            throw unreadable(file, e.getCause());
        } catch (IOException e) {
            throw unreadable(file, e);
        }
    }

    private static InputProblem unreadable(Path file, IOException e) {
        if (e instanceof CharacterCodingException) return new InputProblem(file + ": is not UTF-8 text", e);
        if (e instanceof CSVException)
            return new InputProblem(file + ": not valid comma-separated text: " + Cursor.oneLine(e.getMessage()), e);
        return new InputProblem(file + ": cannot be read: " + Cursor.oneLine(String.valueOf(e.getMessage())), e);
    }

    /** The lines of one file while they are read. */
    private static final class Lines {
        private final Path file;
        private final List<String> problems = new ArrayList<>();
        private final Map<String, Integer> column = new HashMap<>();
        private final Map<String, Long> lineOfWire = new HashMap<>();
        private final List<Wire> wires = new ArrayList<>();
        private final Map<String, Set<String>> connectors = new LinkedHashMap<>();
        private final Set<String> branches = new LinkedHashSet<>();

        Lines(Path file) {
            this.file = file;
        }

        WireList read(CSVParser parser) {
            for (CSVRecord line : parser) {
                long number = parser.getCurrentLineNumber();
                if (column.isEmpty()) {
                    header(line, number);
                    if (!problems.isEmpty()) break;
                } else wire(line, number);
            }
            if (column.isEmpty()) throw new InputProblem(file + ": is empty; its first line must name " + COLUMNS);
            if (problems.isEmpty() && wires.isEmpty()) problems.add(file + ": has no wires below its first line");
            if (problems.isEmpty()) return new WireList(wires, connectors, branches);
            int more = problems.size() - MOST_PROBLEMS;
            String shown = String.join("\n", problems.subList(0, Math.min(MOST_PROBLEMS, problems.size())));
            throw new InputProblem(shown + (more > 0 ? "\n" + file + ": " + more + " more problems" : ""));
        }

        private void problem(long line, String what) {
            problems.add(file + ": line " + line + ": " + Cursor.oneLine(what));
        }

        private void header(CSVRecord line, long number) {
            for (int i = 0; i < line.size(); i++) {
                String name = line.get(i);
                if (!NEEDED.contains(name) && !WANTED.contains(name))
                    problem(number, "column '" + name + "' is not known; allowed are " + COLUMNS);
                else if (column.put(name, i) != null) problem(number, "column '" + name + "' is there twice");
            }
            for (String name : NEEDED)
                if (!column.containsKey(name))
                    problem(number, "column '" + name + "' is missing; needed are " + COLUMNS);
        }

        private void wire(CSVRecord line, long number) {
            int before = problems.size();
            if (line.size() != column.size()) {
                problem(number, "has " + line.size() + " fields, the first line names " + column.size());
                return;
            }
            String id = name(line, number, "wire");
            Long first = lineOfWire.putIfAbsent(id, number);
            if (first != null) problem(number, "wire '" + id + "' is also in line " + first);
            String size = value(line, "size");
            if (!CircuitReader.SIZE.matcher(size).matches())
                problem(number, "size '" + size + "' is not a size; write it as AWG18 (0 to 40) or 1.5mm2");
            String from = end(line, number, "from");
            String to = end(line, number, "to");
            if (from.equals(to)) problem(number, "the wire ends where it starts, at " + from);
            List<String> runs = branchesOf(line, number);
            OptionalDouble metres = metres(line, number);
            if (problems.size() > before) return;
            branches.addAll(runs);
            mention(from);
            mention(to);
            wires.add(new Wire(
                    id,
                    value(line, "circuit"),
                    from,
                    to,
                    Conductor.parse(size),
                    value(line, "colour"),
                    value(line, "insulation"),
                    metres));
        }

        private String value(CSVRecord line, String name) {
            return column.containsKey(name) ? line.get(column.get(name)) : "";
        }

        private String name(CSVRecord line, long number, String field) {
            String text = value(line, field);
            if (text.isEmpty()) problem(number, field + " is empty");
            else if (!Cursor.isName(text))
                problem(number, field + " '" + text + "' is no name; leave out spaces and / @ ~ : . , ; ' \"");
            return text;
        }

        private String end(CSVRecord line, long number, String side) {
            String owner = name(line, number, side + "Connector");
            return value(line, side + "Cavity").isEmpty() ? owner : owner + "/" + name(line, number, side + "Cavity");
        }

        private List<String> branchesOf(CSVRecord line, long number) {
            String text = value(line, "branch");
            if (text.isEmpty()) return List.of();
            List<String> out = List.of(text.split("\\s+"));
            for (String each : out)
                if (!Cursor.isName(each))
                    problem(number, "branch '" + each + "' is no name; divide branches by spaces");
            return out;
        }

        private OptionalDouble metres(CSVRecord line, long number) {
            String text = value(line, "metres");
            if (text.isEmpty()) return OptionalDouble.empty();
            double metres = text.matches("[0-9]{1,3}([.][0-9]{1,6})?") ? Double.parseDouble(text) : -1;
            if (metres >= 0.001 && metres <= 100) return OptionalDouble.of(metres);
            problem(
                    number,
                    "metres '" + text + "' is not a length within 0.001 to 100, written with a point as in 1.25");
            return OptionalDouble.empty();
        }

        private void mention(String end) {
            int slash = end.indexOf('/');
            if (slash > 0)
                connectors
                        .computeIfAbsent(end.substring(0, slash), k -> new LinkedHashSet<>())
                        .add(end.substring(slash + 1));
        }
    }
}
