package loomcase.web;

import com.fasterxml.jackson.core.JsonGenerator;
import io.undertow.server.HttpServerExchange;
import java.io.IOException;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import loomcase.InputProblem;
import loomcase.casework.CaseFile;
import loomcase.casework.Casework;
import loomcase.drill.ClassSummary;
import loomcase.drill.Debrief;
import loomcase.drill.Difficulty;
import loomcase.drill.DrillFile;
import loomcase.drill.Limits;
import loomcase.drill.Mark;
import loomcase.drill.Planter;
import loomcase.drill.Request;
import loomcase.drill.Run;
import loomcase.drill.RunFile;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.FactReader;
import loomcase.journal.JournalFile;
import loomcase.json.DrillReport;
import loomcase.model.Costs;
import loomcase.model.read.Cursor;

/** Drills of the folder: planted, started, played and looked back at. */
final class Drills {
    private static final int MOST_MINUTES = 100_000;

    private final CaseFolder folder;
    private final Casework casework;
    private final Answers answers;

    Drills(CaseFolder folder, Casework casework, Answers answers) {
        this.folder = folder;
        this.casework = casework;
        this.answers = answers;
    }

    /** Drill files and runs, by name. */
    void all(HttpServerExchange exchange) {
        Reply.json(exchange, json -> {
            json.writeStartObject();
            json.writeArrayFieldStart("drills");
            for (String name : folder.names(DrillFile.ENDING)) drill(json, name);
            json.writeEndArray();
            json.writeArrayFieldStart("runs");
            for (String name : folder.names()) {
                Optional<RunFile> file = run(name);
                if (file.isPresent()) run(json, name, file.get());
            }
            json.writeEndArray();
            json.writeEndObject();
        });
    }

    private void drill(JsonGenerator json, String name) throws IOException {
        json.writeStartObject();
        json.writeStringField("name", name);
        try {
            DrillFile file = DrillFile.read(folder.file(name, DrillFile.ENDING));
            json.writeStringField("complaint", file.drill().complaint());
            json.writeStringField("circuit", file.drill().circuit().id());
            json.writeStringField("difficulty", file.drill().difficulty());
        } catch (InputProblem e) {
            json.writeStringField("problem", folder.shown(e.getMessage()));
        }
        json.writeEndObject();
    }

    /** The run of this name; empty for a case that is none, and for one that cannot be read. */
    private Optional<RunFile> run(String name) {
        try {
            if (!RunFile.isRun(JournalFile.read(folder.file(name)))) return Optional.empty();
            return Optional.of(RunFile.open(casework, folder.file(name)));
        } catch (InputProblem e) {
            return Optional.empty(); // the list of cases says what is wrong with it
        }
    }

    /** Runs that are over, side by side; of those that go on nothing is said, nor what was wrong in any. */
    void overview(HttpServerExchange exchange) {
        List<RunFile> over = folder.names().stream()
                .flatMap(n -> run(n).stream())
                .filter(r -> r.run().ending().isPresent())
                .toList();
        String key = over.stream().map(r -> r.journal().last().hex()).collect(Collectors.joining(" ", "class ", ""));
        Optional<ClassSummary> done = answers.within(key, Reply.PATIENCE_MILLIS, () -> ClassSummary.of(over, n -> {}));
        if (done.isPresent()) Reply.json(exchange, DrillReport.of(done.get()));
        else Reply.underWay(exchange, OptionalDouble.empty());
    }

    private void run(JsonGenerator json, String name, RunFile file) throws IOException {
        json.writeStartObject();
        json.writeStringField("name", name);
        json.writeStringField("student", file.journal().entries().get(0).stamp().by());
        json.writeStringField("drill", file.drill().file().getFileName().toString());
        json.writeStringField("ending", file.run().ending().map(e -> e.words()).orElse(""));
        json.writeNumberField("minutes", file.run().bill().minutes());
        json.writeEndObject();
    }

    /**
     * Plants: {@code name, circuit, difficulty, passphrase}, {@code seed} and {@code minutes} if wanted; circuit, difficulty
     * and seed settle the drill, minutes are its limit.
     */
    void plant(HttpServerExchange exchange) throws IOException {
        Cursor c = Body.json(exchange);
        String name = c.id("name");
        Path file = folder.newFile(name, DrillFile.ENDING);
        String wanted = c.id("circuit");
        Path circuit = Optional.ofNullable(folder.circuits().get(wanted))
                .orElseThrow(() -> c.problem("circuit", "'" + wanted + "' is not one of those offered"));
        Difficulty difficulty = Difficulty.of(c.text("difficulty"));
        long seed = c.has("seed") ? c.whole("seed", 0, Planter.MOST_SEED) : Planter.anySeed();
        char[] passphrase = c.id("passphrase").toCharArray();
        Limits limits = c.has("minutes") ? limits(c.whole("minutes", 1, MOST_MINUTES)) : Limits.NONE;
        c.done();
        if (java.nio.file.Files.exists(file)) throw c.problem("name", "there is a drill of this name already");
        Planter.Made made = new Planter(casework.circuit(circuit)).draw(difficulty, seed);
        DrillFile.write(
                file, made.drill(CaseFile.name(file, circuit), difficulty.word(), limits), made.truth(), passphrase);
        done(exchange, name);
    }

    private static Limits limits(int minutes) {
        return new Limits(OptionalDouble.of(minutes), Optional.empty(), Limits.USUAL_HINT_MINUTES);
    }

    /** Starts a run: {@code run, by}. */
    void start(HttpServerExchange exchange, String name) throws IOException {
        DrillFile drill = DrillFile.read(folder.file(name, DrillFile.ENDING));
        Cursor c = Body.json(exchange);
        String run = c.id("run");
        Entry.Stamp stamp = stamp(c.id("by"));
        c.done();
        RunFile.start(casework, drill, folder.newFile(run), stamp);
        done(exchange, run);
    }

