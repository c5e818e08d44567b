package loomcase.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import loomcase.Schemas;
import loomcase.casework.CaseCheck;
import loomcase.casework.Casework;
import loomcase.casework.Shop;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.json.RankJson;
import loomcase.model.read.Json;
import loomcase.web.Served.Answer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Cases read and added to over real HTTP. */
class ApiTest {
    @TempDir
    private Path root;

    private Served served;

    @BeforeEach
    void start() {
        served = new Served(root);
    }

    @AfterEach
    void soundAtTheEnd() {
        served.close();
        for (String name : List.of("first"))
            assertEquals(
                    List.of(),
                    CaseCheck.of(served.folder.resolve(name + ".jsonl"), java.util.Optional.empty())
                            .problems());
    }

    private Answer codes(String active) {
        return served.post(
                "/api/cases/first/codes",
                "{\"last\": \"" + served.last("first") + "\", \"by\": \"ada\", \"active\": \"" + active
                        + "\", \"at\": [\"key-on\", \"idle-warm\"]}");
    }

    private Answer ranked(String name) throws InterruptedException {
        Answer answer = served.get("/api/cases/" + name + "/answer");
        for (int i = 0; answer.status() == 202 && i < 200; i++) {
            Thread.sleep(100);
            answer = served.get("/api/cases/" + name + "/answer");
        }
        assertEquals(200, answer.status(), answer.body());
        return answer;
    }

    @Test
    void aCaseIsOpenedCodesReadAndRankedAsOnTheCommandLine() throws Exception {
        Answer opened = served.post(
                "/api/cases",
                "{\"name\": \"bay-2\", \"circuit\": \"teaching.json\", \"complaint\": \"no boost\", \"by\": \"ada\"}");
        assertEquals(200, opened.status(), opened.body());
        Answer codes = served.post(
                "/api/cases/bay-2/codes",
                "{\"last\": \"" + opened.field("last") + "\", \"by\": \"ada\", \"active\": \"110/3, 100/4x2\"}");
        assertEquals(200, codes.status(), codes.body());
        assertTrue(codes.body().contains("taken as looked at"), codes.body());
        Json.Obj answer =
                (Json.Obj) Json.ofLine(Path.of("answer"), 1, ranked("bay-2").body());
        byte[] direct = RankJson.of(new Casework(Shop.BUILT_IN)
                        .open(served.folder.resolve("bay-2.jsonl"))
                        .answer())
                .bytes();
        assertEquals(
                Json.ofLine(Path.of("answer"), 1, new String(direct, java.nio.charset.StandardCharsets.UTF_8)),
                answer.fields().get("rank"));
        assertEquals(
                List.of(),
                Schemas.errors(
                        Schemas.of("rank.schema.json"), new String(direct, java.nio.charset.StandardCharsets.UTF_8)));
    }

    @Test
    void everyKindOfLineIsRecordedInTheFormOfTheCaseFile() {
        String setup = "\"setup\": {\"operatingPoint\": \"key-on\"}";
        for (String fact : List.of(
                "{\"kind\": \"reading\", \"test\": \"volts\", \"a\": \"C1/1\", \"b\": \"chassis\", \"value\": 4.980, \"unit\": \"V\", "
                        + setup + "}",
                "{\"kind\": \"reading\", \"test\": \"ohms\", \"a\": \"J1/6\", \"b\": \"C1/1\", \"value\": \"open\", \"setup\": {\"operatingPoint\": \"key-off\", \"unplugged\": [\"J1\", \"C1\"]}}",
                "{\"kind\": \"seen\", \"place\": {\"kind\": \"connector\", \"id\": \"C1\"}, \"finding\": \"green-copper\"}",
                "{\"kind\": \"moved\", \"action\": \"wiggle\", \"place\": {\"kind\": \"branch\", \"id\": \"B1\"}, \"response\": false, "
                        + setup + "}",
                "{\"kind\": \"watched\", \"method\": \"unplug\", \"setup\": {\"operatingPoint\": \"key-on\", \"unplugged\": [\"C1\"]}, \"active\": []}",
                "{\"kind\": \"swapped\", \"part\": {\"kind\": \"device\", \"id\": \"OPS\"}, \"with\": {\"kind\": \"device\", \"id\": \"MAP\"}, \"codes\": \"stayed\"}",
                "{\"kind\": \"gauged\", \"part\": {\"kind\": \"device\", \"id\": \"OPS\"}, \"condition\": \"low-oil\"}",
                "{\"kind\": \"opened-access\", \"step\": \"cover\"}",
                "{\"kind\": \"closed-access\", \"step\": \"cover\"}",
                "{\"kind\": \"work\", \"what\": \"reseated\", \"place\": {\"kind\": \"connector\", \"id\": \"C1\"}}",
                "{\"kind\": \"refused\", \"test\": \"look connector C1\", \"reason\": \"seized\"}",
                "{\"kind\": \"note\", \"text\": \"smells of diesel\"}",
                "{\"kind\": \"correction\", \"corrects\": 2, \"replacement\": {\"kind\": \"note\", \"text\": \"wrong pin\"}}")) {
            Answer answer = served.line("first", served.last("first"), fact);
            assertEquals(200, answer.status(), fact + ": " + answer.body());
        }
        String text = served.get("/api/cases/first").body();
        assertTrue(text.contains("4.980 V"), "digits as typed: " + text);
        assertTrue(text.contains("\"correctedBy\":14"), text);
    }

