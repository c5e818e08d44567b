package loomcase;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * Figures by key, one a line: comma-separated text (RFC 4180) whose first line names the columns, {@code key} among them. The
 * program brings one such file of each kind; a shop may lay its own over it.
 *
 * @param name the file that comes with the program, from the project's folder, such as {@code rules/priors.csv}
 * @param columns columns that must be there besides {@code key}; others are for people
 * @param figure what a line says
 */
public record KeyedFile<T>(String name, List<String> columns, Figure<T> figure) {
    /** What the columns of a line say. */
    public interface Figure<T> {
        /**
         * @param where file and line, for the head of a message
         * @param key the line's key
         * @param line its columns
         * @throws InputProblem when they say nothing that can be
         */
        T read(String where, String key, CSVRecord line);
    }

    public KeyedFile {
        columns = List.copyOf(columns);
    }

    /** The file that comes with the program, in its order. */
    public Map<String, T> builtIn() {
        String resource = "/" + name;
        try (InputStream in = KeyedFile.class.getResourceAsStream(resource)) {
            if (in == null) throw new IllegalStateException("the program lacks " + resource);
            return parse(resource, new InputStreamReader(in, StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new IllegalStateException("cannot read " + resource, e);
        }
    }

    /**
     * A shop's own file, laid over figures: keys it lacks keep their value.
     *
     * @throws InputProblem with file, line and what is wrong
     */
    public Map<String, T> over(Map<String, T> below, Path file) {
        try (Reader in = Files.newBufferedReader(file)) {
            Map<String, T> merged = new LinkedHashMap<>(below);
            parse(file.toString(), in).forEach((key, value) -> {
                if (!below.containsKey(key))
                    throw new InputProblem(file + ": key '" + key + "' is not known; see " + name + " for the keys");
                merged.put(key, value);
            });
            return merged;
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (CharacterCodingException e) {
            throw new InputProblem(file + ": is not UTF-8 text", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
    }

    private Map<String, T> parse(String from, Reader in) throws IOException {
        Map<String, T> out = new LinkedHashMap<>();
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var lines = format.parse(in)) {
            for (CSVRecord line : lines) {
                String where = from + ": line " + lines.getCurrentLineNumber() + ": ";
                if (!line.isMapped("key") || !columns.stream().allMatch(line::isMapped) || !line.isConsistent())
                    throw new InputProblem(where + "needs the columns of " + name);
                String key = line.get("key");
                if (out.put(key, figure.read(where, key, line)) != null)
                    throw new InputProblem(where + key + " is given twice; give it once");
            }
        } catch (UncheckedIOException e) {
            if (e.getCause() instanceof CharacterCodingException coding) throw coding;
            throw new InputProblem(from + ": is not a CSV file: " + firstLine(e.getCause()), e);
        } catch (IllegalArgumentException e) {
            throw new InputProblem(from + ": is not a CSV file: " + firstLine(e), e);
        }
        return out;
    }

    private static String firstLine(Throwable e) {
        return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
    }
}
