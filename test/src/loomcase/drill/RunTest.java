package loomcase.drill;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import loomcase.casework.CaseCheck;
import loomcase.casework.CaseFile;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A student's run: what it costs, what is refused, what harm does, how it ends, and that nothing is lost. */
class RunTest {
    private static final Path CIRCUIT = Path.of("circuits/teaching.json").toAbsolutePath();
    private static final Entry.Stamp STAMP = Entry.Stamp.of(OffsetDateTime.parse("2026-11-02T09:00:00Z"), "ada");

    @TempDir
    private Path folder;

    private RunFile run;

    @BeforeEach
    void start() {
        run = started("splice.open S2", "run", Limits.NONE);
    }

    private RunFile started(String fault, String name, Limits limits) {
        Planter.Made made = new Planter(Shops.TEACHING).plant(List.of(fault), Optional.of(Showing.ALWAYS), false, 1);
        Path file = folder.resolve(name + DrillFile.ENDING);
        DrillFile.write(
                file,
                made.drill(CaseFile.name(file, CIRCUIT), "", limits),
                made.truth(),
                Shops.PASSPHRASE,
                Vault.LEAST_ITERATIONS);
        return RunFile.start(Shops.CASEWORK, DrillFile.read(file), folder.resolve(name + ".jsonl"), STAMP);
    }

    private Run.Step act(Request request) {
        return run.act(request, STAMP);
    }

    private void open(String... steps) {
        for (String s : steps) act(new Request.Way(s, true));
    }

    private static Request volts(String a, String b, String apart, boolean bare) {
        Setup setup = new Setup(
                Optional.of("key-on"),
                Optional.empty(),
                apart.isEmpty() ? List.of() : List.of(apart),
                List.of(),
                OptionalDouble.empty());
        Meter meter = new Meter(bare ? Request.BARE_PROBE : "", OptionalDouble.empty(), OptionalDouble.empty());
        return new Request.Measure(Fact.Test.VOLTS, a, b, setup, meter);
    }

    private static Request ohms(String a, String b, Optional<String> point) {
        return new Request.Measure(Fact.Test.OHMS, a, b, Setup.at(point), Meter.NOT_SAID);
    }

    private Request work(Fact.Deed deed, String place) {
        return new Request.Work(deed, Optional.of(run.workshop().check().names().spot(place)));
    }

    private void refused(String message, Request request) {
        int lines = JournalFile.read(run.file()).entries().size();
        assertEquals(
                message, assertThrows(InputProblem.class, () -> act(request)).getMessage());
        assertEquals(lines, JournalFile.read(run.file()).entries().size(), "nothing is written for a refusal");
    }

    @Test
    void accessIsOpenedByTheStudentAndPaid() {
        refused(
                "closed is fan-guard (fan guard off, 12 minutes); open it first: access open fan-guard",
                volts("C1/1", "chassis", "", false));
        assertEquals(12, act(new Request.Way("fan-guard", true)).bill().minutes());
        act(volts("C1/1", "chassis", "", false));
        assertEquals(17, run.run().bill().minutes(), "12 of access and the 5 of M08 in the list of measurements");
        assertEquals(
                new BigDecimal("34.00"),
                run.run().money(Shops.TEACHING.circuit().costs()));
        refused("access step 'fan-guard' is open already", new Request.Way("fan-guard", true));
    }

    @Test
    void namesThatAreNotThereAreRefused() {
        refused("connector C1 has no cavity '9'; it has 1, 2", volts("C1/9", "chassis", "", false));
        refused(
                "a drop is read while current flows; name an operating point",
                new Request.Measure(Fact.Test.DROP, "CB/1", "chassis", Setup.at(Optional.empty()), Meter.NOT_SAID));
        refused("a note may not start with 'drill: '; those are the drill's own", new Request.Note("drill: gave up"));
        refused(
                "C1 is no part that can be swapped; name two devices".replace("C1", "connector C1"),
                new Request.Swap(spot("C1"), spot("C2")));
        refused(
                "connector C1 reports no condition of the engine; allowed are device:ECT, device:OPS",
                new Request.Gauge(spot("C1")));
    }