    @Test
    void anOpeningIsCorrectedButNotOntoAnotherCircuit() {
        Served.Answer opening = served.get("/api/cases/first/line?n=1");
        String other = opening.body().replaceFirst("\"file\":\"[^\"]*\"", "\"file\":\"../elsewhere.json\"");
        assertTrue(!other.equals(opening.body()), other);
        String correction = "{\"kind\": \"correction\", \"corrects\": 1, \"replacement\": ";
        assertEquals(
                400,
                served.line("first", served.last("first"), correction + other + "}")
                        .status());
        String said = opening.body().replace("\"derates\"", "\"derates uphill\"");
        assertEquals(
                200,
                served.line("first", served.last("first"), correction + said + "}")
                        .status());
        assertEquals(said, served.get("/api/cases/first/line?n=1").body());
        assertEquals(404, served.get("/api/cases/first/line?n=9").status());
    }

    @Test
    void aFactThatCannotBeIsRefusedAndAnOddOneWaitsToBeConfirmed() {
        String last = served.last("first");
        Answer wrong = served.line("first", last, "{\"kind\": \"opened-access\", \"step\": \"covr\"}");
        assertEquals(400, wrong.status());
        assertEquals(
                "not recorded: access step 'covr' is not in circuit teaching; did you mean 'cover'?",
                wrong.field("message"));
        String odd =
                "{\"kind\": \"reading\", \"test\": \"volts\", \"a\": \"C1/1\", \"b\": \"chassis\", \"value\": 17.2,"
                        + " \"unit\": \"V\", \"setup\": {\"operatingPoint\": \"key-on\"}}";
        Answer waits = served.line("first", last, odd);
        assertEquals(422, waits.status(), waits.body());
        assertEquals(last, served.last("first"));
        Answer confirmed = served.post(
                "/api/cases/first/lines",
                "{\"last\": \"" + last + "\", \"by\": \"ada\", \"confirm\": true, \"fact\": " + odd + "}");
        assertEquals(200, confirmed.status(), confirmed.body());
        assertTrue(served.get("/api/cases/first").body().contains("\"confirmed\":"));
    }

    @Test
    void aLineBehindAnOldDigestIsRefusedAndNothingIsWritten() {
        String old = served.last("first");
        assertEquals(
                200,
                served.line("first", old, "{\"kind\": \"note\", \"text\": \"theirs\"}")
                        .status());
        Answer late = served.line("first", old, "{\"kind\": \"note\", \"text\": \"mine\"}");
        assertEquals(409, late.status());
        assertTrue(late.field("message").startsWith("Not recorded: the case has new lines"), late.body());
        assertFalse(served.get("/api/cases/first").body().contains("mine"));
        assertEquals(409, codesBehind(old).status());
        assertEquals(
                409,
                served.post("/api/cases/first/log?by=ada&last=" + old, "x", "text/plain")
                        .status());
    }

    private Answer codesBehind(String last) {
        return served.post(
                "/api/cases/first/codes", "{\"last\": \"" + last + "\", \"by\": \"ada\", \"active\": \"110/3\"}");
    }

    @Test
    void ofManyPagesAtOnceExactlyOneIsFirst() throws Exception {
        String last = served.last("first");
        int pages = 12;
        ExecutorService pool = Executors.newFixedThreadPool(pages);
        try {
            List<Callable<Integer>> all = new java.util.ArrayList<>();
            for (int i = 0; i < pages; i++) {
                String fact = "{\"kind\": \"note\", \"text\": \"page " + i + "\"}";
                all.add(() -> served.line("first", last, fact).status());
            }
            int made = 0;
            for (Future<Integer> f : pool.invokeAll(all)) {
                int status = f.get();
                assertTrue(status == 200 || status == 409 || status == 400, "status " + status);
                if (status == 200) made++;
            }
            assertEquals(1, made);
        } finally {
            pool.shutdownNow();
        }
        assertEquals(
                2,
                JournalFile.read(served.folder.resolve("first.jsonl")).entries().size());
    }

