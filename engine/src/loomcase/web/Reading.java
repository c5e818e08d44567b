package loomcase.web;

import io.undertow.server.HttpServerExchange;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.casework.Answer;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.draw.HarnessSvg;
import loomcase.draw.Suspicion;
import loomcase.inspect.CodeCircuit;
import loomcase.inspect.Face;
import loomcase.inspect.Volts;
import loomcase.j1939.Code;
import loomcase.journal.Fact;
import loomcase.json.CaseJson;
import loomcase.json.ClosingJson;
import loomcase.json.FaceJson;
import loomcase.json.JsonText;
import loomcase.json.NextJson;
import loomcase.json.RankJson;
import loomcase.model.Finding;
import loomcase.model.OperatingPoint;
import loomcase.model.PlaceId;

/** Answers to requests that change nothing. */
final class Reading {
    private static final int MOST_TESTS = 8;
    private static final int MOST_SUSPECTS = 999;
    private static final int MOST_LINES = 999_999;

    private final CaseFolder folder;
    private final Casework casework;
    private final Answers answers;
    private final JsonText start;

    /**
     * @param token token of this start
     * @param user name proposed for who records
     */
    Reading(CaseFolder folder, Casework casework, Answers answers, String token, String user) {
        this.folder = folder;
        this.casework = casework;
        this.answers = answers;
        this.start = json -> {
            json.writeStartObject();
            json.writeStringField("token", token);
            json.writeStringField("user", user);
            json.writeArrayFieldStart("findings");
            for (Finding f : Finding.values()) json.writeString(f.word());
            json.writeEndArray();
            json.writeArrayFieldStart("circuits");
            for (Map.Entry<String, java.nio.file.Path> c : folder.circuits().entrySet()) circuit(json, c);
            json.writeEndArray();
            json.writeEndObject();
        };
    }

