package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import loomcase.Schemas;
import loomcase.journal.ClaimFact;
import loomcase.journal.Digest;
import loomcase.journal.Fact;
import loomcase.journal.JournalFile;
import loomcase.model.read.Teaching;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

/** The commands that open, fill, show and check a case, word for word. */
class CaseCommandsTest {
    private static final String TIME = "2024-05-01T10:20:30+02:00";

    @TempDir
    private Path folder;

    private Path circuit;
    private Path file;

    private record Ran(int code, String out, String err) {}

    private static Ran run(List<String> arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line =
                new CommandLine(new Main()).setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
        int code = Main.run(line, arguments.toArray(String[]::new));
        Ran ran = new Ran(code, out.toString(), err.toString());
        assertFalse((ran.out + ran.err).contains("\tat "), ran.err);
        return ran;
    }

    /** Words divided by blanks; what stands between bars keeps its blanks. */
    private Ran record(String words) {
        List<String> arguments = new ArrayList<>(List.of("record", file.toString()));
        String[] pieces = words.split("\\|");
        for (int i = 0; i < pieces.length; i++)
            if (i % 2 == 1) arguments.add(pieces[i]);
            else for (String word : pieces[i].strip().split(" +")) if (!word.isEmpty()) arguments.add(word);
        arguments.addAll(List.of("--by", "ada", "--time", TIME));
        return run(arguments);
    }

    private void recorded(int line, String sentence, String words) {
        assertEquals(new Ran(0, file + ": line " + line + " recorded: " + sentence + "\n", ""), record(words));
    }

    private void refused(String message, String words) throws IOException {
        byte[] before = Files.readAllBytes(file);
        assertEquals(new Ran(2, "", "loomcase: " + message + "\n"), record(words));
        assertEquals(Digest.of(before), Digest.ofFile(file));
    }

    /** A damaged wire seen at a rub point of which the splice stands 300 mm from its end: teaching, R1 at 0.7 of 1.0 m. */
    @Test
    void whatIsFarEnoughIsNotSaidToBeTooNearAndNothingStandsUnderAnEmptyHeading() {
        record("codes 110/4x2 --at key-on,idle-warm");
        record("reading volts C1/1 C1/2 -0.01V --at key-on --unplugged C1");
        for (int line = 0; line < 2; line++) {
            String next = run(List.of("next", file.toString())).out;
            assertFalse(next.strip().endsWith("OTHERWISE"), next);
            record("seen R1 chafe");
        }
        String verdict = run(List.of("verdict", file.toString())).out;
        assertTrue(verdict.contains("300 mm to its nearer end"), verdict);
        assertFalse(verdict.contains("is 300 mm from"), verdict);
    }

    @BeforeEach
    void open() {
        circuit = new Teaching().in(folder);
        file = folder.resolve("case.jsonl");
        Ran ran = run(List.of(
                "open",
                file.toString(),
                "--circuit",
                circuit.toString(),
                "--complaint",
                "lamp on, derate",
                "--by",
                "ada",
                "--time",
                TIME,
                "--unit",
                "T-7",
                "--hours",
                "120.5"));
        assertEquals(
                new Ran(
                        0,
                        file + ": line 1 recorded: case opened for circuit teaching, digest "
                                + JournalFile.read(file).last() + "\n",
                        ""),
                ran);
    }

    @Test
    void openingNamesTheCircuitFromTheFolderOfTheCase() {
        Fact.Opened opened = JournalFile.read(file).opened();
        assertEquals("c.json", opened.circuit().file());
        assertEquals(Digest.ofFile(circuit), opened.circuit().digest());
    }

    @Test
    void openingRefusesWhatCannotBeACase() throws IOException {
        assertEquals(
                new Ran(2, "", "loomcase: " + file + ": exists already; a new case needs a new file\n"),
                run(List.of("open", file.toString(), "--circuit", circuit.toString(), "--complaint", "x")));
        assertEquals(
                new Ran(2, "", "loomcase: " + folder.resolve("case.txt") + ": a case file ends in .jsonl\n"),
                run(List.of(
                        "open",
                        folder.resolve("case.txt").toString(),
                        "--circuit",
                        circuit.toString(),
                        "--complaint",
                        "x")));
        Path other = folder.resolve("other.jsonl");
        assertEquals(
                new Ran(2, "", "loomcase: complaint is empty\n"),
                run(List.of("open", other.toString(), "--circuit", circuit.toString(), "--complaint", " ")));
        assertFalse(Files.exists(other));
    }

