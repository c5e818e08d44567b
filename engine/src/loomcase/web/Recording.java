package loomcase.web;

import io.undertow.server.HttpServerExchange;
import io.undertow.util.Headers;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import loomcase.InputProblem;
import loomcase.casework.CaseFile;
import loomcase.casework.OpenCase;
import loomcase.drill.RunFile;
import loomcase.intake.CodesTaken;
import loomcase.j1939.CodeList;
import loomcase.j1939.log.LogReader;
import loomcase.j1939.log.ReadOptions;
import loomcase.journal.Admission;
import loomcase.journal.ClaimFact;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.EntryCheck;
import loomcase.journal.Fact;
import loomcase.journal.FactReader;
import loomcase.journal.JournalFile;
import loomcase.journal.Spot;
import loomcase.journal.Standing;
import loomcase.model.Circuit;
import loomcase.model.read.Cursor;

/** Requests that add to a case. Each names the last line that its page knew. */
final class Recording {
    /** Status for an odd reading that waits to be confirmed (RFC 9110, 15.5.21). */
    private static final int UNPROCESSABLE = 422;

    private static final int MOST_LINES = 999_999;

    private final CaseFolder folder;

    Recording(CaseFolder folder) {
        this.folder = folder;
    }

    /** Whether an address is one of these, so that the wrong method there is named as such. */
    boolean has(String[] path) {
        return Api.is(path, "cases", "*", "lines")
                || Api.is(path, "cases", "*", "codes")
                || Api.is(path, "cases", "*", "log")
                || Api.is(path, "cases", "*", "photo");
    }

    /**
     * Opens a case: {@code name, circuit, complaint, by}, and {@code unit, hours, serial, inService, distance} where known;
     * with {@code codes} ({@code active, stored, at}) these are its first line, and when they cannot be taken nothing is
     * opened.
     */
    void open(HttpServerExchange exchange) throws IOException {
        Cursor c = Body.json(exchange);
        String name = c.id("name");
        Path file = folder.newFile(name);
        String wanted = c.id("circuit");
        Path circuit = folder.circuits().get(wanted);
        if (circuit == null) throw c.problem("circuit", "'" + wanted + "' is not one of those offered");
        String complaint = c.id("complaint");
        FactReader.OfMachine machine = checked(() -> FactReader.machine(c));
        Entry.Stamp stamp = stamp(c.id("by"));
        Optional<CodesTaken> codes =
                c.has("codes") ? Optional.of(typed(folder.circuit(circuit), c.object("codes"))) : Optional.empty();
        c.done();
        Fact.Opened opened = checked(() -> new Fact.Opened(
                CaseFile.name(file, circuit), complaint, machine.unit(), machine.hours(), machine.more()));
        Entry entry = JournalFile.create(file, opened, stamp);
        if (codes.isEmpty()) added(exchange, entry, List.of());
        else
            add(
                    exchange,
                    folder.open(name),
                    entry.digest(),
                    stamp,
                    false,
                    codes.get().fact(),
                    codes.get().notes());
    }

    /** Typed codes that the circuit can have, checked before anything is written. */
    private static CodesTaken typed(Circuit circuit, Cursor c) {
        CodesTaken taken = typedFields(circuit, c);
        c.done();
        if (new EntryCheck(circuit).admit(taken.fact()) instanceof Admission.Refused r)
            throw new InputProblem("codes: " + r.reason());
        return taken;
    }

    private static CodesTaken typedFields(Circuit circuit, Cursor c) {
        return CodesTaken.typed(
                circuit,
                CodeList.parse(c.text("active", "")),
                CodeList.parse(c.text("stored", "")),
                c.texts("at"),
                Optional.empty());
    }

    /** Adds a line: {@code last, by, confirm, fact} with the fact in the form of a case's line. */
    void line(HttpServerExchange exchange, String name) throws IOException {
        OpenCase open = folder.open(name);
        Cursor c = Body.json(exchange);
        Digest last = digest(c.text("last"));
        Entry.Stamp stamp = stamp(c.id("by"));
        boolean confirmed = c.flag("confirm", false);
        Cursor inner = c.object("fact");
        Fact fact = checked(() -> FactReader.fact(inner));
        inner.done();
        c.done();
        if (fact instanceof Fact.Opened) throw c.problem("fact", "a case is opened once");
        if (fact instanceof Fact.Correction corrected
                && corrected.replacement() instanceof Fact.Opened again
                && !again.circuit().equals(open.journal().opened().circuit()))
            throw c.problem("fact", "the circuit of a case stays; another one is named on the command line");
        add(exchange, open, last, stamp, confirmed, fact, List.of());
    }

    /** Adds typed codes: {@code last, by, active, stored, at}, and {@code corrects} when they take the place of a line. */
    void codes(HttpServerExchange exchange, String name) throws IOException {
        OpenCase open = folder.open(name);
        Cursor c = Body.json(exchange);
        Digest last = digest(c.text("last"));
        Entry.Stamp stamp = stamp(c.id("by"));
        CodesTaken taken = typedFields(open.circuit(), c);
        Fact fact = taken.fact();
        if (c.has("corrects")) {
            int line = c.whole("corrects", 1, MOST_LINES);
            fact = new Fact.Correction(line, keepingLog(open, line, taken.fact()));
        }
        c.done();
        add(exchange, open, last, stamp, false, fact, taken.notes());
    }

