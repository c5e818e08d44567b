package loomcase.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import loomcase.model.read.Cursor;
import loomcase.model.read.Json;

/** What a POST carries, read up to a limit. */
final class Body {
    /** No form of the page is longer. */
    static final int MOST_JSON_BYTES = 64 << 10;

    /** Logs from a bay are a few megabytes; longer ones go through the command line. */
    static final int MOST_LOG_BYTES = 32 << 20;

    /** A telephone's picture has up to ten megabytes or so. */
    static final int MOST_PHOTO_BYTES = 16 << 20;

    private static final long MOST_DISCARDED_BYTES = 256L << 20;

    private static final Path NAME = Path.of("request");

    private Body() {}

    /**
     * A JSON object; complaints name its fields.
     *
     * @throws Refusal when it is too long or of another type
     * @throws loomcase.InputProblem when it is no JSON object
     */
    static Cursor json(HttpServerExchange exchange) throws IOException {
        type(exchange, "application/json");
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        copy(exchange, bytes, MOST_JSON_BYTES);
        String text;
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes.toByteArray()))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new Refusal(Refusal.BAD_REQUEST, "request: is not UTF-8 text");
        }
        return Cursor.of(NAME, Json.ofLine(NAME, 1, text));
    }

    /**
     * Saves the body as a new file; on any failure the file is gone again.
     *
     * @param type content type that it must have
     * @param most bytes taken
     * @throws Refusal when it is too long or of another type
     */
    static void save(HttpServerExchange exchange, Path file, String type, int most) throws IOException {
        type(exchange, type);
        try (OutputStream out = Files.newOutputStream(file, StandardOpenOption.CREATE_NEW)) {
            copy(exchange, out, most);
        } catch (IOException | RuntimeException e) {
            Files.deleteIfExists(file);
            throw e;
        }
    }

    private static void type(HttpServerExchange exchange, String wanted) {
        String given = exchange.getRequestHeaders().contains(Headers.CONTENT_TYPE)
                ? exchange.getRequestHeaders().getFirst(Headers.CONTENT_TYPE)
                : "";
        if (!given.equals(wanted) && !given.startsWith(wanted + ";"))
            throw new Refusal(Refusal.WRONG_TYPE, "the content type must be " + wanted);
    }

    private static void copy(HttpServerExchange exchange, OutputStream to, int most) throws IOException {
        byte[] piece = new byte[1 << 14];
        int sum = 0;
        InputStream in = exchange.getInputStream();
        if (exchange.getRequestContentLength() > most) {
            discard(in, piece);
            throw tooLarge(most);
        }
        for (int n = in.read(piece); n >= 0; n = in.read(piece)) {
            sum += n;
            if (sum > most) throw tooLarge(most);
            to.write(piece, 0, n);
        }
    }

    /**
     * Takes in what is still on its way: a connection closed on unread bytes is reset, and a browser then shows that instead
     * of the refusal. What is longer than any sensible mistake is cut off.
     */
    private static void discard(InputStream in, byte[] piece) throws IOException {
        long sum = 0;
        for (int n = in.read(piece); n >= 0 && sum < MOST_DISCARDED_BYTES; n = in.read(piece)) sum += n;
    }

    private static Refusal tooLarge(int most) {
        return new Refusal(
                Refusal.TOO_LARGE,
                "too large: at most " + (most >= 1 << 20 ? (most >> 20) + " MB are" : (most >> 10) + " kB are")
                        + " taken here"
                        + (most == MOST_LOG_BYTES ? "; a longer log can be recorded on the command line" : ""));
    }
}