    @Test
    void everyKindIsRecordedShownAndFitsTheSchema() throws IOException {
        everyKind();
        for (String line : Files.readAllLines(file))
            assertEquals(List.of(), Schemas.errors(Schemas.of("case.schema.json"), line), line);
        String digest = JournalFile.read(file).last().hex();
        assertEquals(
                new Ran(0, file + ": sound. 16 lines, 1 corrected. Last digest " + digest + ".\n", ""),
                run(List.of("check", file.toString())));
        Ran shown = run(List.of("show", file.toString()));
        assertEquals(0, shown.code);
        String head = "complaint: lamp on, derate\ncircuit:   teaching (c.json)\nunit:      T-7\nhours:     120.5\n\n"
                + "   1  2024-05-01 10:20:30 +02:00  ada: opened: lamp on, derate\n";
        assertTrue(shown.out.startsWith(head), shown.out);
        assertTrue(
                shown.out.contains("   3  2024-05-01 10:20:30 +02:00  ada: volts C1/1 to chassis: 4.98 V (key-on)\n"
                        + "      no longer holds: corrected by line 16\n"),
                shown.out);
        assertTrue(shown.out.endsWith("\n\nstill open: cover\nlast digest " + digest + "\n"), shown.out);
    }

    private void everyKind() {
        recorded(
                2,
                "codes active 110/3x4, stored 100/4; lamps lit: amber warning (looked at key-on, idle-warm)",
                "codes 110/3x4 --stored 100/4 --at key-on,idle-warm --lamps amber-warning");
        recorded(3, "volts C1/1 to chassis: 4.98 V (key-on)", "reading volts C1/1 chassis 4.98V --at key-on");
        recorded(
                4,
                "ohms J1/4 to C1/1: open (key-off; unplugged J1, C1, leads 0.2 ohm taken off)",
                "reading ohms J1/4 C1/1 open --unplugged J1,C1 --lead-zero 0.2ohm --meter bench --meter-ohms 10M");
        recorded(
                5,
                "volts chassis to C1/1: -4.98 V (key-on; wires at -5 °C)",
                "reading volts chassis C1/1 -4.98V --at key-on --wires-at -5");
        recorded(6, "unplug and watch: active 110/3 (key-on; unplugged C1)", "watched unplug C1 110/3 --at key-on");
        recorded(
                7,
                "jumper and watch: active none (key-on, phase rest; unplugged C1; jumper C1/1 to C1/2 through 1000 ohm)",
                "watched jumper C1/1:C1/2:1kohm none --at key-on --phase rest --unplugged C1");
        recorded(
                8,
                "wiggle at rub point R1 on branch B1: response, 110/4 came up (key-on)",
                "moved wiggle R1 yes --what |110/4 came up| --at key-on");
        recorded(9, "heat at splice S1: no response (idle-warm)", "moved heat S1 no --at idle-warm");
        recorded(10, "seen at connector C1: green copper, two cavities", "seen C1 green-copper --note |two cavities|");
        recorded(11, "swapped device OPS with device MAP: codes stayed", "swapped OPS MAP stayed");
        recorded(12, "access opened: cover", "access open cover");
        recorded(13, "reseated cavity C1/1", "work reseated C1/1");
        recorded(14, "cleared codes", "work cleared-codes");
        recorded(15, "refused test volts C1/1: seized", "refused |volts C1/1| seized");
        recorded(
                16,
                "correction of line 3: volts C1/1 to chassis: 4.89 V (key-on)",
                "correct 3 reading volts C1/1 chassis 4.89V --at key-on");
    }

