package loomcase.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.UnaryOperator;
import loomcase.InputProblem;
import loomcase.demo.Harness;
import loomcase.j1939.Code;
import loomcase.j1939.Lamp;
import loomcase.j1939.Lamps;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import loomcase.journal.Spot;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import loomcase.proof.Proof.Kind;
import loomcase.proof.Proof.State;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The invented case of {@code demo-cases/five-volt-repaired.jsonl}, proven, and what becomes of the proof when one thing in
 * it is otherwise. The order of checks after a repair (ohms, isolation, wiggle for two minutes, clear, key cycle, run) is
 * common practice, no source.
 */
class ProofMakerTest {
    private static final Path CASE = Path.of("demo-cases", "five-volt-repaired.jsonl");
    private static final List<Entry> WHOLE = JournalFile.read(CASE).entries();
    private static final int WORK = 9;

    private static Proof prove(List<Entry> entries) {
        return ProofMaker.of(
                Harness.LARCH.circuit(), Harness.LARCH.layout(), new Journal(renumbered(entries), List.of()));
    }

    private static List<Entry> renumbered(List<Entry> entries) {
        List<Entry> out = new ArrayList<>();
        for (Entry e : entries) out.add(new Entry(out.size() + 1, e.stamp(), e.fact(), Digest.NONE, Digest.NONE));
        return out;
    }

    /** The case with one line otherwise. */
    private static Proof with(int n, UnaryOperator<Fact> change) {
        List<Entry> out = new ArrayList<>(WHOLE);
        Entry e = out.get(n - 1);
        out.set(n - 1, new Entry(n, e.stamp(), change.apply(e.fact()), e.previous(), e.digest()));
        return prove(out);
    }

    private static Fact.Reading reading(Fact f, Shown shown, Setup setup) {
        Fact.Reading r = (Fact.Reading) f;
        return new Fact.Reading(r.test(), r.a(), r.b(), shown, setup, r.meter());
    }

    private static Shown ohms(String amount, Shown.Unit unit) {
        return new Shown.Number(new BigDecimal(amount), unit);
    }

    private static Setup setup(Fact f) {
        return ((Fact.Reading) f).setup();
    }

    private static void stands(Proof proof, Proof.Status status, Kind kind, State state, String found) {
        List<Proof.Check> other =
                proof.checks().stream().filter(c -> c.state() != State.PASSED).toList();
        assertEquals(status, proof.status(), other.toString());
        assertTrue(
                other.stream()
                        .anyMatch(c -> c.kind() == kind
                                && c.state() == state
                                && c.found().contains(found)),
                other.toString());
    }

    @Test
    void wholeCaseIsProven() {
        Proof proof = prove(WHOLE);
        assertEquals(Proof.Status.PROVEN, proof.status(), proof.toString());
        assertEquals(List.of(WORK), proof.workLines());
        for (Proof.Check c : proof.checks()) {
            assertTrue(c.lines().stream().allMatch(n -> n > WORK && n <= WHOLE.size()), c.toString());
            assertTrue(!c.source().isBlank() && !c.lines().isEmpty(), c.toString());
        }
    }

    /** Whatever line after the work is left out, the case is not proven; that a cover was opened is no evidence. */
    @Test
    void noLineAfterTheWorkCanBeSpared() {
        for (int n = WORK + 1; n <= WHOLE.size(); n++) {
            List<Entry> out = new ArrayList<>(WHOLE);
            Fact left = out.remove(n - 1).fact();
            if (left instanceof Fact.OpenedAccess) continue;
            assertEquals(Proof.Status.NOT_PROVEN, prove(out).status(), "without line " + n + ": " + left);
        }
    }

    /** A case cut anywhere behind its work is not proven, whatever was seen before the work. */
    @Test
    void nothingSeenBeforeTheWorkCounts() {
        for (int n = WORK; n < WHOLE.size(); n++)
            assertEquals(Proof.Status.NOT_PROVEN, prove(WHOLE.subList(0, n)).status(), "first " + n + " lines");
        List<Entry> again = new ArrayList<>(WHOLE);
        again.add(WHOLE.get(WORK - 1));
        Proof proof = prove(again);
        assertEquals(Proof.Status.NOT_PROVEN, proof.status());
        assertTrue(proof.in(State.PASSED).stream().allMatch(c -> c.kind() == Kind.CLOSE), proof.toString());
    }

    @ParameterizedTest
    @CsvSource({"0.24, PROVEN", "0.26, DISPROVEN", "0.5, DISPROVEN", "30, DISPROVEN"})
    void ohmsAboveTheLimitContradict(String amount, Proof.Status status) {
        Proof proof = with(12, f -> reading(f, ohms(amount, Shown.Unit.OHM), setup(f)));
        if (status == Proof.Status.PROVEN) assertEquals(status, proof.status());
        else stands(proof, status, Kind.CONTINUITY, State.CONTRADICTED, amount);
    }

    @Test
    void overRangeIsAnOpenWireAndGoodIsolation() {
        stands(
                with(12, f -> reading(f, new Shown.OverRange(), setup(f))),
                Proof.Status.DISPROVEN,
                Kind.CONTINUITY,
                State.CONTRADICTED,
                "open");
        stands(
                with(14, f -> reading(f, ohms("180", Shown.Unit.KILOHM), setup(f))),
                Proof.Status.DISPROVEN,
                Kind.ISOLATION,
                State.CONTRADICTED,
                "180 kohm");
        assertEquals(
                Proof.Status.PROVEN,
                with(14, f -> reading(f, ohms("1.0", Shown.Unit.MEGOHM), setup(f)))
                        .status());
    }

