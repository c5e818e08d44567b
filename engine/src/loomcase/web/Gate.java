package loomcase.web;

import io.undertow.server.HttpHandler;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.HeaderMap;
import io.undertow.util.Headers;
import io.undertow.util.HttpString;
import io.undertow.util.Methods;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Lets through only what this server's own page asks for, and sets the headers that keep the page to itself.
 *
 * <p>Sources: WHATWG Fetch (Origin, forbidden request headers); W3C Fetch Metadata (Sec-Fetch-Site); W3C Content Security
 * Policy 3.
 */
final class Gate implements HttpHandler {
    /** Header that carries the token of this start; a foreign page cannot set it without a preflight that fails. */
    static final HttpString TOKEN = new HttpString("X-Loomcase-Token");

    private static final HttpString FETCH_SITE = new HttpString("Sec-Fetch-Site");
    private static final Map<String, String> ALWAYS = Map.of(
            "Content-Security-Policy",
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none';"
                    + " form-action 'none'; frame-ancestors 'none'",
            "X-Content-Type-Options",
            "nosniff",
            "X-Frame-Options",
            "DENY",
            "Referrer-Policy",
            "no-referrer",
            "Cross-Origin-Opener-Policy",
            "same-origin",
            "Cross-Origin-Resource-Policy",
            "same-origin",
            "Cache-Control",
            "no-cache");

    private final String token;
    private final HttpHandler next;

    Gate(String token, HttpHandler next) {
        this.token = token;
        this.next = next;
    }

    @Override
    public void handleRequest(HttpServerExchange exchange) throws Exception {
        ALWAYS.forEach((name, value) -> exchange.getResponseHeaders().put(new HttpString(name), value));
        Optional<Refusal> refusal = refusal(exchange);
        if (refusal.isPresent()) Reply.refuse(exchange, refusal.get());
        else next.handleRequest(exchange);
    }

    private Optional<Refusal> refusal(HttpServerExchange exchange) {
        HeaderMap headers = exchange.getRequestHeaders();
        int port = exchange.getDestinationAddress().getPort();
        Set<String> own = Set.of("127.0.0.1:" + port, "localhost:" + port);
        String host = headers.contains(Headers.HOST) ? headers.getFirst(Headers.HOST) : "";
        if (headers.count(Headers.HOST) != 1 || !own.contains(host))
            return refuse("this server answers only to 127.0.0.1 and localhost on its own port");
        boolean read = exchange.getRequestMethod().equals(Methods.GET)
                || exchange.getRequestMethod().equals(Methods.HEAD);
        if (!read && !exchange.getRequestMethod().equals(Methods.POST))
            return Optional.of(new Refusal(Refusal.METHOD_NOT_ALLOWED, "only GET and POST are answered"));
        String site = headers.contains(FETCH_SITE) ? headers.getFirst(FETCH_SITE) : "same-origin";
        boolean page = exchange.getRequestPath().equals("/");
        if (read && (site.equals("same-origin") || site.equals("none") || page)) return Optional.empty();
        if (read || !site.equals("same-origin")) return refuse("the request comes from another site");
        String origin = headers.contains(Headers.ORIGIN) ? headers.getFirst(Headers.ORIGIN) : "";
        if (headers.count(Headers.ORIGIN) != 1 || !origin.equals("http://" + host))
            return refuse("a change must come from this server's own page; the Origin header says otherwise");
        if (!isToken(headers.contains(TOKEN) ? headers.getFirst(TOKEN) : ""))
            return refuse("the page belongs to an earlier start of the server; load it anew");
        return Optional.empty();
    }

    private static Optional<Refusal> refuse(String why) {
        return Optional.of(new Refusal(Refusal.FORBIDDEN, why));
    }

    private boolean isToken(String given) {
        return MessageDigest.isEqual(given.getBytes(StandardCharsets.UTF_8), token.getBytes(StandardCharsets.UTF_8));
    }
}
