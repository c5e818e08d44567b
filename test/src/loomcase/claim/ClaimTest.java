package loomcase.claim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import loomcase.InputProblem;
import loomcase.Schemas;
import loomcase.casework.Advice;
import loomcase.casework.Casework;
import loomcase.casework.OpenCase;
import loomcase.casework.Shop;
import loomcase.j1939.Code;
import loomcase.journal.ClaimFact;
import loomcase.journal.Digest;
import loomcase.journal.Entry;
import loomcase.journal.Fact;
import loomcase.journal.Journal;
import loomcase.journal.JournalFile;
import loomcase.journal.Machine;
import loomcase.journal.Meter;
import loomcase.journal.Setup;
import loomcase.journal.Shown;
import loomcase.journal.Spot;
import loomcase.json.ClaimJson;
import loomcase.model.Finding;
import loomcase.model.PlaceId;
import loomcase.policy.ClaimCase;
import loomcase.policy.ClaimGap;
import loomcase.policy.ClaimPart;
import loomcase.policy.ClaimPhoto;
import loomcase.policy.RemedyFact;
import loomcase.print.Document;
import loomcase.print.Html;
import loomcase.print.Pdf;
import loomcase.print.Phrase;
import loomcase.print.Text;
import loomcase.translate.Translator;
import loomcase.verdict.Verdict;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Claims of the demo cases: nothing invented, each step paid once, what is missing named. */
class ClaimTest {
    private static final Casework CASEWORK = new Casework(Shop.BUILT_IN);

    @TempDir
    private Path folder;

    private static OpenCase open(String name) {
        return CASEWORK.open(DemoClaims.FOLDER.resolve(name + ".jsonl"));
    }

    private static Packet packet(String name) {
        return PacketMaker.withoutVerdict(open(name), Locale.ENGLISH);
    }

    @Test
    void everySentenceCitesALineThatExistsAndSpeaksOfIt() {
        for (String name : DemoClaims.NAMES) {
            Packet p = packet(name);
            List<Phrase> told = Stream.of(p.complaint(), p.cause(), p.correction())
                    .flatMap(List::stream)
                    .toList();
            assertFalse(told.isEmpty());
            for (Phrase phrase : told) {
                assertEquals(1, phrase.lines().size(), phrase.text());
                int line = phrase.lines().get(0);
                assertTrue(line >= 1 && line <= p.about().lines(), phrase.text());
            }
        }
        List<String> cause = packet("splice").cause().stream().map(Phrase::text).toList();
        assertTrue(
                cause.contains("Ohms, J2/4 to chassis read 38.2 ohm; a healthy harness reads over range (above 10"
                        + " Mohm)."),
                cause.toString());
    }

    /**
     * By hand from {@code circuits/larch-13.json}: the hot-side section (BE10, BE11, BE12) holds hood and heat shield in its
     * 160 minutes; pipe 40, guard 12 and bracket 14 are left. 226 minutes at 120 an hour are 452.00.
     */
    @Test
    void accessHeldInTheMinutesOfASectionIsNotPaidTwice() {
        Map<String, String> minutes = new TreeMap<>();
        BigDecimal amount = BigDecimal.ZERO;
        for (Packet.LabourLine l : packet("section").bill().labour()) {
            if (l.kind().equals("access")) minutes.put(l.step(), l.minutes().toString());
            if (l.kind().equals("repair")) minutes.put("repair", l.minutes().toString());
            if (l.kind().equals("access") || l.kind().equals("repair")) amount = amount.add(l.amount());
        }
        assertEquals(
                Map.of(
                        "hood", "0.0",
                        "heat-shield", "0.0",
                        "egr-pipe", "40.0",
                        "left-guard", "12.0",
                        "unit-bracket", "14.0",
                        "repair", "160.0"),
                minutes);
        assertEquals(new BigDecimal("452.00"), amount);
    }

