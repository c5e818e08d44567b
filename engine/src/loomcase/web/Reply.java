package loomcase.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.util.HeaderValues;
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

    /** True for a request of a browser's own tab, which shows a person what comes; the page's scripts take anything. */
    static boolean isForPerson(HttpServerExchange exchange) {
        HeaderValues wanted = exchange.getRequestHeaders().get(Headers.ACCEPT);
        return wanted != null && wanted.stream().anyMatch(a -> a.contains("text/html"));
    }

    /** A plain page. */
    private static void page(HttpServerExchange exchange, int status, String head, String heading, String words) {
        String text = "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>Loomcase</title>" + head
                + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">"
                + "<link rel=\"stylesheet\" href=\"/app.css\"></head><body><main class=\"page\"><h1>" + escaped(heading)
                + "</h1><p role=\"status\">" + escaped(words)
                + "</p><p><a class=\"button\" href=\"/\">Cases</a></p></main></body></html>";
        send(exchange, status, "text/html; charset=utf-8", text.getBytes(StandardCharsets.UTF_8));
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }

    /** A page that says that a sheet is being made and asks for it again every second, until it comes. */
    static void waiting(HttpServerExchange exchange, OptionalDouble share) {
        String words = share.isPresent()
                ? "First all faults of this harness are weighed: " + Math.round(100 * share.getAsDouble()) + " %."
                : "This takes some seconds. It opens here, or your browser saves it, when it is ready.";
        page(
                exchange,
                ACCEPTED,
                "<meta http-equiv=\"refresh\" content=\"1\">",
                "The sheet is being made \u2026",
                words);
    }

    /** One message under {@code message}, for a person as a page; a connection whose body was not read is closed. */
    static void refuse(HttpServerExchange exchange, Refusal refusal) {
        if (!exchange.isRequestComplete()) exchange.setPersistent(false);
        if (isForPerson(exchange)) {
            page(exchange, refusal.status(), "", "That did not work", refusal.getMessage());
            return;
        }
        json(exchange, refusal.status(), json -> {
            json.writeStartObject();
            json.writeStringField("message", refusal.getMessage());
            json.writeEndObject();
        });
    }
}
