package loomcase.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import loomcase.fit.Difference.Severity;
import loomcase.fit.Difference.Subject;
import loomcase.model.Circuit;
import loomcase.model.read.CavityList;
import loomcase.model.read.CircuitReader;
import loomcase.model.read.WireList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Comparisons of harnesses. All data are ours and invented; rules of thumb are held as what we claim, not as truth. */
class FitTest {
    static final Path FOLDER = Path.of("demo-cases", "fit");

    @TempDir
    private Path folder;

    static Circuit year(int n) {
        return CircuitReader.read(FOLDER.resolve("year-" + n + ".json"));
    }

    /** Year 1 with a piece of text replaced; it must be there. */
    private Circuit changed(String... beforeAfter) {
        try {
            String text = Files.readString(FOLDER.resolve("year-1.json"));
            for (int i = 0; i < beforeAfter.length; i += 2) {
                assertTrue(text.contains(beforeAfter[i]), beforeAfter[i]);
                text = text.replace(beforeAfter[i], beforeAfter[i + 1]);
            }
            return CircuitReader.read(Files.writeString(folder.resolve("changed.json"), text));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"demo-cases/fit/year-1.json", "circuits/larch-13.json", "circuits/teaching.json"})
    void aHarnessFitsItselfWithoutAnyDifference(String file) {
        Circuit c = CircuitReader.read(Path.of(file));
        FitResult r = Fit.compare(c, c);
        assertEquals(List.of(), r.differences());
        assertEquals(FitResult.Verdict.FITS, r.verdict());
        assertEquals(c.connectors().size(), r.plugs().size());
        r.plugs().forEach(p -> assertEquals(p.old().id(), p.neu().id()));
        // teaching describes no shells, so a bare "fits" would claim too much
        assertEquals(!file.contains("teaching"), r.settled());
    }

    @ParameterizedTest
    @CsvSource({"2, FITS", "3, FITS_WITH_TRANSFER", "4, DOES_NOT_FIT"})
    void theThreePairsGiveTheThreeAnswers(int year, FitResult.Verdict verdict) {
        FitResult r = Fit.compare(year(1), year(year));
        assertEquals(verdict, r.verdict());
        assertTrue(r.settled());
    }

    /** Every id of connectors, wires, branches, devices, junctions and splices gets another name. */
    @ParameterizedTest
    @ValueSource(ints = {1, 3, 4})
    void idsDoNotMatter(int year) throws IOException {
        String text = Files.readString(FOLDER.resolve("year-" + year + ".json"));
        for (String id : List.of(
                "ECT", "OPS", "MAP", "FAN", "BAT", "ECM", "J1", "C1", "C2", "C3", "C4", "CB", "S1", "S2", "G1", "F1",
                "B1", "B2", "B3", "B4", "JN0", "JN1", "JN2", "JN3", "JN4"))
            text = text.replaceAll("\"" + id + "(?=[\"/])", "\"z" + Integer.toHexString(id.hashCode()) + "z");
        text = text.replaceAll("\"W(\\d+)\"", "\"wire$1\"");
        Circuit renamed = CircuitReader.read(Files.writeString(folder.resolve("renamed.json"), text));
        FitResult plain = Fit.compare(year(1), year(year));
        FitResult other = Fit.compare(year(1), renamed);
        assertEquals(plain.verdict(), other.verdict());
        assertEquals(without(plain), without(other));
        assertEquals(plain.cavities().keySet(), other.cavities().keySet());
        assertEquals(
                plain.transfers().stream().map(Transfer::moves).toList(),
                other.transfers().stream().map(Transfer::moves).toList());
    }

    /** Differences without the new ids that their places name. */
    private static List<String> without(FitResult r) {
        return r.differences().stream()
                .map(d -> d.severity() + " " + d.subject() + " "
                        + (d.where() + " " + d.what()).replaceAll(" \\(new [^)]*\\)", ""))
                .toList();
    }

