package loomcase.web;

import io.undertow.server.HttpHandler;
import io.undertow.server.HttpServerExchange;
import io.undertow.util.Methods;
import java.io.IOException;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import loomcase.InputProblem;
import loomcase.journal.JournalFile;

/** From address to answer; every complaint ends here as one message. */
final class Api implements HttpHandler {
    /** Addresses have no other signs, encoded or not; so none can climb out of its folder. */
    private static final Pattern ADDRESS = Pattern.compile("/[A-Za-z0-9_-]*([/.][A-Za-z0-9_-]+)*");

    private final Assets assets = new Assets();
    private final CaseFolder folder;
    private final Reading reading;
    private final Recording recording;
    private final Advising advising;
    private final Drills drills;

    Api(CaseFolder folder, Reading reading, Recording recording, Advising advising, Drills drills) {
        this.advising = advising;
        this.drills = drills;
        this.folder = folder;
        this.reading = reading;
        this.recording = recording;
    }

    @Override
    public void handleRequest(HttpServerExchange exchange) throws IOException {
        try {
            String path = exchange.getRequestPath();
            if (!ADDRESS.matcher(path).matches()) throw Refusal.notFound("this address");
            boolean change = exchange.getRequestMethod().equals(Methods.POST);
            if (!path.startsWith("/api/")) {
                if (change) throw wrongMethod();
                assets.send(exchange);
            } else if (change) post(exchange, path.substring(5).split("/"));
            else get(exchange, path.substring(5).split("/"));
        } catch (Refusal e) {
            Reply.refuse(exchange, e);
        } catch (JournalFile.Overtaken e) {
            Reply.refuse(
                    exchange,
                    new Refusal(
                            Refusal.CONFLICT,
                            "Not recorded: the case has new lines, from another page or person. They are shown now; look at"
                                    + " them, then record again. What you typed is kept."));
        } catch (InputProblem e) {
            Reply.refuse(exchange, new Refusal(Refusal.BAD_REQUEST, folder.shown(e.getMessage())));
        } catch (IOException e) {
            throw e; // the browser is gone
        } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
            Reply.refuse(
                    exchange,
                    new Refusal(
                            500, "internal error: " + e.getClass().getSimpleName() + "; please report what you did"));
        }
    }

    private static Refusal wrongMethod() {
        return new Refusal(Refusal.METHOD_NOT_ALLOWED, "this address is not answered by this method");
    }

    private void get(HttpServerExchange exchange, String[] path) {
        if (is(path, "start")) reading.start(exchange);
        else if (is(path, "cases")) reading.cases(exchange);
        else if (is(path, "cases", "*")) reading.whole(exchange, path[1]);
        else if (is(path, "cases", "*", "last")) reading.last(exchange, path[1]);
        else if (is(path, "cases", "*", "line")) reading.line(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "answer")) reading.answer(exchange, path[1]);
        else if (is(path, "cases", "*", "loom")) reading.loom(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "place")) reading.place(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "code")) reading.code(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "verdict")) advising.verdict(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "job")) advising.job(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "proof")) advising.proof(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "claim")) advising.claim(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "fit")) advising.fit(exchange, path[1], new Query(exchange));
        else if (is(path, "drills")) drills.all(exchange);
        else if (is(path, "class")) drills.overview(exchange);
        else if (is(path, "runs", "*")) drills.status(exchange, path[1]);
        else if (is(path, "runs", "*", "debrief")) drills.debrief(exchange, path[1]);
        else if (recording.has(path) || is(path, "drills", "*", "start") || is(path, "runs", "*", "do"))
            throw wrongMethod();
        else throw Refusal.notFound("this address");
    }

    private void post(HttpServerExchange exchange, String[] path) throws IOException {
        if (is(path, "cases")) recording.open(exchange);
        else if (is(path, "cases", "*", "lines")) recording.line(exchange, path[1]);
        else if (is(path, "cases", "*", "codes")) recording.codes(exchange, path[1]);
        else if (is(path, "cases", "*", "log")) recording.log(exchange, path[1], new Query(exchange));
        else if (is(path, "cases", "*", "photo")) recording.photo(exchange, path[1], new Query(exchange));
        else if (is(path, "drills")) drills.plant(exchange);
        else if (is(path, "drills", "*", "start")) drills.start(exchange, path[1]);
        else if (is(path, "runs", "*", "do")) drills.act(exchange, path[1]);
        else throw is(path, "start") || is(path, "cases", "*") ? wrongMethod() : Refusal.notFound("this address");
    }

    /** Whether a path has these segments; a star stands for any one. */
    static boolean is(String[] path, String... pattern) {
        if (path.length != pattern.length) return false;
        for (int i = 0; i < path.length; i++) if (!pattern[i].equals("*") && !pattern[i].equals(path[i])) return false;
        return true;
    }

    /** What stands behind the question mark. */
    static final class Query {
        private final Map<String, Deque<String>> values;

        Query(HttpServerExchange exchange) {
            this.values = exchange.getQueryParameters();
        }

        Optional<String> maybe(String name) {
            return Optional.ofNullable(values.get(name)).map(Deque::peekFirst).filter(v -> !v.isBlank());
        }

        String text(String name) {
            return maybe(name).orElseThrow(() -> new Refusal(Refusal.BAD_REQUEST, name + ": is missing"));
        }

        int whole(String name, int most) {
            String text = text(name);
            if (!text.matches("\\d{1,6}") || Integer.parseInt(text) > most)
                throw new Refusal(Refusal.BAD_REQUEST, name + ": '" + text + "' is not a number up to " + most);
            return Integer.parseInt(text);
        }

        int whole(String name, int most, int otherwise) {
            return maybe(name).isPresent() ? whole(name, most) : otherwise;
        }
    }

    /** Operating points of a comma-separated list, none for an empty one. */
    static List<String> list(String text) {
        return text.isBlank() ? List.of() : List.of(text.strip().split("\\s*,\\s*"));
    }
}