    /** Codes that are the same as those of the line corrected still come from where they came from; others were typed. */
    private static Fact.Codes keepingLog(OpenCase open, int line, Fact.Codes typed) {
        return open.journal().standing().stream()
                .filter(s -> s.n() == line)
                .map(Standing::fact)
                .filter(Fact.Codes.class::isInstance)
                .map(Fact.Codes.class::cast)
                .filter(old -> Set.copyOf(old.codes()).equals(Set.copyOf(typed.codes())))
                .map(old -> new Fact.Codes(old.codes(), typed.operatingPoints(), old.log(), old.lamps()))
                .findFirst()
                .orElse(typed);
    }

    /** Saves a CAN log beside the case and adds its codes: the log as body, {@code last, by, at} in the address. */
    void log(HttpServerExchange exchange, String name, Api.Query query) throws IOException {
        OpenCase open = folder.open(name);
        Digest last = digest(query.text("last"));
        Entry.Stamp stamp = stamp(query.text("by"));
        if (!last.equals(open.journal().last()))
            throw new JournalFile.Overtaken(
                    open.file(), open.journal().entries().size());
        Path log = folder.newBeside(name, ".log");
        Body.save(exchange, log, "text/plain", Body.MOST_LOG_BYTES);
        boolean kept = false;
        try {
            CodesTaken taken = CodesTaken.fromLog(
                    open.circuit(),
                    LogReader.read(log, (done, total) -> {}, ReadOptions.NONE),
                    Api.list(query.maybe("at").orElse("")),
                    new Fact.LogFile(CaseFile.fromFolderOf(open.file(), log), Digest.ofFile(log)));
            kept = add(exchange, open, last, stamp, false, taken.fact(), taken.notes());
        } finally {
            if (!kept) Files.deleteIfExists(log);
        }
    }

    /** Saves a picture beside the case: the picture as body, {@code last, by, view, shows, place} in the address. */
    void photo(HttpServerExchange exchange, String name, Api.Query query) throws IOException {
        OpenCase open = folder.open(name);
        Digest last = digest(query.text("last"));
        Entry.Stamp stamp = stamp(query.text("by"));
        Optional<Spot> place = query.maybe("place").map(open.check().names()::spot);
        ClaimFact.View view = view(query.text("view"));
        if (!last.equals(open.journal().last()))
            throw new JournalFile.Overtaken(
                    open.file(), open.journal().entries().size());
        boolean png = "image/png".equals(exchange.getRequestHeaders().getFirst(Headers.CONTENT_TYPE));
        Path file = folder.newBeside(name, png ? ".png" : ".jpg");
        Body.save(exchange, file, png ? "image/png" : "image/jpeg", Body.MOST_PHOTO_BYTES);
        boolean kept = false;
        try {
            Fact fact = checked(() -> new ClaimFact.Photo(
                    CaseFile.fromFolderOf(open.file(), file), Digest.ofFile(file), view, place, query.text("shows")));
            kept = add(exchange, open, last, stamp, false, fact, List.of());
        } finally {
            if (!kept) Files.deleteIfExists(file);
        }
    }

    private static ClaimFact.View view(String word) {
        for (ClaimFact.View v : ClaimFact.View.values())
            if (v.name().toLowerCase(Locale.ROOT).replace('_', '-').equals(word)) return v;
        throw new Refusal(
                Refusal.BAD_REQUEST, "view: '" + word + "' is not one of overview, close-up, cavities, repair, tag");
    }

    private boolean add(
            HttpServerExchange exchange,
            OpenCase open,
            Digest last,
            Entry.Stamp stamp,
            boolean confirmed,
            Fact fact,
            List<String> notes) {
        if (RunFile.isRun(open.journal()))
            throw new InputProblem("this is the run of a drill; what is done in it is asked for under Drill");
        OpenCase.Recorded recorded = open.record(fact, stamp, confirmed, Optional.of(last));
        if (recorded instanceof OpenCase.NeedsConfirmation odd) {
            Reply.json(exchange, UNPROCESSABLE, json -> {
                json.writeStartObject();
                json.writeStringField("message", odd.reason());
                json.writeBooleanField("confirm", true);
                json.writeEndObject();
            });
            return false;
        }
        JournalFile.Added added = ((OpenCase.Added) recorded).added();
        List<String> all = new java.util.ArrayList<>(notes);
        added.notices().forEach(n -> all.add(folder.shown(n)));
        added(exchange, added.entry(), all);
        return true;
    }

    private static void added(HttpServerExchange exchange, Entry entry, List<String> notes) {
        Reply.json(exchange, json -> {
            json.writeStartObject();
            json.writeNumberField("n", entry.n());
            json.writeStringField("words", entry.fact().toString());
            json.writeStringField("last", entry.digest().hex());
            json.writeArrayFieldStart("notes");
            for (String note : notes) json.writeString(note);
            json.writeEndArray();
            json.writeEndObject();
        });
    }

    static Digest digest(String text) {
        return checked(() -> new Digest(text));
    }

    private static Entry.Stamp stamp(String by) {
        return checked(() -> Entry.Stamp.of(OffsetDateTime.now(), by));
    }

    /** A value's own complaint as one of the user's. */
    static <T> T checked(java.util.function.Supplier<T> make) {
        try {
            return make.get();
        } catch (IllegalArgumentException e) {
            throw new InputProblem(e.getMessage(), e);
        }
    }
}