    @Test
    void codesComeFromALogWithItsDigest() throws IOException {
        Path log = Files.writeString(
                folder.resolve("bus.log"),
                "(0.000000) can0 18FECA00#04FF6E000304FFFF\n(1.000000) can0 18FECA00#04FF6E000304FFFF\n");
        Ran ran = record("codes --log |" + log + "| --at key-on");
        assertEquals(
                file + ": line 2 recorded: codes active 110/3x4; lamps lit: amber warning (looked at key-on, from"
                        + " bus.log)\n",
                ran.out);
        assertEquals(0, ran.code, ran.err);
        Fact.Codes codes = (Fact.Codes) JournalFile.read(file).entries().get(1).fact();
        assertEquals(Digest.ofFile(log), codes.log().orElseThrow().digest());
    }

    @Test
    void oddReadingWaitsForConfirmation() {
        String reason = "17.2 V is above 16 V, more than a 12 V system gives";
        assertEquals(
                new Ran(1, "", "loomcase: not recorded: " + reason + "; if it is so, repeat with --confirm\n"),
                record("reading volts J1/1 chassis 17.2V --at key-on"));
        assertEquals(1, JournalFile.read(file).entries().size());
        recorded(2, "volts J1/1 to chassis: 17.2 V (key-on)", "reading volts J1/1 chassis 17.2V --at key-on --confirm");
        assertTrue(run(List.of("show", file.toString())).out.contains("\n      confirmed although " + reason + "\n"));
        assertEquals(0, run(List.of("check", file.toString())).code);
        recorded(3, "note: fine", "note fine --confirm");
        assertTrue(JournalFile.read(file).entries().get(2).stamp().confirmed().isEmpty());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '>',
            value = {
                "reading volts C1/1 chassis 5ohm --at key-on>not recorded: a volts test gives volts, the reading 5 ohm is in"
                        + " ohms",
                "reading ohms C1/1 J1/6 5ohm --at key-on>not recorded: ohms on a powered circuit harm the meter and mean"
                        + " nothing, and the setup is key-on; key off first, then record it at key-off",
                "reading volts C1/1 chassis 5V>give --at with an operating point such as key-on, or --at key-off",
                "reading volts C1/1 chassis 5V --att key-on>option --att is not known; loomcase record CASE reading --help"
                        + " lists them",
                "reading volts C1/1 5V --at key-on>a reading has four words, TEST A B VALUE, as in volts C1/1 chassis"
                        + " 4.98V; given are 3: volts C1/1 5V",
                "reading amperes C1/1 chassis 5V --at key-on>test 'amperes' is not one of volts, ohms, drop, isolation",
                "reading volts C1/1 chassis 5V --at key-on --phase slot>not recorded: phase of operating point key-on"
                        + " 'slot' is not in circuit teaching; there are rest, drive",
                "codes>give either the codes, such as 110/3x4, 'none' if there were none, or --log FILE",
                "codes 110/3 --at key-no>operating point 'key-no' is not one of [key-on, idle-warm]",
                "codes 110/3 --at key-on --lamps blue>lamp 'blue' is not one of malfunction, red-stop, amber-warning,"
                        + " protect, nor alone none",
                "watched unplug C1 110/3x2 --at key-on>'110/3x2': counts are for codes that were read; give SPN/FMI alone",
                "watched unplug C1 110/3 --at key-off>not recorded: codes can only be watched with the key on",
                "watched pull C1 110/3 --at key-on>method 'pull' is not one of unplug, jumper",
                "moved wiggle C1 maybe --at key-on>'maybe' is neither yes nor no: did what was watched change?",
                "moved wiggle C1 yes --at key-on>say with --what what changed",
                "seen C11 chafe>place 'C11' is not in circuit teaching; did you mean 'C1'?",
                "swapped OPS OPS stayed>not recorded: device OPS cannot be swapped with itself",
                "swapped ECT OPS followed>not recorded: ECT is a ntc and OPS a ratiometric; only like parts can be swapped",
                "swapped ECT C1 followed>not recorded: connector C1 is no part that can be swapped; name two devices",
                "access lift cover>'lift' is neither open nor close",
                "access open covr>not recorded: access step 'covr' is not in circuit teaching; did you mean 'cover'?",
                "work repaired>not recorded: repaired needs the place where it was done",
                "work cleared-codes C1>not recorded: cleared-codes takes no place",
                "work polished C1>work 'polished' is not one of repaired, replaced, reseated, cleaned, rerouted,"
                        + " cleared-codes",
                "correct 1>say what line 1 should have said: opened, codes, reading, watched, moved, seen, swapped, gauged, access,"
                        + " work, refused, photo, kept, part, chose, approved, note; a note if nothing should stand there",
                "correct 1 note x>FILE: line 1 opens the case; only another opening can stand in its place",
                "correct 0 note x>not recorded: lines count from 1, not 0"
            })
    void refusalsWordForWord(String words, String message) throws IOException {
        refused(message.replace("FILE:", file + ":"), words);
    }