    private static void done(HttpServerExchange exchange, String name) {
        Reply.json(exchange, json -> {
            json.writeStartObject();
            json.writeStringField("name", name);
            json.writeEndObject();
        });
    }

    private static Entry.Stamp stamp(String by) {
        return Recording.checked(() -> Entry.Stamp.of(OffsetDateTime.now(), by));
    }

    /** How a run stands. */
    void status(HttpServerExchange exchange, String name) {
        RunFile file = open(name);
        Reply.json(exchange, json -> status(json, file));
    }

    private RunFile open(String name) {
        return RunFile.open(casework, folder.file(name));
    }

    private static void status(JsonGenerator json, RunFile file) throws IOException {
        Costs costs = file.bench().circuit().costs();
        Run run = file.run();
        json.writeStartObject();
        json.writeStringField("last", file.journal().last().hex());
        json.writeStringField("difficulty", file.drill().drill().difficulty());
        json.writeNumberField("minutes", run.bill().minutes());
        json.writeStringField("money", run.money(costs).toPlainString());
        json.writeStringField("currency", costs.currency());
        Limits limits = file.drill().drill().limits();
        if (limits.minutes().isPresent())
            json.writeNumberField("mostMinutes", limits.minutes().getAsDouble());
        if (limits.money().isPresent())
            json.writeStringField("mostMoney", limits.money().get().toPlainString());
        json.writeNumberField("hintMinutes", limits.hintMinutes());
        json.writeNumberField("leadOhms", Request.LEAD_OHMS);
        json.writeStringField("bareProbe", Request.BARE_PROBE);
        json.writeArrayFieldStart("codes");
        for (Fact.ReadCode code : run.memory())
            json.writeString(code + " " + code.state().name().toLowerCase(java.util.Locale.ROOT));
        json.writeEndArray();
        json.writeArrayFieldStart("open");
        for (String step : run.open()) json.writeString(step);
        json.writeEndArray();
        json.writeArrayFieldStart("steps");
        for (Run.Step s : run.steps()) step(json, s);
        json.writeEndArray();
        json.writeStringField("ending", run.ending().map(e -> e.words()).orElse(""));
        json.writeEndObject();
    }

    private static void step(JsonGenerator json, Run.Step s) throws IOException {
        json.writeStartObject();
        json.writeNumberField("line", s.line());
        json.writeStringField("words", s.words());
        json.writeNumberField("minutes", s.bill().minutes());
        json.writeStringField("parts", s.bill().parts().toPlainString());
        json.writeArrayFieldStart("marks");
        for (Mark m : s.marks()) {
            json.writeStartObject();
            json.writeBooleanField("harm", m.harmful());
            json.writeStringField("words", m.words());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    /** Does one thing: {@code last, by, ask} with what belongs to it; the outcome is in the last step of the answer. */
    void act(HttpServerExchange exchange, String name) throws IOException {
        RunFile file = open(name);
        Cursor c = Body.json(exchange);
        Digest last = Recording.digest(c.text("last"));
        Entry.Stamp stamp = stamp(c.id("by"));
        Request request = request(c);
        c.done();
        if (!last.equals(file.journal().last()))
            throw new JournalFile.Overtaken(
                    file.file(), file.journal().entries().size());
        Recording.checked(() -> file.act(request, stamp));
        Reply.json(exchange, json -> status(json, file));
    }

    /** Kinds that carry a fact carry it whole; its outcome is passed over, for that is what the drill answers. */
    private static Request request(Cursor c) {
        String ask = c.text("ask");
        switch (ask) {
            case "hint":
                return new Request.Hint();
            case "give-up":
                return new Request.GiveUp();
            case "claim":
                return new Request.Claim(c.someTexts("places"));
            case "codes":
                return new Request.Read(c.texts("points"));
            case "fact":
                Cursor inner = c.object("fact");
                Fact fact = Recording.checked(() -> FactReader.fact(inner));
                inner.done();
                return ofFact(c, fact);
            default:
                throw c.problem("ask", "'" + ask + "' is not one of fact, codes, hint, claim, give-up");
        }
    }

    private static Request ofFact(Cursor c, Fact fact) {
        if (fact instanceof Fact.Reading r) return new Request.Measure(r.test(), r.a(), r.b(), r.setup(), r.meter());
        if (fact instanceof Fact.Watched w) return new Request.Watch(w.method(), w.setup());
        if (fact instanceof Fact.Moved m) return new Request.Move(m.action(), m.spot(), m.setup());
        if (fact instanceof Fact.Seen s) return new Request.Look(s.spot());
        if (fact instanceof Fact.Swapped s) return new Request.Swap(s.part(), s.with());
        if (fact instanceof Fact.Gauged g) return new Request.Gauge(g.part());
        if (fact instanceof Fact.OpenedAccess o) return new Request.Way(o.step(), true);
        if (fact instanceof Fact.ClosedAccess o) return new Request.Way(o.step(), false);
        if (fact instanceof Fact.Work w) return new Request.Work(w.deed(), w.spot());
        if (fact instanceof Fact.Note n) return new Request.Note(n.text());
        throw c.problem("fact", "kind '" + fact.kind() + "' is nothing to do in a drill");
    }

    /** What was done beside what the planner would have done. */
    void debrief(HttpServerExchange exchange, String name) {
        RunFile file = open(name);
        Reply.json(
                exchange,
                DrillReport.of(Debrief.of(file), file.bench().circuit().costs()));
    }
}