    private void circuit(com.fasterxml.jackson.core.JsonGenerator json, Map.Entry<String, java.nio.file.Path> file)
            throws java.io.IOException {
        loomcase.model.Circuit circuit;
        try {
            circuit = casework.circuit(file.getValue()).circuit();
        } catch (InputProblem e) {
            return; // a JSON file that is no circuit
        }
        json.writeStartObject();
        json.writeStringField("file", file.getKey());
        json.writeStringField("title", circuit.title());
        json.writeArrayFieldStart("operatingPoints");
        for (OperatingPoint o : circuit.operatingPoints().values()) {
            json.writeStartObject();
            json.writeStringField("id", o.id());
            json.writeStringField("label", o.label());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    void start(HttpServerExchange exchange) {
        Reply.json(exchange, start);
    }

    void cases(HttpServerExchange exchange) {
        Reply.json(exchange, json -> {
            json.writeStartArray();
            for (String name : folder.names()) summary(name).write(json);
            json.writeEndArray();
        });
    }

    /** A case that cannot be read stays in the list with what is wrong. */
    private JsonText summary(String name) {
        try {
            return CaseJson.summary(name, folder.open(name));
        } catch (InputProblem e) {
            return json -> {
                json.writeStartObject();
                json.writeStringField("name", name);
                json.writeStringField("problem", folder.shown(e.getMessage()));
                json.writeEndObject();
            };
        }
    }

    void whole(HttpServerExchange exchange, String name) {
        Reply.json(exchange, CaseJson.of(name, folder.open(name)));
    }

    /** Digest of the last line, for a page that wants to know whether there is news. */
    void last(HttpServerExchange exchange, String name) {
        OpenCase open = folder.open(name);
        Reply.json(exchange, json -> {
            json.writeStartObject();
            json.writeStringField("last", open.journal().last().hex());
            json.writeEndObject();
        });
    }

    /** What holds of line {@code n}, as a case file holds it, for a form that corrects it or says it again. */
    void line(HttpServerExchange exchange, String name, Api.Query query) {
        int n = query.whole("n", MOST_LINES);
        Fact fact = folder.open(name).journal().standing().stream()
                .filter(s -> s.n() == n)
                .findFirst()
                .orElseThrow(() -> Refusal.notFound("line " + n))
                .fact();
        Reply.json(exchange, ClosingJson.fact(fact));
    }

    /** Suspects and tests, or how far they are. */
    void answer(HttpServerExchange exchange, String name) {
        OpenCase open = folder.open(name);
        Optional<Answer> answer = answers.within(open, Reply.PATIENCE_MILLIS);
        if (answer.isEmpty()) Reply.underWay(exchange, OptionalDouble.of(answers.share(open)));
        else
            Reply.json(exchange, json -> {
                json.writeStartObject();
                json.writeStringField("last", open.journal().last().hex());
                json.writeFieldName("rank");
                RankJson.of(answer.get()).write(json);
                json.writeFieldName("tests");
                NextJson.of(answer.get(), MOST_TESTS).write(json);
                json.writeEndObject();
            });
    }

    /** The drawing, with the answer laid over it unless that is not wanted or not there yet. */
    void loom(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        int suspect = query.whole("suspect", MOST_SUSPECTS, 1);
        Suspicion over = query.maybe("bare").isPresent() || !open.hasCodes()
                ? Suspicion.none()
                : ready(open).suspicion(suspect);
        Reply.text(
                exchange,
                "image/svg+xml",
                HarnessSvg.live(open.circuit(), open.bench().layout(), over));
    }

    private Answer ready(OpenCase open) {
        Answer answer = open.answer();
        answer.next();
        return answer;
    }

    void place(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        Answer answer = ready(open);
        PlaceId place = place(query.text("place"));
        Volts.Moment moment = moment(answer, query).orElseGet(() -> {
            OperatingPoint first = answer.circuit()
                    .operatingPoints()
                    .get(answer.intake().evidence().operatingPoints().get(0));
            return new Volts.Moment(first.id(), first.phases().get(0).id());
        });
        Volts volts = new Volts(open, answer, moment, query.whole("suspect", MOST_SUSPECTS, 1));
        Reply.json(exchange, FaceJson.of(Face.of(open, answer, place, volts), answer));
    }

    private static PlaceId place(String text) {
        String[] words = text.split("[ :]", 2);
        Optional<PlaceId.Kind> kind = Arrays.stream(PlaceId.Kind.values())
                .filter(k -> k.word().equals(words[0]))
                .findFirst();
        if (kind.isEmpty() || words.length < 2 || words[1].isBlank())
            throw new Refusal(
                    Refusal.BAD_REQUEST, "place: '" + text + "' is not a kind and an id, such as 'connector C1'");
        return new PlaceId(kind.get(), words[1]);
    }

    private static Optional<Volts.Moment> moment(Answer answer, Api.Query query) {
        Optional<String> at = query.maybe("at");
        if (at.isEmpty()) return Optional.empty();
        OperatingPoint point = answer.circuit().operatingPoints().get(at.get());
        if (point == null)
            throw new Refusal(
                    Refusal.BAD_REQUEST,
                    "at: '" + at.get() + "' is not one of "
                            + answer.circuit().operatingPoints().keySet());
        String phase = query.maybe("phase").orElse(point.phases().get(0).id());
        if (!point.has(phase))
            throw new Refusal(Refusal.BAD_REQUEST, "phase: '" + phase + "' is not one of " + at.get());
        return Optional.of(new Volts.Moment(point.id(), phase));
    }

    void code(HttpServerExchange exchange, String name, Api.Query query) {
        OpenCase open = folder.open(name);
        Answer answer = ready(open);
        Code code = new Code(query.whole("spn", Code.MAX_SPN), query.whole("fmi", Code.MAX_FMI));
        List<Volts.Moment> moments = CodeCircuit.moments(answer, code);
        Volts.Moment moment = moment(answer, query).orElse(moments.get(0));
        Reply.json(
                exchange,
                FaceJson.of(CodeCircuit.of(open, answer, code, moment, query.whole("suspect", MOST_SUSPECTS, 1))));
    }
}