    /** A sensor left on the net, a key left on, a jumper left in: the reading is not one of the wire alone. */
    @Test
    void readingInTheWrongStateDoesNotCount() {
        Setup s = setup(WHOLE.get(13).fact());
        Setup oneMated = new Setup(
                Optional.empty(), Optional.empty(), s.unplugged().subList(0, 5), List.of(), OptionalDouble.empty());
        stands(
                with(14, f -> reading(f, new Shown.OverRange(), oneMated)),
                Proof.Status.NOT_PROVEN,
                Kind.ISOLATION,
                State.MISSING,
                "taken with C-CCP plugged in");
        Setup keyOn = new Setup(Optional.of("key-on"), Optional.empty(), s.unplugged(), List.of(), s.wireCelsius());
        stands(
                with(12, f -> reading(f, ohms("0.14", Shown.Unit.OHM), keyOn)),
                Proof.Status.NOT_PROVEN,
                Kind.CONTINUITY,
                State.MISSING,
                "key on");
    }

    @Test
    void movingItChangesTheValue() {
        stands(
                with(22, f -> {
                    Fact.Moved m = (Fact.Moved) f;
                    return new Fact.Moved(m.action(), m.spot(), true, "rail pressure drops out", m.setup());
                }),
                Proof.Status.DISPROVEN,
                Kind.WIGGLE,
                State.CONTRADICTED,
                "rail pressure drops out");
    }

    @Test
    void whatTheEyeFindsContradicts() {
        stands(
                with(17, f -> new Fact.Seen(((Fact.Seen) f).spot(), Finding.PUSHED_OUT_TERMINAL, "")),
                Proof.Status.DISPROVEN,
                Kind.PLUG,
                State.CONTRADICTED,
                "pushed out terminal");
        List<Entry> out = new ArrayList<>(WHOLE);
        out.add(new Entry(
                31,
                WHOLE.get(29).stamp(),
                new Fact.Seen(Spot.of(PlaceId.Kind.BRANCH, "BE2"), Finding.CHAFE, ""),
                Digest.NONE,
                Digest.NONE));
        stands(prove(out), Proof.Status.DISPROVEN, Kind.FOUND, State.CONTRADICTED, "chafe");
        out.add(new Entry(
                32,
                WHOLE.get(29).stamp(),
                new Fact.Seen(Spot.of(PlaceId.Kind.BRANCH, "BE2"), Finding.CLEAN, "guarded"),
                Digest.NONE,
                Digest.NONE));
        assertEquals(Proof.Status.PROVEN, prove(out).status());
    }

    /** A plug taken apart once more has to be looked at once more. */
    @Test
    void aPlugTakenApartAgainIsOpenAgain() {
        List<Entry> out = new ArrayList<>(WHOLE);
        out.add(WHOLE.get(11));
        stands(prove(out), Proof.Status.NOT_PROVEN, Kind.PLUG, State.MISSING, "");
    }

    private static Fact codes(Fact f, Lamps lamps, Fact.ReadCode... codes) {
        Fact.Codes c = (Fact.Codes) f;
        return new Fact.Codes(List.of(codes), c.operatingPoints(), c.log(), Optional.of(lamps));
    }

    private static Fact.ReadCode code(int spn, int fmi, Fact.State state) {
        return new Fact.ReadCode(new Code(spn, fmi), OptionalInt.empty(), state);
    }

    @Test
    void codesAfterTheWorkContradict() {
        stands(
                with(30, f -> codes(f, Lamps.OFF, code(94, 4, Fact.State.ACTIVE))),
                Proof.Status.DISPROVEN,
                Kind.CODES,
                State.CONTRADICTED,
                "back: 94/4");
        stands(
                with(28, f -> codes(f, Lamps.OFF, code(110, 3, Fact.State.STORED))),
                Proof.Status.DISPROVEN,
                Kind.CODES,
                State.CONTRADICTED,
                "new: 110/3");
        stands(
                with(30, f -> codes(f, new Lamps(Lamp.OFF, Lamp.ON, Lamp.OFF, Lamp.OFF))),
                Proof.Status.DISPROVEN,
                Kind.LAMPS,
                State.CONTRADICTED,
                "lit");
    }

    /** Watches need 90 s at each of two operating points here; the codes were read half a minute after clearing. */
    @Test
    void codesReadTooSoonProveNothing() {
        List<Entry> out = new ArrayList<>(WHOLE);
        Entry cleared = WHOLE.get(26);
        Entry read = WHOLE.get(27);
        out.set(
                27,
                new Entry(
                        28,
                        Entry.Stamp.of(cleared.stamp().at().plusSeconds(30), "demo"),
                        read.fact(),
                        Digest.NONE,
                        Digest.NONE));
        out.remove(29);
        stands(prove(out), Proof.Status.NOT_PROVEN, Kind.RUN, State.MISSING, "30 s after clearing, does not count");
    }

    /** Geometric counts of mean 2 and 12 are equally probable between 3 and 4: a code counted 9 times came and went. */
    @Test
    void aFaultThatCameAndWentNeedsMoreDrives() {
        Proof proof = with(2, f -> {
            Fact.Codes c = (Fact.Codes) f;
            List<Fact.ReadCode> often = c.codes().stream()
                    .map(r -> new Fact.ReadCode(r.code(), OptionalInt.of(9), r.state()))
                    .toList();
            return new Fact.Codes(often, c.operatingPoints(), c.log(), c.lamps());
        });
        stands(proof, Proof.Status.NOT_PROVEN, Kind.CYCLE, State.MISSING, "2 of 3");
    }

    @Test
    void aCaseWithoutWorkHasNothingToProve() {
        assertThrows(InputProblem.class, () -> prove(WHOLE.subList(0, WORK - 1)));
    }
}
