package loomcase.model.read;

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
import loomcase.model.Wire;
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
    private static final CsvLines.Columns FORM = new CsvLines.Columns("wire list", "wires", NEEDED, WANTED, COLUMNS);

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
     * @throws InputProblem with file and line of every bad line, up to 20, each on a line of its own
     */
    public static WireList read(Path file) {
        return new Lines(file).read();
    }

    /** The lines of one file while they are read. */
    private static final class Lines {
        private final CsvLines csv;
        private final Map<String, Long> lineOfWire = new HashMap<>();
        private final List<Wire> wires = new ArrayList<>();
        private final Map<String, Set<String>> connectors = new LinkedHashMap<>();
        private final Set<String> branches = new LinkedHashSet<>();

        Lines(Path file) {
            this.csv = new CsvLines(file, FORM);
        }

        WireList read() {
            csv.read(this::wire);
            return new WireList(wires, connectors, branches);
        }

        private void wire(CSVRecord line, long number) {
            int before = csv.problems();
            String id = csv.name(line, number, "wire");
            Long first = lineOfWire.putIfAbsent(id, number);
            if (first != null) csv.problem(number, "wire '" + id + "' is also in line " + first);
            String size = csv.value(line, "size");
            csv.isSize(number, size);
            String from = end(line, number, "from");
            String to = end(line, number, "to");
            if (from.equals(to)) csv.problem(number, "the wire ends where it starts, at " + from);
            List<String> runs = branchesOf(line, number);
            OptionalDouble metres = csv.metres(line, number);
            if (csv.problems() > before) return;
            branches.addAll(runs);
            mention(from);
            mention(to);
            wires.add(new Wire(
                    id,
                    csv.value(line, "circuit"),
                    from,
                    to,
                    CsvLines.size(size),
                    csv.value(line, "colour"),
                    csv.value(line, "insulation"),
                    metres));
        }

        private String end(CSVRecord line, long number, String side) {
            String owner = csv.name(line, number, side + "Connector");
            return csv.value(line, side + "Cavity").isEmpty()
                    ? owner
                    : owner + "/" + csv.name(line, number, side + "Cavity");
        }

        private List<String> branchesOf(CSVRecord line, long number) {
            String text = csv.value(line, "branch");
            if (text.isEmpty()) return List.of();
            List<String> out = List.of(text.split("\\s+"));
            for (String each : out)
                if (!Cursor.isName(each))
                    csv.problem(number, "branch '" + each + "' is no name; divide branches by spaces");
            return out;
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
