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
        JsonFactory factory = JsonFactory.builder()
                .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                .build();
        try (Reader text = Files.newBufferedReader(file);
                JsonParser parser = factory.createParser(afterMark(text))) {
            if (parser.nextToken() == null) throw new InputProblem(file + ": is empty, a JSON object was expected");
            Json value = value(parser);
            if (parser.nextToken() != null)
                throw new InputProblem(file + ": line " + line(parser) + ": text after the end of the JSON value");
            return value;
        } catch (NoSuchFileException e) {
            throw new InputProblem(file + ": no such file", e);
        } catch (AccessDeniedException e) {
            throw new InputProblem(file + ": this user may not read it", e);
        } catch (JsonProcessingException e) {
            throw new InputProblem(file + ": line " + lineOf(e) + ": not valid JSON: " + words(e), e);
        } catch (java.nio.charset.CharacterCodingException e) {
            throw new InputProblem(file + ": is not UTF-8 text", e);
        } catch (IOException e) {
            throw new InputProblem(file + ": cannot be read: " + e.getMessage(), e);
        }
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

    private static int line(JsonParser parser) {
        return parser.currentTokenLocation().getLineNr();
    }

    private static Json value(JsonParser parser) throws IOException {
        int line = line(parser);
        JsonToken token = parser.currentToken();
        if (token == JsonToken.START_OBJECT) {
            Map<String, Json> fields = new LinkedHashMap<>();
            while (parser.nextToken() != JsonToken.END_OBJECT) {
                String name = parser.currentName();
                parser.nextToken();
                fields.put(name, value(parser));
            }
            return new Obj(fields, line);
        }
        if (token == JsonToken.START_ARRAY) {
            List<Json> items = new ArrayList<>();
            while (parser.nextToken() != JsonToken.END_ARRAY) items.add(value(parser));
            return new Arr(items, line);
        }
        if (token == JsonToken.VALUE_STRING) return new Text(parser.getText(), line);
        if (token.isNumeric()) return new Num(parser.getText(), line);
        return new Word(parser.getText(), line);
    }
}
