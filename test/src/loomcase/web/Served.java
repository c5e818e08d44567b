package loomcase.web;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.model.read.Json;

/** A server on a folder of its own with one case about the teaching harness, and requests to it. */
final class Served implements AutoCloseable {
    /** An answer: status, headers and body as text. */
    record Answer(int status, String body) {
        /** Text or number of a field of the answer's object. */
        String field(String name) {
            Json value = ((Json.Obj) Json.ofLine(Path.of("answer"), 1, body))
                    .fields()
                    .get(name);
            if (value instanceof Json.Text t) return t.value();
            if (value instanceof Json.Num n) return n.value();
            throw new AssertionError("no text or number '" + name + "' in " + body);
        }
    }

    final Path folder;
    WebServer server;
    private final HttpClient client = HttpClient.newHttpClient();

    Served(Path root) {
        try {
            Path circuits = Files.createDirectories(root.resolve("circuits"));
            folder = Files.createDirectories(root.resolve("cases"));
            Path circuit = Files.copy(Path.of("circuits/teaching.json"), circuits.resolve("teaching.json"));
            Path file = folder.resolve("first.jsonl");
            JournalFile.create(
                    file,
                    new Fact.Opened(CaseFile.name(file, circuit), "derates", Optional.empty(), OptionalDouble.empty()),
                    Entry.Stamp.of(OffsetDateTime.parse("2024-05-01T10:20:30+02:00"), "ada"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        server = start(0);
    }

    private WebServer start(int port) {
        return WebServer.start(new WebServer.Options(folder, port, List.of(), new Casework(Shop.BUILT_IN), "ada"));
    }

    /** Ends the server without a farewell and starts another on the same port. */
    void restart() {
        int port = server.address().getPort();
        server.close();
        server = start(port);
    }

    String token() {
        return get("/api/start").field("token");
    }

    String last(String name) {
        return get("/api/cases/" + name + "/last").field("last");
    }

    Answer get(String path, String... headers) {
        return send(HttpRequest.newBuilder(uri(path)).GET(), headers);
    }

    /** A change as the page makes it. */
    Answer post(String path, String json) {
        return post(path, json, "application/json");
    }

    Answer post(String path, String body, String type) {
        return send(
                HttpRequest.newBuilder(uri(path)).POST(HttpRequest.BodyPublishers.ofString(body)),
                "Content-Type",
                type,
                "Origin",
                origin(),
                "Sec-Fetch-Site",
                "same-origin",
                "X-Loomcase-Token",
                token());
    }

    String origin() {
        return "http://127.0.0.1:" + server.address().getPort();
    }

    /** Adds a line behind a digest. */
    Answer line(String name, String last, String fact) {
        return post(
                "/api/cases/" + name + "/lines",
                "{\"last\": \"" + last + "\", \"by\": \"ada\", \"confirm\": false, \"fact\": " + fact + "}");
    }

    URI uri(String path) {
        return URI.create(origin() + path);
    }

    Answer send(HttpRequest.Builder request, String... headers) {
        if (headers.length > 0) request.headers(headers);
        try {
            HttpResponse<String> r = client.send(request.build(), HttpResponse.BodyHandlers.ofString());
            return new Answer(r.statusCode(), r.body());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    /** First line and whole text of the answer to bytes that no client library would send. */
    List<String> raw(String request) {
        try (Socket socket = new Socket("127.0.0.1", server.address().getPort())) {
            socket.setSoTimeout(20_000);
            socket.getOutputStream().write(request.getBytes(StandardCharsets.ISO_8859_1));
            socket.getOutputStream().flush();
            BufferedReader in =
                    new BufferedReader(new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
            List<String> out = new ArrayList<>();
            for (String line = in.readLine(); line != null; line = in.readLine()) out.add(line);
            return out;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Digest digest(String file) {
        return Digest.ofFile(folder.resolve(file));
    }

    @Override
    public void close() {
        server.close();
    }
}
