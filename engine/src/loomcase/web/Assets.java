package loomcase.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import loomcase.journal.Digest;

/** The page's own files and its library, all held in memory; nothing else has an address. */
final class Assets {
    private static final String SCRIPT = "text/javascript; charset=utf-8";

    private static final List<String> OWN = List.of(
            "index.html",
            "app.css",
            "icon.svg",
            "app.js",
            "api.js",
            "cases.js",
            "case.js",
            "loom.js",
            "parts.js",
            "record.js",
            "advice.js",
            "claim.js",
            "fact.js",
            "drill.js");

    /**
     * One file.
     *
     * @param tag strong entity tag
     */
    private record Asset(String type, byte[] bytes, String tag) {}

    private final Map<String, Asset> assets = new LinkedHashMap<>();

    Assets() {
        for (String name : OWN)
            put(name.equals("index.html") ? "/" : "/" + name, type(name), read("/loomcase/web/" + name));
        String preact = "/META-INF/resources/webjars/preact/" + version("org.webjars.npm/preact");
        put("/lib/preact.js", SCRIPT, read(preact + "/dist/preact.module.js"));
        put("/lib/hooks.js", SCRIPT, addressed(read(preact + "/hooks/dist/hooks.module.js")));
        String htm = "/META-INF/resources/_static/htm/" + version("org.mvnpm/htm");
        put("/lib/htm.js", SCRIPT, read(htm + "/dist/htm.module.js"));
    }

    /** A browser without a map of names, which the content policy rules out, needs an address in place of a bare name. */
    private static byte[] addressed(byte[] module) {
        String text = new String(module, StandardCharsets.UTF_8);
        String out = text.replace("from\"preact\"", "from\"./preact.js\"");
        if (out.equals(text)) throw new IllegalStateException("the hooks module does not name preact as it used to");
        return out.getBytes(StandardCharsets.UTF_8);
    }

    private static String version(String artifact) {
        Properties properties = new Properties();
        try (InputStream in = stream("/META-INF/maven/" + artifact + "/pom.properties")) {
            properties.load(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return properties.getProperty("version");
    }

    private static String type(String name) {
        if (name.endsWith(".html")) return "text/html; charset=utf-8";
        if (name.endsWith(".css")) return "text/css; charset=utf-8";
        if (name.endsWith(".svg")) return "image/svg+xml";
        return SCRIPT;
    }

    private void put(String path, String type, byte[] bytes) {
        assets.put(path, new Asset(type, bytes, "\"" + Digest.of(bytes).hex().substring(0, 32) + "\""));
    }

    private static byte[] read(String resource) {
        try (InputStream in = stream(resource)) {
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static InputStream stream(String resource) {
        InputStream in = Assets.class.getResourceAsStream(resource);
        if (in == null) throw new IllegalStateException("the program is incomplete: " + resource + " is missing");
        return in;
    }

    /**
     * Sends a file, or word that the browser's copy is still good.
     *
     * @throws Refusal when there is none at this address
     */
    void send(HttpServerExchange exchange) {
        Asset asset = assets.get(exchange.getRequestPath());
        if (asset == null) throw Refusal.notFound("this address");
        exchange.getResponseHeaders().put(Headers.ETAG, asset.tag);
        if (asset.tag.equals(exchange.getRequestHeaders().getFirst(Headers.IF_NONE_MATCH))) {
            exchange.setStatusCode(304).endExchange();
            return;
        }
        Reply.send(exchange, 200, asset.type, asset.bytes);
    }
}