    private loomcase.journal.Spot spot(String name) {
        return run.workshop().check().names().spot(name);
    }

    @Test
    void theRightRepairEndsItSolved() {
        open("cover");
        act(work(Fact.Deed.REPAIRED, "S2"));
        act(new Request.Work(Fact.Deed.CLEARED_CODES, Optional.empty()));
        Fact.Codes codes = (Fact.Codes) act(new Request.Read(List.of())).fact();
        assertEquals(List.of(), codes.codes());
        act(new Request.Claim(List.of("S2")));
        assertEquals(Optional.of(Ending.SOLVED), run.run().ending());
        refused("the run is over: " + Ending.SOLVED.words(), new Request.Hint());
    }

    @Test
    void withoutTheRepairTheCodesComeBackAndTheClaimIsOnlyFound() {
        act(new Request.Work(Fact.Deed.CLEARED_CODES, Optional.empty()));
        Fact.Codes codes = (Fact.Codes) act(new Request.Read(List.of())).fact();
        assertEquals("[102/4x1, 110/3x1]", codes.codes().toString());
        act(new Request.Claim(List.of("S2")));
        assertEquals(Optional.of(Ending.FOUND), run.run().ending());
    }

    @Test
    void aWrongClaimIsWrong() {
        act(new Request.Claim(List.of("OPS")));
        assertEquals(Optional.of(Ending.WRONG), run.run().ending());
    }

    /** Two wires that touch are parted by a new piece in either, so either names the fault. */
    @Test
    void eitherOfTwoWiresThatTouchIsTheRightPlace() {
        run = started("wire.short-neighbour B2 W11–W8", "touching", Limits.NONE);
        open("fan-guard");
        act(work(Fact.Deed.REPAIRED, "W11"));
        act(new Request.Claim(List.of("W11")));
        assertEquals(Optional.of(Ending.SOLVED), run.run().ending());
        Debrief.Step repair = Debrief.of(run).steps().get(1);
        assertEquals(Optional.empty(), repair.lost(), "work where it was wrong is not lost");
    }

    @Test
    void namingMuchIsNotFinding() {
        refused("a drill has one fault or two; named are 3 places", new Request.Claim(List.of("S1", "S2", "OPS")));
        open("cover");
        act(work(Fact.Deed.REPAIRED, "S2"));
        act(new Request.Claim(List.of("S2", "OPS")));
        assertEquals(Optional.of(Ending.WRONG), run.run().ending(), "a sound part was named beside the splice");
    }

    @Test
    void whatTheStudentBrokeMayBeNamedToo() {
        open("fan-guard", "cover");
        act(volts("C1/1", "chassis", "C1", true));
        act(work(Fact.Deed.REPAIRED, "C1/1"));
        act(work(Fact.Deed.REPAIRED, "S2"));
        act(new Request.Claim(List.of("S2", "C1/1")));
        assertEquals(Optional.of(Ending.SOLVED), run.run().ending());
    }

    @Test
    void everyHintOfAnEngineConditionSaysMoreThanTheOneBefore() {
        run = started("condition.engine ECT overheat", "hot", Limits.NONE);
        List<String> hints = java.util.stream.IntStream.range(0, 3)
                .mapToObj(i -> act(new Request.Hint()).words().replaceFirst("hint \\d: ", ""))
                .distinct()
                .toList();
        assertEquals(3, hints.size(), hints.toString());
    }

