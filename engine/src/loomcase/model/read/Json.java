package loomcase.model.read;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import loomcase.InputProblem;

/**
 * A JSON value that remembers its line, so that a complaint can point at it.
 *
 * <p>Reading is strict: a key given twice, a comment or trailing text is refused. Only a byte-order mark at the start is
 * forgiven.
 */
public sealed interface Json {
    /** Line in the file, from 1. */
    int line();

    /** An object, keys in file order. */
    record Obj(Map<String, Json> fields, int line) implements Json {}

    /** An array. */
    record Arr(List<Json> items, int line) implements Json {}

    /** A string. */
    record Text(String value, int line) implements Json {}

    /** A number, kept as written. */
    record Num(String value, int line) implements Json {}

    /** true, false or null. */
    record Word(String value, int line) implements Json {}

    /**
     * Reads one JSON document.
     *
     * @throws InputProblem when the file cannot be read or is not one strict JSON value
     */
    static Json read(Path file) {
        if (Files.isDirectory(file)) throw new InputProblem(file + ": is a folder, not a JSON file");
        try (Reader text = Files.newBufferedReader(file);
                JsonParser parser = strict().createParser(afterMark(text))) {
            return only(file, parser, 0);
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (AccessDeniedException e) {
            throw new InputProblem(file + ": this user may not read it", e);
        } catch (JsonProcessingException e) {
            throw invalid(file, lineOf(e), e);
        } catch (java.nio.charset.CharacterCodingException e) {
            throw new InputProblem(file + ": is not UTF-8 text", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
    }

    /**
     * Reads one line of a JSON Lines file, or a text from elsewhere.
     *
     * @param file name for complaints
     * @param line number of the line, from 1, which every value in it gets
     * @throws InputProblem when it is not one strict JSON value
     */
    static Json ofLine(Path file, int line, String text) {
        try (JsonParser parser = strict().createParser(text)) {
            return only(file, parser, line);
        } catch (JsonProcessingException e) {
            throw invalid(file, line, e);
        } catch (IOException e) {
            throw new IllegalStateException("a text in memory cannot fail to be read", e);
        }
    }

    private static JsonFactory strict() {
        return JsonFactory.builder()
                .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                .build();
    }

    /** The one value of a document; {@code fixed} is the line that all of it stands in, 0 to count lines. */
    private static Json only(Path file, JsonParser parser, int fixed) throws IOException {
        if (parser.nextToken() == null) throw new InputProblem(file + ": is empty, a JSON object was expected");
        Json value = value(parser, fixed);
        if (parser.nextToken() != null)
            throw new InputProblem(file + ": line " + line(parser, fixed) + ": text after the end of the JSON value");
        return value;
    }

    private static InputProblem invalid(Path file, int line, JsonProcessingException e) {
        return new InputProblem(file + ": line " + line + ": not valid JSON: " + words(e), e);
    }

    /** Leaves out the byte-order mark that some editors put first. */
    static Reader afterMark(Reader text) throws IOException {
        text.mark(1);
        if (text.read() != '\uFEFF') text.reset();
        return text;
    }

    private static int lineOf(JsonProcessingException e) {
        return e.getLocation() == null ? 1 : e.getLocation().getLineNr();
    }

    /** The parser's complaint without its pointers into the source, on one line. */
    private static String words(JsonProcessingException e) {
        return Cursor.oneLine(e.getOriginalMessage()
                .replaceAll("\\s*\\(start marker at \\[.*?line: (\\d+).*?\\]\\)", " that opens in line $1"));
    }

    private static int line(JsonParser parser, int fixed) {
        return fixed > 0 ? fixed : parser.currentTokenLocation().getLineNr();
    }

    private static Json value(JsonParser parser, int fixed) throws IOException {
        int line = line(parser, fixed);
        JsonToken token = parser.currentToken();
        if (token == JsonToken.START_OBJECT) {
            Map<String, Json> fields = new LinkedHashMap<>();
            while (parser.nextToken() != JsonToken.END_OBJECT) {
                String name = parser.currentName();
                parser.nextToken();
                fields.put(name, value(parser, fixed));
            }
            return new Obj(fields, line);
        }
        if (token == JsonToken.START_ARRAY) {
            List<Json> items = new ArrayList<>();
            while (parser.nextToken() != JsonToken.END_ARRAY) items.add(value(parser, fixed));
            return new Arr(items, line);
        }
        if (token == JsonToken.VALUE_STRING) return new Text(parser.getText(), line);
        if (token.isNumeric()) return new Num(parser.getText(), line);
        return new Word(parser.getText(), line);
    }
}