    /** Hood 2 and cover 8 minutes, opened twice, are 10 minutes once: 20.00 at 120 an hour. */
    @Test
    void aStepOpenedTwiceIsPaidOnce() throws IOException {
        Path file = copy("splice");
        Entry.Stamp stamp = JournalFile.read(file)
                .entries()
                .get(JournalFile.read(file).entries().size() - 1)
                .stamp();
        JournalFile.append(file, new Fact.OpenedAccess("hood"), stamp);
        JournalFile.append(file, new Fact.OpenedAccess("top-cover"), stamp);
        List<Packet.LabourLine> labour = PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.ENGLISH)
                .bill()
                .labour();
        BigDecimal sum = labour.stream()
                .filter(l -> List.of("hood", "top-cover").contains(l.step()))
                .map(Packet.LabourLine::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add);
        assertEquals(new BigDecimal("20.00"), sum);
    }

    /**
     * Common practice, no source: a test made again in the same state is no second test to be paid; after work, after the
     * harness was moved, or with hot wires it is. Each time the line cites all that was recorded.
     */
    @Test
    void aTestMadeAgainWithNothingChangedIsClaimedOnce() throws IOException {
        Setup on = Setup.at(Optional.of("key-on"));
        Setup hot = new Setup(Optional.of("key-on"), Optional.empty(), List.of(), List.of(), OptionalDouble.of(90));
        Spot plug = Spot.of(PlaceId.Kind.CONNECTOR, "J2");
        Fact moved = new Fact.Moved(Fact.Action.WIGGLE, plug, false, "", on);
        Fact clear = new Fact.Work(Fact.Deed.CLEARED_CODES, Optional.empty(), "");
        Fact look = new Fact.Seen(plug, Finding.CLEAN, "");
        BigDecimal volts = minutes(volts("J2/2", "chassis", on));
        assertEquals(volts, minutes(volts("J2/2", "chassis", on), volts("chassis", "J2/2", on)));
        assertEquals(minutes(look), minutes(look, look));
        assertEquals(
                volts.multiply(BigDecimal.valueOf(2)).stripTrailingZeros(),
                minutes(volts("J2/2", "chassis", on), volts("J2/2", "chassis", hot))
                        .stripTrailingZeros());
        assertEquals(
                volts.multiply(BigDecimal.valueOf(2)).add(minutes(moved)).stripTrailingZeros(),
                minutes(volts("J2/2", "chassis", on), moved, volts("J2/2", "chassis", on))
                        .stripTrailingZeros());
        assertEquals(
                volts.multiply(BigDecimal.valueOf(2)).stripTrailingZeros(),
                minutes(volts("J2/2", "chassis", on), clear, volts("J2/2", "chassis", on))
                        .stripTrailingZeros());
    }

    @Test
    void thePacketSaysThatATestWasMadeAgain() throws IOException {
        Setup on = Setup.at(Optional.of("key-on"));
        Fact reading = volts("J2/2", "chassis", on);
        Packet.LabourLine line = diagnosis(Locale.ENGLISH, reading, reading).get(0);
        assertEquals(
                "Diagnosis, 1 test (1 line of a test made again with nothing changed in between: not claimed)",
                line.words().text());
        assertEquals(List.of(2, 3), line.words().lines());
        assertEquals(
                "Diagnose, 1 Prüfung (2 Zeilen einer Prüfung, die ohne Änderung dazwischen wiederholt wurde: nicht"
                        + " berechnet)",
                diagnosis(Locale.GERMAN, reading, reading, reading)
                        .get(0)
                        .words()
                        .text());
    }

    /** 298.00 of labour and 12.14 of parts are 310.14: sums stand below their columns, and so does the whole. */
    @Test
    void sumsStandBelowTheColumnsTheyAreOf() {
        String text = text("splice").replaceAll(" +", " ");
        assertTrue(text.contains("\n*Total* *149* *298.00*"), text);
        assertTrue(text.contains("\n*Total* *12.14*"), text);
        assertTrue(text.contains("Labour and parts: 310.14 CU"), text);
        assertTrue(text.contains("Total claimed: 310.14 CU"), text);
    }

    @Test
    void linesSayWhatTheyRestOnInWordsOfTheTrade() throws IOException {
        Setup on = Setup.at(Optional.of("key-on"));
        Spot splice = Spot.of(PlaceId.Kind.SPLICE, "S5A");
        Fact wiggle = new Fact.Moved(Fact.Action.WIGGLE, splice, false, "five pressures in view", on);
        Fact look = new Fact.Seen(splice, Finding.GREEN_COPPER, "crimp corroded through");
        Packet p = PacketMaker.withoutVerdict(CASEWORK.open(fresh(wiggle, look, codes())), Locale.ENGLISH);
        List<String> said =
                p.evidence().stream().map(Packet.EvidenceLine::words).toList();
        assertEquals("Wiggled at splice S5A: no response; five pressures in view (at key-on)", said.get(1));
        assertEquals("Seen at splice S5A: green copper; crimp corroded through", said.get(2));
        assertTrue(
                said.get(3).startsWith("Codes read: SPN 94 FMI 4 active (once), SPN 98 FMI 4 active (2 times)."),
                said.get(3));
        assertTrue(text("splice").contains("2026-11-03 08:05 +01:00"), "a moment is written as on the other sheets");
    }

    @Test
    void theChassisHasItsGermanName() throws IOException {
        Fact reading = volts("J2/2", "chassis", Setup.at(Optional.of("key-on")));
        Packet p = PacketMaker.withoutVerdict(CASEWORK.open(fresh(reading)), Locale.GERMAN);
        assertEquals("Spannung, J2/2 nach Masse", p.readings().get(0).id());
    }

    private static Fact codes() {
        return new Fact.Codes(List.of(read(94, 1), read(98, 2)), List.of("key-on"), Optional.empty(), Optional.empty());
    }

    private static Fact.ReadCode read(int spn, int count) {
        return new Fact.ReadCode(new Code(spn, 4), OptionalInt.of(count), Fact.State.ACTIVE);
    }

    private static String text(String name) {
        OpenCase open = open(name);
        return Text.write(ClaimDocument.of(open, packet(name), Locale.ENGLISH), 100);
    }

    private static Fact volts(String a, String b, Setup setup) {
        return new Fact.Reading(Fact.Test.VOLTS, a, b, Shown.parse("5.00V"), setup, Meter.NOT_SAID);
    }

    private BigDecimal minutes(Fact... facts) throws IOException {
        return diagnosis(Locale.ENGLISH, facts).get(0).minutes();
    }

    /** Labour of a fresh case of these lines. */
    private List<Packet.LabourLine> diagnosis(Locale language, Fact... facts) throws IOException {
        return PacketMaker.withoutVerdict(CASEWORK.open(fresh(facts)), language)
                .bill()
                .labour();
    }

    private Path fresh(Fact... facts) throws IOException {
        Path file = Files.createTempDirectory(folder, "case").resolve("case.jsonl");
        Entry.Stamp stamp = JournalFile.read(DemoClaims.FOLDER.resolve("splice.jsonl"))
                .entries()
                .get(0)
                .stamp();
        Path circuit = Path.of("circuits/larch-13.json").toAbsolutePath();
        Fact.CircuitFile named = new Fact.CircuitFile(circuit.toString(), "larch-13", Digest.ofFile(circuit));
        JournalFile.create(file, new Fact.Opened(named, "lamp on", Optional.empty(), OptionalDouble.empty()), stamp);
        for (Fact fact : facts) JournalFile.append(file, fact, stamp);
        return file;
    }

    /** A copy two folders below one with the circuit, as the demo cases stand; without the photos. */
    private Path copy(String name) throws IOException {
        Files.createDirectories(folder.resolve("circuits"));
        Files.copy(Path.of("circuits/larch-13.json"), folder.resolve("circuits/larch-13.json"));
        Path cases = Files.createDirectories(folder.resolve("demo-cases/claims"));
        return Files.copy(DemoClaims.FOLDER.resolve(name + ".jsonl"), cases.resolve(name + ".jsonl"));
    }

    @Test
    void photosAreMissingOrChangedWhereTheyAre() throws IOException {
        Path file = copy("splice");
        Packet missing = PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.ENGLISH);
        assertTrue(missing.photos().stream().allMatch(l -> l.state() == Packet.PhotoState.MISSING));
        Files.createDirectories(file.resolveSibling("photos"));
        Files.writeString(file.resolveSibling("photos/tag.png"), "another picture");
        Packet changed = PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.ENGLISH);
        assertEquals(
                List.of("The photo photos/tag.png is no longer the file that was recorded."),
                changed.contradictions().stream().map(Phrase::text).toList());
        assertFalse(changed.canBeSent());
        assertTrue(packet("splice").photos().stream().allMatch(l -> l.state() == Packet.PhotoState.SAME));
    }

    @Test
    void photosThatAreNotBesideTheCaseAreAskedFor() throws IOException {
        Path file = copy("splice");
        for (Locale language : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            OpenCase open = CASEWORK.open(file);
            Packet missing = PacketMaker.withoutVerdict(open, language);
            String said = Text.write(ClaimDocument.of(open, missing, language), 200);
            String asked = language.equals(Locale.ENGLISH)
                    ? "%d photo files are not beside the case; send them with the claim."
                    : "%d Fotodateien liegen nicht beim Fall; sie gehören zum Antrag.";
            assertTrue(said.contains(asked.formatted(missing.photos().size())), said);
        }
        assertFalse(text("splice").contains("not beside the case; send"));
    }

    /** The splice case ends with codes and readings that are fine; then somebody looks again and finds it chafed. */
    @Test
    void whatWasSeenAfterTheWorkAndSpeaksAgainstItContradicts() throws IOException {
        Path file = copy("splice");
        Packet before = PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.ENGLISH);
        assertTrue(before.canBeSent());
        Packet.Proven proven = before.proven().orElseThrow();
        assertTrue(proven.passed() > 0 && proven.passed() < proven.all(), proven.toString());
        assertTrue(text("splice")
                .contains(proven.passed() + " of " + proven.all()
                        + " checks that prove the repair are on record as passed"));
        Journal journal = JournalFile.read(file);
        Spot where = journal.standing().stream()
                .flatMap(x -> x.fact() instanceof Fact.Work w ? w.spot().stream() : Stream.empty())
                .findFirst()
                .orElseThrow();
        JournalFile.append(
                file,
                new Fact.Seen(where, Finding.CHAFE, ""),
                journal.entries().get(journal.entries().size() - 1).stamp());
        Packet after = PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.GERMAN);
        assertFalse(after.canBeSent());
        assertEquals(
                List.of("Nach der Arbeit und gegen sie: an der Arbeitsstelle wurde ein Schaden gesehen."),
                after.contradictions().stream().map(Phrase::text).toList());
        assertEquals(
                List.of(journal.entries().size() + 1),
                after.contradictions().get(0).lines());
    }

    /** Active codes after the work are a rule's word already. */
    @Test
    void whatARuleSaysIsNotSaidTwice() throws IOException {
        Path file = copy("splice");
        List<Entry> entries = JournalFile.read(file).entries();
        Fact.Codes first = entries.stream()
                .flatMap(e -> e.fact() instanceof Fact.Codes c ? Stream.of(c) : Stream.empty())
                .findFirst()
                .orElseThrow();
        JournalFile.append(file, first, entries.get(entries.size() - 1).stamp());
        Packet after = PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.ENGLISH);
        assertTrue(
                rules(after).contains("No code is active after"), rules(after).toString());
        assertEquals(List.of(), after.contradictions());
    }

    @Test
    void proofThatBearsAnEarlierTimeThanTheWorkContradicts() throws IOException {
        Path file = copy("splice");
        Fact last = JournalFile.read(file).entries().get(20).fact();
        JournalFile.append(
                file,
                last,
                Entry.Stamp.of(JournalFile.read(file).entries().get(5).stamp().at(), "tech A"));
        List<Phrase> found =
                PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.ENGLISH).contradictions();
        assertEquals(List.of(28, 13), found.get(0).lines());
        assertTrue(found.get(0).text().startsWith("A line of proof bears the time "), found.toString());
    }

    /** The splice case was written on 2026-11-03. */
    @Test
    void aDayThatHadNotComeWhenItWasWrittenDownContradicts() throws IOException {
        Path file = copy("splice");
        Fact.Opened o = JournalFile.read(file).opened();
        Entry.Stamp day = Entry.Stamp.of(OffsetDateTime.parse("2026-11-03T18:00:00+01:00"), "desk");
        for (String date : List.of("2026-11-03", "2026-11-04")) {
            LocalDate said = LocalDate.parse(date);
            Machine machine = new Machine(
                    o.machine().serial(), Optional.of(said), o.machine().distance());
            JournalFile.append(
                    file,
                    new Fact.Correction(1, new Fact.Opened(o.circuit(), o.complaint(), o.unit(), o.hours(), machine)),
                    day);
            JournalFile.append(
                    file,
                    new ClaimFact.Approved("wire", Optional.of("desk"), Optional.of("A-1"), Optional.of(said)),
                    day);
            List<String> found =
                    PacketMaker.withoutVerdict(CASEWORK.open(file), Locale.ENGLISH).contradictions().stream()
                            .map(Phrase::text)
                            .filter(t -> t.contains(" day after "))
                            .toList();
            if (date.endsWith("03")) assertEquals(List.of(), found);
            else {
                assertEquals(2, found.size(), found.toString());
                assertTrue(found.get(0).startsWith("In service since 2026-11-04, a day after the line"), found.get(0));
                assertTrue(
                        found.get(1)
                                .equals("The approval bears the date 2026-11-04, a day after the line that says so, of"
                                        + " 2026-11-03 18:00 +01:00."),
                        found.get(1));
            }
        }
    }

    @Test
    void aPriceHasItsDecimals() {
        Figures german = new Figures(Locale.GERMAN);
        assertEquals("90,00", german.price(new BigDecimal("90")));
        assertEquals("0,055", german.price(new BigDecimal("0.055")));
    }

    @Test
    void anEditedLineIsNamed() {
        InputProblem problem =
                assertThrows(InputProblem.class, () -> CASEWORK.open(Path.of("test/data/claim/tampered.jsonl")));
        assertEquals(
                "test/data/claim/tampered.jsonl: line 8: was edited after it was written: its digest does not fit its"
                        + " content",
                problem.getMessage());
    }

    @Test
    void theIncompleteCaseListsExactlyWhatIsMissing() {
        Packet p = packet("incomplete");
        assertEquals(
                List.of(
                        "Unit or serial number is missing; read it from the machine.",
                        "Codes were cleared (line 2) before they were read.",
                        "No codes from after the repair.",
                        "No reading from after the repair.",
                        "oil pressure sensor is claimed as causal, but the wiring was repaired.",
                        "No line for the repair."),
                texts(p, ClaimGap.Severity.BLOCKS));
        assertEquals(
                List.of("Work at cavity C-OPS/3 needs a step that was not opened: undershield off."),
                p.contradictions().stream().map(Phrase::text).toList());
        assertEquals(8, texts(p, ClaimGap.Severity.QUESTIONED).size());
        for (String whole : List.of("splice", "device", "terminal"))
            assertEquals(List.of(), packet(whole).outcome().gaps(), whole);
    }

    /** The section is the verdict's own; the terminal was chosen, with a reason, where reseating was less. */
    @Test
    void aChoiceBesideTheVerdictIsSpokenOf() {
        Packet section = PacketMaker.of(open("section"), Locale.ENGLISH);
        assertEquals("branch-section", section.reasoning().orElseThrow().verdict());
        assertEquals(List.of(), rules(section));
        assertTrue(section.canBeSent());
        Packet terminal = PacketMaker.of(open("terminal"), Locale.ENGLISH);
        assertEquals("reseat", terminal.reasoning().orElseThrow().verdict());
        assertEquals(List.of("The reason beside the verdict can be seen"), rules(terminal));
        assertEquals(List.of(), rules(PacketMaker.of(open("splice"), Locale.ENGLISH)));
    }

    /** Sentences of rules and verdict; of remedies, those whose words come from the program and not from the circuit file. */
    @Test
    void aGermanPacketSaysRulesAndVerdictInGerman() {
        for (String name : List.of("section", "incomplete")) {
            Packet english = PacketMaker.of(open(name), Locale.ENGLISH);
            Packet german = PacketMaker.of(open(name), Locale.GERMAN);
            assertEquals(rules(english), rules(german));
            List<String> same = new ArrayList<>(sentences(german));
            assertTrue(same.size() > 15, same.toString());
            same.retainAll(sentences(english));
            assertEquals(List.of(), same, name);
        }
    }

    /** The verdict's own sentences, held against the patterns that translate them, on cases that end in different ways. */
    @Test
    void everySentenceOfAVerdictHasGermanWords() {
        Translator german = new Translator(Locale.GERMAN, UnaryOperator.identity());
        List<String> same = new ArrayList<>();
        for (String name : List.of("shared-splice", "chafed-branch", "oil-in-unit-plug")) {
            Verdict v = CASEWORK.open(Path.of("demo-cases", name + ".jsonl"))
                    .answer()
                    .verdict(Advice.USUAL);
            Stream.of(v.reasons(), v.conflicts(), List.of(v.replacement().words()))
                    .flatMap(List::stream)
                    .filter(s -> german.verdict(s).equals(s))
                    .forEach(same::add);
            v.options().stream()
                    .map(o -> o.remedy().words())
                    .filter(s -> german.remedy(s).equals(s))
                    .forEach(same::add);
        }
        assertEquals(List.of(), same);
    }

    private static List<String> sentences(Packet p) {
        Packet.Reasoning why = p.reasoning().orElseThrow();
        List<String> out = new ArrayList<>(why.words());
        out.addAll(why.breakEvens());
        why.costs().forEach(c -> {
            out.add(c.words());
            out.addAll(c.rules());
        });
        p.outcome().gaps().forEach(g -> out.add(g.text()));
        return out;
    }

    private static List<String> rules(Packet p) {
        return p.outcome().gaps().stream().map(ClaimGap::rule).toList();
    }

    private static List<String> texts(Packet p, ClaimGap.Severity severity) {
        return p.outcome().gaps(severity).stream().map(ClaimGap::text).toList();
    }

    @Test
    void jsonFitsItsSchema() {
        for (String name : DemoClaims.NAMES) {
            StringWriter out = new StringWriter();
            PrintWriter to = new PrintWriter(out);
            ClaimJson.of(packet(name)).print(to);
            to.flush();
            assertEquals(List.of(), Schemas.errors(Schemas.of("claim.schema.json"), out.toString()), name);
        }
    }

    /** Text read back by PDFBox 3; validity by veraPDF 1.28, the validator of the PDF Association's industry group. */
    @Test
    void thePdfSaysItAndIsArchivableAndAccessible() throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        for (Locale language : List.of(Locale.ENGLISH, Locale.GERMAN)) {
            OpenCase open = open("section");
            Packet p = PacketMaker.withoutVerdict(open, language);
            Document document = ClaimDocument.of(open, p, language);
            byte[] pdf = Pdf.write(document, Pdf.Paper.LETTER);
            String text;
            try (PDDocument read = Loader.loadPDF(pdf)) {
                text = new PDFTextStripper().getText(read).replaceAll("\\s+", "");
            }
            String html = Html.write(document);
            List<Phrase> told = new ArrayList<>(p.cause());
            told.addAll(p.correction());
            for (Phrase phrase : told) {
                String bare = phrase.text().replaceAll("\\s+", "");
                assertTrue(text.contains(bare), language + ": " + phrase.text());
                assertTrue(html.contains("line-" + phrase.lines().get(0)), phrase.text());
            }
            assertEquals(List.of(), faults(pdf, PDFAFlavour.PDFA_2_A));
            assertEquals(List.of(), faults(pdf, PDFAFlavour.PDFUA_1));
        }
    }

    private static List<String> faults(byte[] pdf, PDFAFlavour flavour) throws Exception {
        try (PDFAParser parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour)) {
            PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false);
            ValidationResult result = validator.validate(parser);
            assertTrue(result.getTotalAssertions() > 100);
            return result.getTestAssertions().stream()
                    .filter(a -> a.getStatus() == TestAssertion.Status.FAILED)
                    .map(a -> a.getRuleId().getClause() + " " + a.getMessage())
                    .toList();
        }
    }

    /** The journal's words are those of the rules, which know nothing of the journal. */
    @Test
    void journalAndRulesUseTheSameWords() {
        assertEquals(RemedyFact.OPTIONS, words(ClaimFact.Option.values()));
        assertEquals(ClaimCase.DAMAGE_CAUSES, words(ClaimFact.Damage.values()));
        assertEquals(ClaimPart.ROLES, words(ClaimFact.Role.values()));
        assertEquals(ClaimPart.KINDS, words(ClaimFact.Sort.values()));
        assertEquals(ClaimPhoto.VIEWS, words(ClaimFact.View.values()));
        assertEquals(ClaimCase.TEST_FIRST, Verdict.NOT_ENOUGH);
        assertEquals(ClaimCase.ASK, Verdict.ASK);
    }

    private static List<String> words(Enum<?>[] constants) {
        return Stream.of(constants)
                .map(c -> c.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .toList();
    }
}
