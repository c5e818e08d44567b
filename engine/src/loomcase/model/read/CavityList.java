package loomcase.model.read;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.model.Conductor;
import org.apache.commons.csv.CSVRecord;

/**
 * A cavity list: comma-separated text with one line for each cavity of one or more plugs, as it is written down from a part
 * in the hand or from a drawing of its plug face.
 *
 * <p>The first line names the columns, in any order: {@value #COLUMNS}. A field left empty is not known; a line with
 * neither circuit nor wire is an empty cavity. What a plug has only once (terminal, keying, housing, latch, seal,
 * secondaryLock) may stand in any of its lines, but not differently in two.
 *
 * @param plugs by id, in order of first mention
 */
public record CavityList(Map<String, Plug> plugs) {
    /** Columns that must be there, then those that may be. */
    public static final String COLUMNS = "connector, cavity, and if wanted circuit, wire, size, colour, insulation,"
            + " metres, terminal, keying, housing, latch, seal, secondaryLock";

    private static final List<String> OF_PLUG =
            List.of("terminal", "keying", "housing", "latch", "seal", "secondaryLock");
    private static final CsvLines.Columns FORM = new CsvLines.Columns(
            "cavity list",
            "cavities",
            List.of("connector", "cavity"),
            List.of(
                    "circuit",
                    "wire",
                    "size",
                    "colour",
                    "insulation",
                    "metres",
                    "terminal",
                    "keying",
                    "housing",
                    "latch",
                    "seal",
                    "secondaryLock"),
            COLUMNS);

    /**
     * One plug.
     *
     * @param id as written
     * @param facts what is known of the plug as a whole, by column name
     * @param cavities by name, in file order
     */
    public record Plug(String id, Map<String, String> facts, Map<String, Cavity> cavities) {
        public Plug {
            facts = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(facts));
            cavities = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(cavities));
        }
    }

    /**
     * One cavity.
     *
     * @param name as marked
     * @param circuit what it carries, empty for not known
     * @param wire id of its wire, empty for not known
     * @param size of its wire
     * @param colour of its wire, empty for not known
     * @param insulation class of its wire, empty for not known
     * @param metres length of its wire
     */
    public record Cavity(
            String name,
            String circuit,
            String wire,
            Optional<Conductor> size,
            String colour,
            String insulation,
            OptionalDouble metres) {
        /** True when the list gives it neither circuit nor wire. */
        public boolean empty() {
            return circuit.isEmpty() && wire.isEmpty();
        }
    }

    public CavityList {
        plugs = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(plugs));
    }

    /**
     * Reads a cavity list.
     *
     * @throws InputProblem with file and line of every bad line, up to 20, each on a line of its own
     */
    public static CavityList read(Path file) {
        return new Lines(file).read();
    }

    /** The lines of one file while they are read. */
    private static final class Lines {
        private final CsvLines csv;
        private final Map<String, Long> lineOf = new HashMap<>();
        private final Map<String, Map<String, String>> facts = new LinkedHashMap<>();
        private final Map<String, Map<String, Cavity>> cavities = new LinkedHashMap<>();

        Lines(Path file) {
            this.csv = new CsvLines(file, FORM);
        }

        CavityList read() {
            csv.read(this::cavity);
            Map<String, Plug> out = new LinkedHashMap<>();
            cavities.forEach((id, all) -> out.put(id, new Plug(id, facts.get(id), all)));
            return new CavityList(out);
        }

        private void cavity(CSVRecord line, long number) {
            int before = csv.problems();
            String plug = csv.name(line, number, "connector");
            String name = csv.name(line, number, "cavity");
            Long first = lineOf.putIfAbsent(plug + "/" + name, number);
            if (first != null) csv.problem(number, "cavity '" + plug + "/" + name + "' is also in line " + first);
            String size = csv.value(line, "size");
            if (!size.isEmpty()) csv.isSize(number, size);
            OptionalDouble metres = csv.metres(line, number);
            facts.computeIfAbsent(plug, k -> new LinkedHashMap<>());
            for (String fact : OF_PLUG) fact(line, number, plug, fact);
            if (csv.problems() > before) return;
            cavities.computeIfAbsent(plug, k -> new LinkedHashMap<>())
                    .put(
                            name,
                            new Cavity(
                                    name,
                                    csv.value(line, "circuit"),
                                    csv.value(line, "wire"),
                                    size.isEmpty() ? Optional.empty() : Optional.of(CsvLines.size(size)),
                                    csv.value(line, "colour"),
                                    csv.value(line, "insulation"),
                                    metres));
        }

        private void fact(CSVRecord line, long number, String plug, String fact) {
            String text = csv.value(line, fact);
            if (text.isEmpty()) return;
            if (fact.equals("secondaryLock") && !text.equals("yes") && !text.equals("no")) {
                csv.problem(number, "secondaryLock '" + text + "' is not one of yes, no");
                return;
            }
            String before = facts.get(plug).putIfAbsent(fact, text);
            if (before != null && !before.equals(text))
                csv.problem(
                        number,
                        fact + " '" + text + "' of connector " + plug + " differs from '" + before
                                + "' in an earlier line");
        }
    }
}