    @Test
    void differencesAreTheSameSeenFromEitherSide() {
        for (int year = 2; year <= 4; year++) {
            Map<Subject, Integer> there = count(Fit.compare(year(1), year(year)));
            Map<Subject, Integer> back = count(Fit.compare(year(year), year(1)));
            // what the new one lacks is found one way only: a clip or bracket, or slack that turns into a short branch
            there.keySet().removeAll(List.of(Subject.HOLD, Subject.PLUG));
            back.keySet().removeAll(List.of(Subject.HOLD, Subject.PLUG));
            assertEquals(there, back, "year " + year);
        }
    }

    private static Map<Subject, Integer> count(FitResult r) {
        Map<Subject, Integer> out = new TreeMap<>();
        r.differences().forEach(d -> out.merge(d.subject(), 1, Integer::sum));
        return out;
    }

    @Test
    void transferMovesEveryCircuitToItsOldCavity() {
        Circuit old = year(1);
        FitResult r = Fit.compare(old, year(3));
        assertEquals("J1/7", r.cavities().get("J1/6"));
        assertEquals("J1/8", r.cavities().get("J1/7"));
        assertEquals("J1/6", r.cavities().get("J1/8"));
        assertEquals(2, r.transfers().size());
        Transfer j1 = r.transfers().get(0);
        assertEquals(Transfer.Shell.OLD, j1.shell());
        assertEquals(8, j1.moves().size());
        Transfer c3 = r.transfers().get(1);
        assertEquals(Transfer.Shell.SAME, c3.shell());
        assertEquals(List.of(List.of("1", "3")), c3.cycles());
        assertEquals(List.of(), c3.toPlug());
    }

    @Test
    void theSheetKeepsItsOrderAndMovesOneTerminalAtATime() {
        for (Transfer t : Fit.compare(year(1), year(3)).transfers()) {
            List<String> work = t.steps().stream().map(Transfer.Step::words).toList();
            int photo = index(work, "Photograph");
            int map = index(work, "cavity map");
            int open = index(work, "Open the secondary lock");
            int first = index(work, "release the tang");
            int close = index(work, "Close the secondary lock");
            int check = index(work, "Make the continuity checks");
            assertTrue(photo < map && map < open && open < first && first < close && close < check, work.toString());
            assertEquals(
                    t.moves().size(),
                    work.stream().filter(w -> w.contains(" → ")).count());
        }
    }

    private static int index(List<String> work, String piece) {
        for (int i = 0; i < work.size(); i++) if (work.get(i).contains(piece)) return i;
        throw new AssertionError(piece + " is in none of " + work);
    }

    private List<Difference> only(Subject subject, FitResult r) {
        return r.differences().stream().filter(d -> d.subject() == subject).toList();
    }

    @Test
    void thinnerFeedBlocksAndThinnerSignalIsCare() {
        FitResult feed = Fit.compare(
                year(1), changed("\"to\": \"J1/1\", \"size\": \"1.5mm2\"", "\"to\": \"J1/1\", \"size\": \"0.5mm2\""));
        assertEquals(Severity.BLOCKS, only(Subject.WIRE, feed).get(0).severity());
        FitResult signal = Fit.compare(
                year(1), changed("\"to\": \"C1/1\", \"size\": \"AWG18\"", "\"to\": \"C1/1\", \"size\": \"AWG22\""));
        assertEquals(Severity.CARE, only(Subject.WIRE, signal).get(0).severity());
        FitResult metric = Fit.compare(
                year(1), changed("\"to\": \"C1/1\", \"size\": \"AWG18\"", "\"to\": \"C1/1\", \"size\": \"0.75mm2\""));
        assertEquals(List.of(), metric.differences());
    }

    /** GPT is good for 85 °C at most, TXL, GXL and SXL for 125 °C (SAE J1128 by makers' pages); zone "front" has 105 °C. */
    @Test
    void coolerInsulationBlocksInAHotZoneOnly() {
        FitResult hot = Fit.compare(
                year(1),
                changed(
                        "\"colour\": \"yellow\", \"insulation\": \"GXL\"",
                        "\"colour\": \"yellow\", \"insulation\": \"GPT\""));
        assertEquals(Severity.BLOCKS, only(Subject.WIRE, hot).get(0).severity());
        FitResult cool = Fit.compare(
                year(1),
                changed(
                        "\"colour\": \"red\", \"insulation\": \"GXL\"",
                        "\"colour\": \"red\", \"insulation\": \"GPT\""));
        assertEquals(Severity.CARE, only(Subject.WIRE, cool).get(0).severity());
    }