    @Test
    void findingsAreListedForAWrongWord() throws IOException {
        refused(
                "finding 'rust' is not one of clean, chafe, cut, melted, pinched, broken-strands, green-copper,"
                        + " oil-in-plug, water-in-plug, coolant-in-plug, pushed-out-terminal, spread-terminal, bent-pin,"
                        + " burnt-terminal, missing-seal, loose-latch, not-plugged-in, blown-fuse, loose-stud,"
                        + " missing-clip, earlier-repair",
                "seen C1 rust");
    }

    @Test
    void recordAloneListsTheKinds() {
        assertEquals(
                new Ran(
                        2,
                        "",
                        "loomcase: say what to record: codes, reading, watched, moved, seen, swapped, gauged, access, work,"
                                + " refused, photo, kept, part, chose, approved, note, correct\n"),
                run(List.of("record", file.toString())));
        assertEquals(
                new Ran(2, "", "loomcase: " + folder + "/none.jsonl: no such file\n"),
                run(List.of("record", folder + "/none.jsonl", "note", "x")));
        assertEquals(
                new Ran(2, "", "loomcase: --time 'noon' is no time with offset, such as 2024-05-01T10:20:30+02:00\n"),
                run(List.of("record", file.toString(), "note", "x", "--time", "noon")));
    }

    @Test
    void changedCircuitStopsTheCaseUntilItIsSaid() throws IOException {
        Files.writeString(circuit, Files.readString(circuit) + "\n");
        String message = file + ": circuit file " + circuit + " changed since the case was opened; if that is meant,"
                + " run: loomcase record " + file + " correct 1 opened --circuit " + circuit;
        refused(message, "note x");
        assertEquals(new Ran(1, message + "\n" + file + ": 1 problem\n", ""), run(List.of("check", file.toString())));
        recorded(2, "correction of line 1: opened: lamp on, derate", "correct 1 opened --circuit |" + circuit + "|");
        assertEquals(0, run(List.of("check", file.toString())).code);
        assertEquals("T-7", JournalFile.read(file).opened().unit().orElseThrow());
    }

    @Test
    void aCircuitThatIsNotWhereItWasIsSaidWithTheCaseAndTheWayBack() throws IOException {
        Path moved = Files.move(circuit, folder.resolve("moved.json"));
        refused(
                file + ": circuit file " + circuit
                        + ", which its opening names, is not there; put it back, or say where"
                        + " it is now with: loomcase record " + file + " correct 1 opened --circuit CIRCUIT",
                "note x");
        recorded(2, "correction of line 1: opened: lamp on, derate", "correct 1 opened --circuit |" + moved + "|");
        recorded(3, "note: x", "note x");
    }

    /** An empty word, as a script passes it on, is no statement that there were no codes. */
    @Test
    void anEmptyWordIsNotTakenForNoCodes() {
        Ran ran = run(List.of("record", file.toString(), "codes", ""));
        assertEquals(2, ran.code);
        assertTrue(ran.err.contains("'none' if there were none"), ran.err);
        assertEquals(1, JournalFile.read(file).entries().size());
    }

