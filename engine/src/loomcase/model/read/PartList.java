package loomcase.model.read;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;

/**
 * What is known of a part: a cavity list or a wire list, told by the first line.
 *
 * @param name of the file without its ending
 * @param cavities the cavity list, if it is one
 * @param wires the wire list, if it is one
 */
public record PartList(String name, Optional<CavityList> cavities, Optional<WireList> wires) {
    /** Columns of a cavity list. */
    public static final String CAVITIES = CavityList.COLUMNS;

    private static final String ENDING = ".csv";

    /**
     * Reads a list; empty for a file whose name does not end in {@value #ENDING}.
     *
     * @throws loomcase.InputProblem with file and line of every bad line
     */
    public static Optional<PartList> read(Path file) {
        String name = String.valueOf(file.getFileName());
        if (!name.toLowerCase(Locale.ROOT).endsWith(ENDING)) return Optional.empty();
        String stem = name.substring(0, name.length() - ENDING.length());
        return Optional.of(
                wireList(file)
                        ? new PartList(stem, Optional.empty(), Optional.of(WireList.read(file)))
                        : new PartList(stem, Optional.of(CavityList.read(file)), Optional.empty()));
    }

    /** A file that cannot be read counts as a cavity list, whose reader then says why. */
    private static boolean wireList(Path file) {
        try (BufferedReader text = Files.newBufferedReader(file)) {
            String first = text.readLine();
            return first != null && first.contains("fromConnector");
        } catch (IOException e) {
            return false;
        }
    }
}
