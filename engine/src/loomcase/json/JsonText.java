package loomcase.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;

/** One JSON value that knows how to write itself. */
@FunctionalInterface
public interface JsonText {
    /** Writes exactly one value. */
    void write(JsonGenerator json) throws IOException;

    /** The value on one line, without a line end. */
    default String line() {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            write(json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    /**
     * Prints the value over several lines with a line end behind it; the writer stays open.
     *
     * @throws UncheckedIOException when it cannot be written
     */
    default void print(PrintWriter out) {
        JsonFactory factory = JsonFactory.builder()
                .disable(StreamWriteFeature.AUTO_CLOSE_TARGET)
                .build();
        try (JsonGenerator json = factory.createGenerator(out).useDefaultPrettyPrinter()) {
            write(json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        out.println();
    }

    /**
     * The value on one line, in UTF-8.
     *
     * @throws UncheckedIOException never, as memory takes everything
     */
    default byte[] bytes() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (JsonGenerator json = new JsonFactory().createGenerator(out)) {
            write(json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }
}