    /** Larch 13 has two rub points on BE2; a coolant signal shorted to ground may have been worn through at either. */
    @Test
    void theRubPointThatIsWornIsNamedAndNotTheOtherOfItsBranch() {
        Path worn = folder.resolve("worn.jsonl");
        run(List.of("open", worn.toString(), "--circuit", "circuits/larch-13.json", "--complaint", "gauge pegged"));
        List<List<String>> lines = List.of(
                List.of("codes", "110/4", "--at", "key-on,idle-warm"),
                List.of("reading", "volts", "C-ECT/1", "C-ECT/2", "0.01V", "--at", "key-on", "--unplugged", "C-ECT"),
                List.of("seen", "R3", "chafe"));
        for (List<String> line : lines) {
            if (line.get(0).equals("seen")) {
                String before = next(worn);
                assertTrue(before.contains("% one of 20 faults not told apart yet, likeliest: branch BE2"), before);
            }
            List<String> words = new ArrayList<>(List.of("record", worn.toString()));
            words.addAll(line);
            assertEquals(0, run(words).code);
        }
        String after = next(worn);
        assertTrue(after.startsWith("7"), after);
        assertTrue(after.contains("% branch BE2 (front trunk along the rail) worn through at R3"), after);
        assertTrue(after.indexOf("worn through at R2") > after.indexOf("W208 (coolant"), after);
        assertFalse(after.contains("look at branch BE2"), after);
    }

    /** A loose stud does not explain a low battery on the teaching circuit; nobody is sent to it as if it did. */
    @Test
    void whereTheModelExplainsNothingNobodyIsSentToTheFirstPlace() {
        record("codes 168/4 --at key-on,idle-warm");
        record("seen G1 loose-stud");
        String next = next(file);
        assertTrue(next.contains("% nothing in this model explains what was seen"), next);
        assertTrue(
                next.contains("most likely nothing in this model explains what was seen; read the codes again"), next);
        assertFalse(next.contains("go to the first place"), next);
    }

    private static String next(Path file) {
        return run(List.of("next", file.toString())).out.replaceAll("\\s+", " ").strip();
    }

    @Test
    void checkNamesTheLineThatWasEditedAndTheDigestThatIsGone() throws IOException {
        recorded(2, "note: one", "note one");
        String digest = JournalFile.read(file).last().hex();
        recorded(3, "note: two", "note two");
        assertEquals(0, run(List.of("check", file.toString(), "--last", digest)).code);
        List<String> lines = new ArrayList<>(Files.readAllLines(file));
        Files.writeString(file, lines.get(0) + "\n");
        assertEquals(
                new Ran(
                        1,
                        file + ": no line has the digest " + digest + "; lines were removed from the end, or the case"
                                + " was written anew\n" + file + ": 1 problem\n",
                        ""),
                run(List.of("check", file.toString(), "--last", digest)));
        lines.set(1, lines.get(1).replace("one", "won"));
        Files.writeString(file, String.join("\n", lines) + "\n");
        String edited = file + ": line 2: was edited after it was written: its digest does not fit its content\n";
        assertEquals(new Ran(1, edited + file + ": 1 problem\n", ""), run(List.of("check", file.toString())));
        assertEquals(new Ran(2, "", "loomcase: " + edited), run(List.of("show", file.toString())));
        assertEquals(
                new Ran(2, "", "loomcase: --last 'xyz' is not a digest; it has 64 digits 0 to 9 and a to f\n"),
                run(List.of("check", file.toString(), "--last", "xyz")));
    }

    /** Facts added past the command line are held to the circuit all the same. */
    @Test
    void checkNamesLinesThatDoNotFitTheCircuit() {
        var stamp = loomcase.journal.Entry.Stamp.of(java.time.OffsetDateTime.parse(TIME), "ada");
        JournalFile.append(file, new Fact.OpenedAccess("roof"), stamp);
        recorded(3, "note: two", "note two");
        recorded(4, "volts J1/1 to chassis: 15.9 V (key-on)", "reading volts J1/1 chassis 15.9V --at key-on");
        Fact.Reading odd =
                (Fact.Reading) JournalFile.read(file).entries().get(3).fact();
        Fact.Reading hot = new Fact.Reading(
                odd.test(), odd.a(), odd.b(), loomcase.journal.Shown.parse("16.5V"), odd.setup(), odd.meter());
        JournalFile.append(file, new Fact.Correction(4, hot), stamp);
        assertEquals(
                new Ran(
                        1,
                        file + ": line 2: access step 'roof' is not in circuit teaching; there are cover, fan-guard,"
                                + " battery-box\n" + file + ": line 5: 16.5 V is above 16 V, more than a 12 V system"
                                + " gives; nobody confirmed it\n" + file + ": 2 problems\n",
                        ""),
                run(List.of("check", file.toString())));
    }

