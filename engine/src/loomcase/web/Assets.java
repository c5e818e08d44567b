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

/**
 * The page's own files and its library, all held in memory; nothing else has an address.
 *
 * <p>Each script and style has two addresses: its plain one, asked about at every use, and one below a folder that is named by
 * the digest of all of them, which a browser may keep for good. The page uses the second, so that a page opened again asks for
 * nothing but itself, and never mixes files of two programs.
 */
final class Assets {
    private static final String START = "/";
    private static final int KEPT_LENGTH = 32;
    private static final String SCRIPT = "text/javascript; charset=utf-8";

    private static final List<String> OWN = List.of(
            "index.html",
            "app.css",
            "icon.svg",
            "early.js",
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
     * @param forGood its address will never have other content
     */
    private record Asset(String type, byte[] bytes, String tag, boolean forGood) {}

    private final Map<String, Asset> assets = new LinkedHashMap<>();

    Assets() {
        Map<String, byte[]> files = files();
        StringBuilder all = new StringBuilder();
        files.forEach((path, bytes) -> all.append(path).append(Digest.of(bytes).hex()));
        String kept = "/" + Digest.of(all.toString()).hex().substring(0, KEPT_LENGTH);
        files.forEach((path, bytes) -> {
            put(path, bytes, false);
            if (!path.equals(START)) put(kept + path, moved(bytes, kept), true);
        });
        put(START, moved(files.get(START), kept), false);
    }

    private static Map<String, byte[]> files() {
        Map<String, byte[]> out = new LinkedHashMap<>();
        for (String name : OWN) out.put(name.equals("index.html") ? START : "/" + name, read("/loomcase/web/" + name));
        String preact = "/META-INF/resources/webjars/preact/" + version("org.webjars.npm/preact");
        out.put("/lib/preact.js", read(preact + "/dist/preact.module.js"));
        out.put("/lib/hooks.js", addressed(read(preact + "/hooks/dist/hooks.module.js")));
        String htm = "/META-INF/resources/_static/htm/" + version("org.mvnpm/htm");
        out.put("/lib/htm.js", read(htm + "/dist/htm.module.js"));
        return out;
    }

    /** The same file with the addresses of the page's own files below a folder. */
    private static byte[] moved(byte[] file, String folder) {
        return new String(file, StandardCharsets.UTF_8)
                .replaceAll("(from |href=|src=)\"/(?=[a-z])", "$1\"" + folder + "/")
                .getBytes(StandardCharsets.UTF_8);
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
        if (name.equals(START)) return "text/html; charset=utf-8";
        if (name.endsWith(".css")) return "text/css; charset=utf-8";
        if (name.endsWith(".svg")) return "image/svg+xml";
        return SCRIPT;
    }

    private void put(String path, byte[] bytes, boolean forGood) {
        String tag = "\"" + Digest.of(bytes).hex().substring(0, 32) + "\"";
        assets.put(path, new Asset(type(path), bytes, tag, forGood));
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
        if (asset.forGood)
            exchange.getResponseHeaders().put(Headers.CACHE_CONTROL, "private, max-age=31536000, immutable");
        if (asset.tag.equals(exchange.getRequestHeaders().getFirst(Headers.IF_NONE_MATCH))) {
            exchange.setStatusCode(304).endExchange();
            return;
        }
        Reply.send(exchange, 200, asset.type, asset.bytes);
    }
}