    @Test
    void otherTerminalsBlockAndOtherPlatingIsCare() {
        FitResult series = Fit.compare(year(1), changed("blade 2.8 tin", "blade 1.5 tin"));
        assertEquals(FitResult.Verdict.DOES_NOT_FIT, series.verdict());
        FitResult plating = Fit.compare(year(1), changed("blade 2.8 tin", "blade 2.8 gold"));
        assertEquals(Severity.CARE, only(Subject.TERMINAL, plating).get(0).severity());
        assertEquals(FitResult.Verdict.FITS, plating.verdict());
    }

    @Test
    void aLargerFuseBlocks() {
        FitResult r = Fit.compare(year(1), changed("\"amperes\": 10", "\"amperes\": 15"));
        assertEquals(
                "fuse of control unit and fan clutch feed is 15 A, the old one 10 A",
                only(Subject.FUSE, r).get(0).what());
        assertEquals(FitResult.Verdict.DOES_NOT_FIT, r.verdict());
    }

    /** Two resistors of 120 ohm in parallel are 60 ohm; one alone is 120 ohm (SAE J1939-11; parallel law). */
    @Test
    void aMissingTerminatorIsFound() throws IOException {
        String text = Files.readString(Path.of("circuits", "larch-13.json"));
        String pulled = text.replaceAll("(\"id\": \"TRM\"[^}]*\"ohms\": )120", "$11000000");
        assertFalse(text.equals(pulled));
        Circuit neu = CircuitReader.read(Files.writeString(folder.resolve("l.json"), pulled));
        FitResult r = Fit.compare(CircuitReader.read(Path.of("circuits", "larch-13.json")), neu);
        assertTrue(
                only(Subject.TERMINATION, r).get(0).what().contains("120 ohm, with the old one 60 ohm"),
                r.differences().toString());
    }

    @Test
    void aLostTwistOnTheNetworkBlocks() throws IOException {
        String text = Files.readString(Path.of("circuits", "larch-13.json"));
        Circuit neu = CircuitReader.read(
                Files.writeString(folder.resolve("l.json"), text.replaceAll(", \"twistedWith\": \"[^\"]*\"", "")));
        FitResult r = Fit.compare(CircuitReader.read(Path.of("circuits", "larch-13.json")), neu);
        assertTrue(only(Subject.TWIST, r).stream().anyMatch(d -> d.severity() == Severity.BLOCKS));
    }

    /** FAA AC 43.13-1B, 11-96a: supports at most 24 inches apart, 0.61 m. */
    @Test
    void aBranchWithoutClipsIsCareWhenItsSpanIsTooWide() {
        FitResult wide = Fit.compare(year(1), changed("\"clips\": 4, \"access\"", "\"clips\": 0, \"access\""));
        assertEquals(Severity.CARE, only(Subject.HOLD, wide).get(0).severity());
        FitResult close = Fit.compare(year(1), changed("\"clips\": 4, \"access\"", "\"clips\": 2, \"access\""));
        assertEquals(Severity.NOTE, only(Subject.HOLD, close).get(0).severity());
    }

    @Test
    void aMissingWireBlocksAndNamesWhatStaysDead() {
        FitResult there = Fit.compare(
                year(1),
                changed(
                        "    {\"id\": \"W10\", \"circuit\": \"coolant temperature sensor return\", \"from\": \"S2\", \"to\": \"C1/2\"",
                        "    {\"id\": \"W10\", \"circuit\": \"coolant temperature sensor ground\", \"from\": \"G1\", \"to\": \"C1/2\""));
        assertEquals(FitResult.Verdict.DOES_NOT_FIT, there.verdict());
        assertTrue(
                there.differences().stream().anyMatch(d -> d.what().contains("no longer reaches")),
                there.differences().toString());
    }

