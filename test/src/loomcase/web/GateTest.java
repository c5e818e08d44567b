package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import loomcase.journal.Digest;
import loomcase.web.Served.Answer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What a foreign page, a foreign name or a crafted request gets: nothing, and nothing changes.
 *
 * <p>Attacks tried: DNS rebinding (a foreign Host), cross-site request forgery (OWASP CSRF prevention: Origin, Fetch Metadata,
 * custom header), path traversal (CWE-22), exhausted memory (CWE-770).
 */
class GateTest {
    private static final String NOTE = "{\"kind\": \"note\", \"text\": \"x\"}";

    @TempDir
    private Path root;

    private Served served;
    private Digest before;

    @BeforeEach
    void start() {
        served = new Served(root);
        before = served.digest("first.jsonl");
    }

    @AfterEach
    void nothingChanged() {
        served.close();
        assertEquals(before, served.digest("first.jsonl"));
    }

    private String body() {
        return "{\"last\": \"" + served.last("first") + "\", \"by\": \"ada\", \"fact\": " + NOTE + "}";
    }

    private Answer forged(String... headers) {
        return served.send(
                HttpRequest.newBuilder(served.uri("/api/cases/first/lines"))
                        .POST(HttpRequest.BodyPublishers.ofString(body())),
                headers);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "evil.example",
                "evil.example:PORT",
                "127.0.0.1",
                "localhost:1",
                "0.0.0.0:PORT",
                "",
                "127.0.0.1:PORT.evil.example"
            })
    void aForeignHostGetsNothing(String host) {
        String port = Integer.toString(served.server.address().getPort());
        for (String path : List.of("/", "/api/start", "/api/cases")) {
            List<String> answer = served.raw("GET " + path + " HTTP/1.1\r\nHost: " + host.replace("PORT", port)
                    + "\r\nConnection: close\r\n\r\n");
            assertTrue(answer.get(0).matches("HTTP/1.1 40[03] .*"), answer.toString());
            assertFalse(answer.toString().contains("token"), answer.toString());
        }
    }

    @Test
    void twoHostsOrNoneGetNothing() {
        String own = "Host: 127.0.0.1:" + served.server.address().getPort() + "\r\n";
        for (String hosts : List.of("", own + "Host: evil.example\r\n", "Host: evil.example\r\n" + own)) {
            List<String> answer = served.raw("GET /api/start HTTP/1.1\r\n" + hosts + "Connection: close\r\n\r\n");
            assertTrue(answer.get(0).matches("HTTP/1.1 40[03] .*"), answer.toString());
        }
    }

    @Test
    void aChangeWithEverythingRightIsMadeSoThatTheRefusalsMeanSomething() throws IOException {
        Answer answer = forged(
                "Content-Type", "application/json", "Origin", served.origin(), "X-Loomcase-Token", served.token());
        assertEquals(200, answer.status(), answer.body());
        before = served.digest("first.jsonl");
    }

    @Test
    void aChangeFromAnotherOriginIsRefused() {
        String token = served.token();
        for (String origin :
                List.of("http://evil.example", "null", "https" + served.origin().substring(4), "http://localhost:1"))
            assertEquals(
                    403,
                    forged("Content-Type", "application/json", "Origin", origin, "X-Loomcase-Token", token)
                            .status(),
                    origin);
        assertEquals(
                403,
                forged("Content-Type", "application/json", "X-Loomcase-Token", token)
                        .status());
        assertEquals(
                403,
                forged(
                                "Content-Type",
                                "application/json",
                                "Origin",
                                served.origin(),
                                "Sec-Fetch-Site",
                                "cross-site",
                                "X-Loomcase-Token",
                                token)
                        .status());
    }

    @Test
    void aChangeWithoutTheTokenOfThisStartIsRefused() {
        assertEquals(
                403,
                forged("Content-Type", "application/json", "Origin", served.origin())
                        .status());
        assertEquals(
                403,
                forged(
                                "Content-Type",
                                "application/json",
                                "Origin",
                                served.origin(),
                                "X-Loomcase-Token",
                                "0".repeat(48))
                        .status());
    }

    /** The three content types that a foreign page can send without a preflight (WHATWG Fetch, CORS-safelisted). */
    @ParameterizedTest
    @ValueSource(strings = {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data"})
    void aFormIsNoChange(String type) {
        assertEquals(
                415,
                forged("Content-Type", type, "Origin", served.origin(), "X-Loomcase-Token", served.token())
                        .status());
    }

    @Test
    void noActionIsDoneByGet() {
        for (String path : List.of("lines", "codes", "log"))
            assertEquals(405, served.get("/api/cases/first/" + path).status(), path);
        for (String method : List.of("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"))
            assertEquals(
                    405,
                    served.send(HttpRequest.newBuilder(served.uri("/api/cases/first"))
                                    .method(method, HttpRequest.BodyPublishers.noBody()))
                            .status(),
                    method);
    }

    @Test
    void readingFromAnotherSiteIsRefusedButALinkToThePageWorks() {
        assertEquals(
                403, served.get("/api/cases", "Sec-Fetch-Site", "cross-site").status());
        assertEquals(
                403, served.get("/api/start", "Sec-Fetch-Site", "same-site").status());
        assertEquals(200, served.get("/", "Sec-Fetch-Site", "cross-site").status());
    }

    @ParameterizedTest
    @CsvSource({
        "/../circuits/teaching.json",
        "/api/cases/../../circuits/teaching",
        "/api/cases/..%2f..%2fcircuits%2fteaching",
        "/api/cases/%2e%2e/%2e%2e/etc/passwd",
        "/api/cases/..%5c..%5cx",
        "/lib/../../../etc/passwd",
        "/api/cases/first.jsonl",
        "/api/cases/first%00",
        "//etc/passwd",
        "/api/cases/%252e%252e",
        "/app.css/../index.html",
        "/api/cases/first/log/..",
        "/cases/first.jsonl",
        "/first.jsonl",
        "/..%c0%af..%c0%afetc/passwd"
    })
    void noPathLeavesTheFolder(String path) {
        List<String> answer = served.raw("GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1:"
                + served.server.address().getPort() + "\r\nConnection: close\r\n\r\n");
        assertTrue(answer.get(0).matches("HTTP/1.1 40[034] .*"), answer.toString());
        assertFalse(answer.toString().contains("root:"), answer.toString());
        assertFalse(answer.toString().contains("\"wires\""), answer.toString());
    }

    @Test
    void aLinkOutOfTheFolderIsNoCase() throws IOException {
        Path outside = Files.writeString(root.resolve("secret.jsonl"), "secret");
        Files.createSymbolicLink(served.folder.resolve("linked.jsonl"), outside);
        assertEquals(404, served.get("/api/cases/linked").status());
        assertFalse(served.get("/api/cases").body().contains("linked"));
        assertEquals(404, served.line("linked", "0".repeat(64), NOTE).status());
        assertEquals("secret", Files.readString(outside));
    }

    @ParameterizedTest
    @ValueSource(strings = {"../out", "a/b", ".hidden", "", "a b", "-x", "x.jsonl", "/tmp/x", "caf\\u00e9"})
    void aNewCaseHasAPlainName(String name) throws IOException {
        Answer answer = served.post(
                "/api/cases",
                "{\"name\": \"" + name + "\", \"circuit\": \"teaching.json\", \"complaint\": \"x\", \"by\": \"ada\"}");
        assertEquals(400, answer.status(), answer.body());
        try (var all = Files.list(served.folder)) {
            assertEquals(1, all.count());
        }
    }

    @Test
    void oversizedBodiesAreRefusedAndLeaveNothing() throws IOException {
        String large = "{\"last\": \"" + "x".repeat(Body.MOST_JSON_BYTES) + "\"}";
        assertEquals(413, served.post("/api/cases/first/lines", large).status());
        String log = "x".repeat(Body.MOST_LOG_BYTES + 1);
        Answer answer = served.post("/api/cases/first/log?by=ada&last=" + served.last("first"), log, "text/plain");
        assertEquals(413, answer.status());
        try (var all = Files.list(served.folder)) {
            assertEquals(
                    List.of("first.jsonl"),
                    all.map(p -> p.getFileName().toString()).toList());
        }
    }

    @Test
    void aBodyThatHidesItsLengthIsCutOffToo() {
        String port = Integer.toString(served.server.address().getPort());
        String chunk = "4000\r\n" + "x".repeat(0x4000) + "\r\n";
        List<String> answer = served.raw("POST /api/cases/first/lines HTTP/1.1\r\nHost: 127.0.0.1:" + port
                + "\r\nOrigin: " + served.origin() + "\r\nX-Loomcase-Token: " + served.token()
                + "\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n"
                + chunk.repeat(5));
        assertTrue(answer.get(0).startsWith("HTTP/1.1 413"), answer.get(0));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "{",
                "[]",
                "null",
                "{\"last\": 1}",
                "{\"last\": \"x\", \"last\": \"y\"}",
                "{} {}",
                "{\"fact\": {}}",
                "{\"last\": \"zz\", \"by\": \"ada\", \"fact\": {\"kind\": \"note\", \"text\": \"x\"}}"
            })
    void malformedJsonIsOneClearMessage(String body) {
        Answer answer = served.post("/api/cases/first/lines", body);
        assertEquals(400, answer.status(), answer.body());
        assertFalse(answer.field("message").isBlank());
        assertFalse(answer.body().contains("Exception"), answer.body());
        assertFalse(answer.body().contains(root.toString()), answer.body());
    }

    @Test
    void nestingWithoutEndIsRefused() {
        Answer answer = served.post("/api/cases/first/lines", "[".repeat(30_000));
        assertEquals(400, answer.status(), answer.body());
    }

    @Test
    void everyAnswerKeepsThePageToItself() {
        for (String path : List.of("/", "/app.js", "/api/cases", "/nowhere")) {
            String answer = String.join(
                    "\n",
                    served.raw("GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1:"
                            + served.server.address().getPort() + "\r\nConnection: close\r\n\r\n"));
            assertTrue(
                    answer.contains(
                            "Content-Security-Policy: default-src 'none'; script-src 'self'; style-src 'self';"),
                    path);
            assertTrue(answer.contains("frame-ancestors 'none'"), path);
            assertTrue(answer.contains("X-Content-Type-Options: nosniff"), path);
            assertFalse(answer.contains("Access-Control"), path);
            assertFalse(answer.contains("unsafe"), path);
        }
    }

    @Test
    void onlyLoopbackListens() throws IOException {
        int port = served.server.address().getPort();
        for (NetworkInterface each : Collections.list(NetworkInterface.getNetworkInterfaces()))
            for (var address : Collections.list(each.getInetAddresses())) {
                if (address.isLoopbackAddress()) continue;
                boolean open;
                try (Socket socket = new Socket()) {
                    socket.connect(new InetSocketAddress(address, port), 500);
                    open = true;
                } catch (IOException e) {
                    open = false;
                }
                assertFalse(open, address + " answers");
            }
        assertTrue(served.server.address().getHost().equals("127.0.0.1"));
    }

    /** What a browser may keep for good (RFC 8246) has an address that changes with its content; the start page is asked for. */
    @Test
    void filesOfThePageAreKeptForGoodUnderAnAddressOfTheirOwn() throws Exception {
        HttpClient client = HttpClient.newHttpClient();
        HttpResponse<String> start =
                client.send(HttpRequest.newBuilder(served.uri("/")).build(), HttpResponse.BodyHandlers.ofString());
        assertEquals("no-cache", start.headers().firstValue("Cache-Control").orElseThrow());
        Matcher kept = Pattern.compile("src=\"(/[0-9a-f]{32}/app\\.js)\"").matcher(start.body());
        assertTrue(kept.find(), start.body());
        HttpResponse<String> script = client.send(
                HttpRequest.newBuilder(served.uri(kept.group(1))).build(), HttpResponse.BodyHandlers.ofString());
        assertEquals(200, script.statusCode());
        assertTrue(script.headers().firstValue("Cache-Control").orElseThrow().contains("immutable"));
        assertTrue(!script.body().contains("from \"/api.js\""), "its imports lie beside it");
        assertEquals(404, served.get("/" + "0".repeat(32) + "/app.js").status());
    }
}