    /** Who has ended a run may read its answer; what the same student does after that on the same drill is no measure. */
    @Test
    void aRunAfterTheAnswerWasShownIsMarked() {
        act(new Request.GiveUp());
        RunFile first = run;
        Entry.Stamp later = Entry.Stamp.of(STAMP.at().plusHours(1), STAMP.by());
        RunFile second = RunFile.start(Shops.CASEWORK, first.drill(), folder.resolve("run-2.jsonl"), later);
        second.act(new Request.Way("cover", true), STAMP);
        second.act(work(Fact.Deed.REPAIRED, "S2"), STAMP);
        second.act(new Request.Claim(List.of("S2")), STAMP);
        ClassSummary summary = ClassSummary.of(List.of(first, second), n -> {});
        assertEquals(
                List.of(false, true),
                summary.rows().stream().map(ClassSummary.Row::again).toList());
        assertEquals(OptionalDouble.empty(), summary.rows().get(1).ratio());
        assertEquals(OptionalDouble.empty(), summary.rows().get(1).over());
        assertEquals(OptionalDouble.empty(), summary.rows().get(0).ratio(), "giving up soon is no speed");
    }

    @Test
    void ohmsOnALiveFeedBlowTheMetersFuse() {
        open("cover");
        Run.Step live = act(ohms("J1/1", "chassis", Optional.of("key-on")));
        assertEquals(1, live.marks().size());
        assertTrue(live.marks().get(0).words().startsWith("ohms on a live circuit of 12."), live.toString());
        assertEquals(new BigDecimal("15.00"), live.bill().parts());
    }

    /** Battery voltage on a 5 V rail is odd, yet so: nobody is asked to look again, and the run is sound as a case. */
    @Test
    void anOddReadingOfTheEngineStandsConfirmed() {
        run = started("wire.short-battery B1 W4–W14", "rail", Limits.NONE);
        open("cover");
        act(volts("J1/3", "chassis", "", false));
        act(volts("J1/1", "chassis", "", false));
        assertEquals(List.of(), CaseCheck.of(run.file(), Optional.empty()).problems());
        List<Entry> lines = JournalFile.read(run.file()).entries();
        Entry rail = lines.get(lines.size() - 2);
        assertTrue(((Fact.Reading) rail.fact()).shown().value().orElseThrow() > 10, rail.toString());
        assertTrue(
                rail.stamp().confirmed().orElseThrow().endsWith(" is above the 5 V supply that J1/3 is wired to"),
                rail.toString());
        assertEquals(Optional.empty(), lines.get(lines.size() - 1).stamp().confirmed());
    }

    @Test
    void aBareProbeIsQuickerAndSpreadsTheTerminal() {
        open("fan-guard");
        Run.Step pin = act(volts("C1/1", "chassis", "C1", false));
        Run.Step bare = act(volts("C1/1", "chassis", "C1", true));
        assertEquals(Prices.BARE_PROBE_SAVES, pin.bill().minutes() - bare.bill().minutes());
        assertEquals(List.of(), pin.marks());
        assertEquals(
                List.of("splice.open S2", "contact.fretted C1/1"),
                run.run().faults().stream().map(Planted::id).toList());
        act(work(Fact.Deed.REPAIRED, "C1/1"));
        assertEquals(1, run.run().faults().size());
    }

    @Test
    void aJumperOnADriverBlowsIt() {
        open("cover", "fan-guard");
        Setup on = new Setup(
                Optional.of("key-on"),
                Optional.empty(),
                List.of("C4"),
                List.of(new loomcase.journal.Jumper("C4/2", "chassis", 0)),
                OptionalDouble.empty());
        act(new Request.Watch(Fact.Method.JUMPER, on));
        assertTrue(
                run.run().faults().stream().anyMatch(p -> p.id().startsWith("control-unit.pin")),
                run.run().faults().toString());
    }

    @Test
    void hintsCostAndAreThree() {
        assertEquals(Limits.USUAL_HINT_MINUTES, act(new Request.Hint()).bill().minutes());
        act(new Request.Hint());
        assertEquals(
                "note: drill: hint 3: look near branch B1",
                act(new Request.Hint()).fact().toString());
        refused("there are no more hints than 3", new Request.Hint());
    }