    @Test
    void tornLineIsSaidAndTheWorkGoesOn() throws IOException {
        Files.writeString(file, Files.readString(file) + "{\"n\": 2");
        Ran shown = run(List.of("show", file.toString()));
        assertEquals(0, shown.code);
        assertTrue(shown.err.endsWith("its 7 bytes are left out\n"), shown.err);
        Ran ran = record("note again");
        assertEquals(file + ": line 2 recorded: note: again\n", ran.out);
        assertEquals(
                "loomcase: " + file + ": the last line was torn, as after a kill or a power cut; its 7 bytes were moved"
                        + " to " + file + ".torn, what it said must be recorded again\n",
                ran.err);
    }

    @Test
    void whatAClerkNeedsIsRecorded() throws IOException {
        Files.writeString(folder.resolve("clip.jpg"), "photo");
        String photo = folder.resolve("clip.jpg").toString();
        recorded(
                2,
                "photo clip.jpg, close up of rub point R1 on branch B1: wire rubbed through",
                "photo close-up |" + photo + "| |wire rubbed through| --place R1");
        recorded(
                3,
                "part signal wire, number W-1, 0.40 at 12.50, causal, at wire W11",
                "part causal wire |signal wire| --number W-1 --quantity 0.40 --price 12.50 --place W11");
        recorded(4, "kept signal wire, tag 17, shelf 3", "kept |signal wire| --tag 17 --where |shelf 3|");
        recorded(
                5,
                "chose splice repair for rub point R1 on branch B1, failed by rub, one wire hurt",
                "chose splice-repair R1 --damage rub --reason |one wire hurt|");
        recorded(
                6,
                "approval of overtime: desk, number A-12, 2024-05-02",
                "approved overtime --approver desk --number A-12 --date 2024-05-02");
        recorded(7, "repaired splice S1, crimped, 42.5 min", "work repaired S1 --note crimped --minutes 42.5");
        ClaimFact.Photo read =
                (ClaimFact.Photo) JournalFile.read(file).entries().get(1).fact();
        assertEquals(Digest.of("photo"), read.digest());
        refused(
                "option 'patch' is not one of monitor, reseat, terminal, pigtail, splice-repair, overlay-wire,"
                        + " branch-section, full-harness, fuse, device, control-unit",
                "chose patch R1");
        recorded(
                8,
                "chose terminal for cavity C1/1 and device for device OPS, both out",
                "chose terminal C1/1 --also device OPS --reason |both out|");
        refused(
                "not recorded: full-harness is not done together with a second repair",
                "chose terminal C1/1 --also full-harness B1");
        refused(
                "not recorded: monitor is not done together with a second repair",
                "chose monitor C1 --also device OPS");
        refused(
                "--also: give it once; two repairs are the most in one visit",
                "chose terminal C1/1 --also device OPS --also device ECT");
        refused(
                "not recorded: the second repair is the first once more, at device OPS; allowed is another place or"
                        + " option, or one repair alone",
                "chose device OPS --also device OPS");
        refused("not recorded: quantity is 0; allowed is over 0", "part used other tape --quantity 0");
        refused("--date '2.5.2024' is no date such as 2024-05-01", "approved overtime --date 2.5.2024");
        refused("--date '2024-02-30' is no day of the calendar", "approved overtime --date 2024-02-30");
        refused(
                "invalid value for option '--price': '1,50' is not a number such as 12.50; see 'loomcase record part"
                        + " --help'",
                "part used other tape --price 1,50");
        refused(folder.resolve("none.jpg") + ": no such file", "photo tag |" + folder.resolve("none.jpg") + "| tag");
    }
}