    @Test
    void ofAListWhatIsNotKnownIsSaidAndItNeverJustFits() throws IOException {
        Path file = Files.writeString(
                folder.resolve("part.csv"),
                "connector,cavity,circuit\nC1,1,coolant temperature signal\n"
                        + "C1,2,coolant temperature sensor return\n");
        FitResult r = Fit.compare(year(1), "part", CavityList.read(file));
        assertEquals(FitResult.Verdict.FITS, r.verdict());
        assertFalse(r.settled());
        assertEquals("fits, as far as is known", r.answer());
        TreeSet<String> unknown = new TreeSet<>();
        r.notKnown().stream().filter(Difference.NotKnown::matters).forEach(n -> unknown.add(n.what()));
        assertTrue(
                unknown.containsAll(List.of("reach", "clips and brackets", "keying", "terminal", "wire sizes")),
                unknown.toString());
    }

    @Test
    void aListOfTheOldPlugItselfMovesNothing() throws IOException {
        Circuit larch = CircuitReader.read(Path.of("circuits", "larch-13.json"));
        StringBuilder csv = new StringBuilder("connector,cavity,wire\n");
        larch.wires().values().forEach(w -> Stream.of(w.from(), w.to())
                .filter(e -> e.startsWith("J1/"))
                .forEach(e -> csv.append("J1,")
                        .append(e.substring(3))
                        .append(',')
                        .append(w.id())
                        .append('\n')));
        FitResult r = Fit.compare(larch, "same", CavityList.read(Files.writeString(folder.resolve("same.csv"), csv)));
        assertEquals(List.of(), r.differences());
        assertEquals(List.of(), r.transfers());
    }

    @Test
    void laterBuildYearOfTheReferencePlugNeedsItsOldShell() {
        Circuit larch = CircuitReader.read(Path.of("circuits", "larch-13.json"));
        FitResult r = Fit.compare(larch, "later", CavityList.read(FOLDER.resolve("larch-13-j1-later.csv")));
        assertEquals(FitResult.Verdict.FITS_WITH_TRANSFER, r.verdict());
        Transfer t = r.transfers().get(0);
        assertEquals(35, t.moves().size());
        assertEquals(25, t.toPlug().size());
        assertEquals("J1/41", r.cavities().get("J1/39"));
    }

    @Test
    void aWireListWithAShortWireDoesNotFit() throws IOException {
        Path file = Files.writeString(
                folder.resolve("wires.csv"),
                """
                wire,size,fromConnector,fromCavity,toConnector,toCavity,branch,metres
                W11,AWG18,J1,6,C1,1,,1.20
                W12,AWG18,J1,7,C2,3,,1.60
                """);
        FitResult r = Fit.compare(year(1), "wires", WireList.read(file));
        List<String> reach =
                only(Subject.REACH, r).stream().map(Difference::what).toList();
        assertEquals(
                List.of("wire of coolant temperature signal is 1.20 m long, the route of the old one 1.60 m"), reach);
    }

    @Test
    void twinsAreSaidToBeAmbiguous() {
        List<String> two = new ArrayList<>(List.of("a", "b"));
        Map<String, Pairing.Pair> pairs = Pairing.of(two, two, 1, 2, (x, y) -> 3);
        assertEquals(Sure.AMBIGUOUS, pairs.get("a").sure());
        assertEquals("a", pairs.get("a").neu());
        assertEquals(
                Sure.CERTAIN,
                Pairing.of(two, two, 1, 2, (x, y) -> x.equals(y) ? 3 : 0)
                        .get("b")
                        .sure());
    }

    @Test
    void everyRuleNamesItsSource() {
        Pattern known = Pattern.compile(".*(common practice, no source|judgement|the two files|SAE|FAA).*");
        for (int year = 2; year <= 4; year++)
            for (Difference d : Fit.compare(year(1), year(year)).differences())
                assertTrue(known.matcher(d.source()).matches(), d.source());
    }
}