    @Test
    void theClockEndsARun() {
        run = started("splice.open S2", "short", new Limits(OptionalDouble.of(10), Optional.empty(), 20));
        open("cover");
        assertEquals(Optional.empty(), run.run().ending());
        open("battery-box");
        assertEquals(Optional.of(Ending.OUT_OF_TIME), run.run().ending());
        run = started("splice.open S2", "poor", new Limits(OptionalDouble.empty(), Optional.of(BigDecimal.TEN), 20));
        open("cover");
        assertEquals(Optional.of(Ending.OUT_OF_MONEY), run.run().ending());
    }

    @Test
    void aKilledProgramLosesNothingThatWasAnswered() throws IOException {
        open("cover");
        Files.writeString(run.file(), "{\"n\": 5, \"at\": \"2026", StandardOpenOption.APPEND);
        RunFile again = RunFile.open(Shops.CASEWORK, run.file());
        assertEquals(run.run(), again.run());
        again.act(new Request.Way("fan-guard", true), STAMP);
        assertEquals(
                List.of("cover", "fan-guard"),
                List.copyOf(RunFile.open(Shops.CASEWORK, run.file()).run().open()));
    }

    @Test
    void ofTwoWritersTheSecondIsToldAndOverwritesNothing() {
        RunFile other = RunFile.open(Shops.CASEWORK, run.file());
        open("cover");
        assertThrows(JournalFile.Overtaken.class, () -> other.act(new Request.Hint(), STAMP));
        assertEquals(run.run(), RunFile.open(Shops.CASEWORK, run.file()).run());
    }

    @Test
    void aRunKnowsItsDrill() throws IOException {
        Files.writeString(
                run.drill().file(), Files.readString(run.drill().file()).replace("stays on", "stays off"));
        InputProblem p = assertThrows(InputProblem.class, () -> RunFile.open(Shops.CASEWORK, run.file()));
        assertTrue(p.getMessage().endsWith("is not the one that the run was started with"), p.getMessage());
    }

    @Test
    void theDebriefFollowsTheTrueSpliceAndFindsForeignLines() {
        open("cover");
        act(volts("J1/4", "chassis", "", false));
        act(volts("J1/4", "J1/2", "", false));
        Fact.Reading lie = (Fact.Reading) run.run().steps().get(1).fact();
        JournalFile.append(
                run.file(),
                new Fact.Reading(
                        lie.test(), lie.a(), lie.b(), loomcase.journal.Shown.parse("9.99V"), lie.setup(), lie.meter()),
                STAMP);
        run = RunFile.open(Shops.CASEWORK, run.file());
        assertThrows(InputProblem.class, () -> Debrief.of(run), "a debrief names the fault, so not before the end");
        act(work(Fact.Deed.REPLACED, "J1/4"));
        act(work(Fact.Deed.REPAIRED, "S2"));
        act(new Request.Claim(List.of("S2")));
        Debrief d = Debrief.of(run);
        assertEquals(List.of(7), d.notGiven());
        assertEquals(Ending.SOLVED, d.ending());
        assertEquals(run.run().bill(), d.bill());
        assertEquals(
                d.bill().minutes(),
                d.steps().stream().mapToDouble(s -> s.bill().minutes()).sum(),
                1e-9);
        assertEquals(
                Optional.of(Debrief.Loss.WRONG_PLACE),
                d.steps().stream()
                        .filter(s -> s.line() == 8)
                        .findFirst()
                        .orElseThrow()
                        .lost());
        assertEquals(
                Optional.of(Debrief.Loss.LITTLE_TO_TELL),
                d.steps().stream()
                        .filter(s -> s.line() == 6)
                        .findFirst()
                        .orElseThrow()
                        .lost(),
                "the same reading once more tells little");
        assertTrue(d.planner().rightFirst());
        ClassSummary summary = ClassSummary.of(List.of(run), n -> {});
        assertEquals(d.ratio().getAsDouble(), summary.rows().get(0).ratio().getAsDouble(), 1e-9);
        assertEquals(2, summary.csv().lines().count());
        assertTrue(summary.csv().contains("ada,1,run,,2026-11-02T09:00Z,solved,"), summary.csv());
    }
}