    @Test
    void aServerThatWasKilledShowsTheSameAfterwards() throws Exception {
        codes("110/3, 100/4");
        String before = served.get("/api/cases/first").body();
        String answer = ranked("first").body();
        String token = served.token();
        served.restart();
        assertEquals(before, served.get("/api/cases/first").body());
        assertEquals(answer, ranked("first").body());
        assertFalse(token.equals(served.token()));
    }

    @Test
    void aLogIsKeptBesideTheCaseWithItsDigest() throws IOException {
        Path demo = Path.of("demo-cases/coolant-signal-open.log");
        Answer answer = served.post(
                "/api/cases/first/log?by=ada&at=key-on&last=" + served.last("first"),
                Files.readString(demo),
                "text/plain; charset=utf-8");
        assertEquals(200, answer.status(), answer.body());
        assertEquals(-1, Files.mismatch(demo, served.folder.resolve("first-1.log")));
        Answer none = served.post(
                "/api/cases/first/log?by=ada&last=" + served.last("first"), "no frames here\n", "text/plain");
        assertEquals(400, none.status(), none.body());
        assertFalse(Files.exists(served.folder.resolve("first-2.log")));
    }

    /** Where the engine had been looked at is corrected; that the codes come from a log stays said. With other codes it is gone. */
    @Test
    void codesOfALogStayThoseOfTheLogWhenOnlyTheirConditionsAreCorrected() throws IOException {
        Path demo = Path.of("demo-cases/coolant-signal-open.log");
        served.post(
                "/api/cases/first/log?by=ada&at=key-on&last=" + served.last("first"),
                Files.readString(demo),
                "text/plain");
        Fact.Codes read = (Fact.Codes) standing(2);
        String active = read.codes().stream().map(Object::toString).collect(java.util.stream.Collectors.joining(", "));
        assertEquals(200, corrected(active).status());
        Fact.Codes after = (Fact.Codes) standing(2);
        assertEquals(List.of("idle-warm"), after.operatingPoints());
        assertEquals(read.codes(), after.codes());
        assertEquals(read.log(), after.log());
        assertEquals(read.lamps(), after.lamps());
        assertEquals(200, corrected("100/4").status());
        assertEquals(Optional.empty(), ((Fact.Codes) standing(2)).log());
    }

    private Answer corrected(String active) {
        return served.post(
                "/api/cases/first/codes",
                "{\"last\": \"" + served.last("first") + "\", \"by\": \"ada\", \"active\": \"" + active
                        + "\", \"stored\": \"\", \"at\": [\"idle-warm\"], \"corrects\": 2}");
    }

    private Fact standing(int line) {
        return JournalFile.read(served.folder.resolve("first.jsonl")).standing().stream()
                .filter(s -> s.n() == line)
                .findFirst()
                .orElseThrow()
                .fact();
    }

    @Test
    void aPlaceAndTheCircuitOfACodeShowVoltsHealthyAndSuspected() throws Exception {
        codes("110/3");
        ranked("first");
        served.line(
                "first",
                served.last("first"),
                "{\"kind\": \"reading\", \"test\": \"volts\", \"a\": \"C1/1\", \"b\": \"chassis\", \"value\": 4.98, \"unit\":"
                        + " \"V\", \"setup\": {\"operatingPoint\": \"key-on\"}}");
        String face = served.get("/api/cases/first/place?place=connector%20C1&at=key-on")
                .body();
        assertTrue(face.contains("\"measured\":\"4.98 V (line 3)\""), face);
        assertTrue(face.contains("\"colour\":\"yellow\""), face);
        String chain = served.get("/api/cases/first/code?spn=110&fmi=3").body();
        for (String stop : List.of("J1/6", "W11", "C1/1", "\"ECT\"", "W10", "S2", "W7", "J1/4", "G1"))
            assertTrue(chain.contains(stop), stop + " in " + chain);
        assertEquals(
                400, served.get("/api/cases/first/place?place=connector%20C99").status());
        assertEquals(400, served.get("/api/cases/first/place?place=engine%20X").status());
        assertEquals(400, served.get("/api/cases/first/code?spn=9&fmi=3").status());
        assertEquals(
                400,
                served.get("/api/cases/first/place?place=connector%20C1&at=noon")
                        .status());
    }

    @Test
    void aCaseThatCannotBeReadStaysInTheListWithWhatIsWrong() throws IOException {
        Files.writeString(served.folder.resolve("torn.jsonl"), "{\"n\": 1}\n");
        String list = served.get("/api/cases").body();
        assertTrue(list.contains("\"name\":\"torn\",\"problem\":\"torn.jsonl: "), list);
        assertTrue(list.contains("\"name\":\"first\",\"complaint\""), list);
        assertFalse(list.contains(root.toString()), list);
    }
}
