package loomcase.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.OptionalDouble;
import loomcase.json.JsonText;

/** Answers on the wire. */
final class Reply {
    private static final String JSON = "application/json; charset=utf-8";

    /** An answer that is ready in this time is sent at once; the page asks for others again. */
    static final long PATIENCE_MILLIS = 400;

    private static final int ACCEPTED = 202;

    private Reply() {}

    static void json(HttpServerExchange exchange, int status, JsonText value) {
        send(exchange, status, JSON, value.bytes());
    }

    static void json(HttpServerExchange exchange, JsonText value) {
        json(exchange, 200, value);
    }

    /** Word that an answer is being made, with the share done, 0 to 1, of the ranking that comes first if that is it. */
    static void underWay(HttpServerExchange exchange, OptionalDouble share) {
        json(exchange, ACCEPTED, json -> {
            json.writeStartObject();
            if (share.isPresent()) json.writeNumberField("share", share.getAsDouble());
            json.writeEndObject();
        });
    }

    static void text(HttpServerExchange exchange, String type, String text) {
        send(exchange, 200, type, text.getBytes(StandardCharsets.UTF_8));
    }

    static void send(HttpServerExchange exchange, int status, String type, byte[] bytes) {
        exchange.setStatusCode(status);
        exchange.getResponseHeaders().put(Headers.CONTENT_TYPE, type);
        exchange.getResponseSender().send(ByteBuffer.wrap(bytes));
    }

    /** One message under {@code message}; a connection whose body was not read is closed. */
    static void refuse(HttpServerExchange exchange, Refusal refusal) {
        if (!exchange.isRequestComplete()) exchange.setPersistent(false);
        json(exchange, refusal.status(), json -> {
            json.writeStartObject();
            json.writeStringField("message", refusal.getMessage());
            json.writeEndObject();
        });
    }
}
