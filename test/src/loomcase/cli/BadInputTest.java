package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import loomcase.model.read.Teaching;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Every mistake of a user ends with 2 and one sentence, held word for word. */
class BadInputTest {
    private static final String FORM = "write SPN/FMI or SPN/FMIxCOUNT, as in 110/3,100/4x2";
    private static final String EITHER = "give either --log FILE or --codes SPN/FMI,... (with --stored if any)";
    private static final String LOGS = "logs of candump are read, in its log file form, as"
            + " '(1436509052.249713) can0 18FECA00#00FF00000000FFFF', or its console form";

    @TempDir
    private Path folder;

    private Path file(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }

    private static Ran rank(Object... more) {
        List<String> arguments = new ArrayList<>(List.of("rank", "--circuit", Ran.TEACHING));
        for (Object each : more) arguments.add(each.toString());
        return Ran.of(arguments);
    }

    @Test
    void noArguments() {
        Ran.of()
                .refusedWith("no command is given; commands are rank, codes, open, record, next, verdict, show, job,"
                        + " fit, claim, proof, fleet, check, drill, wires, serve, study; see 'loomcase --help'");
    }

    @Test
    void checkWithoutAFile() {
        Ran.of("check").refusedWith("missing required parameter: 'CIRCUIT|CASE'; see 'loomcase check --help'");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '"',
            value = {
                "chekc x | unknown command 'chekc' (did you mean check?); see 'loomcase --help'",
                "zzzz | unknown command 'zzzz'; see 'loomcase --help'",
                "--verbose | unknown option '--verbose' (did you mean --version?); see 'loomcase --help'",
                "rank --cirquit x | unknown option '--cirquit' (did you mean --circuit?); see 'loomcase rank --help'",
                "rank --codes 1/2 | name the circuit: --circuit FILE",
                "rank --circuit | missing required parameter for option '--circuit' (FILE); see 'loomcase rank --help'",
                "codes | missing required parameter: 'LOG'; see 'loomcase codes --help'",
                "codes a b | 'b' is one argument too many; see 'loomcase codes --help'",
                "check @args | @args: no such file",
                "rank --circuit none.json --codes 1/2 | none.json: no such file",
                "rank --circuit circuits --codes 1/2 | circuits: is a folder, not a JSON file"
            })
    void commandAndCircuit(String line, String sentence) {
        Ran.of(line.split(" ")).refusedWith(sentence);
    }

    private static Stream<Arguments> typed() {
        return Stream.of(
                Arguments.of("", EITHER),
                Arguments.of("--codes 110/3 --log x", EITHER),
                Arguments.of("--stored 110/3 --log x", EITHER),
                Arguments.of("--codes 110-3", "code '110-3' has no '/' between SPN and FMI; " + FORM),
                Arguments.of("--codes 110/x3", "code '110/x3': FMI '' is not a whole number; " + FORM),
                Arguments.of("--codes 110/3,", "a code is missing between commas in '110/3,'; " + FORM),
                Arguments.of("--codes 524288/3", "code '524288/3': SPN 524288 is outside 0..524287"),
                Arguments.of("--codes 110/32", "code '110/32': FMI 32 is outside 0..31"),
                Arguments.of("--codes 110/3x127", "code '110/3x127': count 127 is outside 1..126"),
                Arguments.of(
                        "--codes 110/3,100/4,110/3",
                        "code 110/3 is given twice in '110/3,100/4,110/3'; give it once, with its count"),
                Arguments.of(
                        "--codes 110/3 --stored 110/3", "code 110/3 is given as active and as stored; give it once"),
                Arguments.of("--codes 110/3 --at cruise", "operating point 'cruise' is not one of [key-on, idle-warm]"),
                Arguments.of("--codes 110/3 --why 0", "--why 0: there are suspects 1 to 5"),
                Arguments.of("--codes 110/3 --why 6", "--why 6: there are suspects 1 to 5"),
                Arguments.of(
                        "--codes 110/3 --why x",
                        "invalid value for option '--why': 'x' is not a whole number; see 'loomcase rank --help'"),
                Arguments.of(
                        "--codes 110/3 --json --why 1",
                        "--why is text for a person; --json holds all evidence already, so give one of them"),
                Arguments.of(
                        "--codes 110/3 --layout 0:2",
                        "--layout says how to read a log; give it with --log or leave it out"),
                Arguments.of("--codes 110/3 --rules nowhere", "nowhere: is not a folder of rules"),
                Arguments.of("--codes 110/3 --priors nowhere", "nowhere: no such file"),
                Arguments.of("--codes 110/3 --priors circuits", "circuits: cannot be read: Is a directory"),
                Arguments.of(
                        "--codes 110/3 --svg nowhere/a.svg",
                        "nowhere/a.svg: cannot be written: its folder does not exist"),
                Arguments.of("--codes 110/3 --svg circuits", "circuits: is a folder; name a file to write"));
    }

    @ParameterizedTest
    @MethodSource("typed")
    void ranking(String line, String sentence) {
        rank((Object[]) (line.isEmpty() ? new String[0] : line.split(" "))).refusedWith(sentence);
    }

    @Test
    void circuitText() throws IOException {
        Path twice = file("twice.json", "{\n\"form\": 1,\n\"form\": 2}");
        Ran.of("rank", "--circuit", twice.toString(), "--codes", "1/2")
                .refusedWith(twice + ": line 3: not valid JSON: Duplicate field 'form'");
        Path comma = file("comma.json", "{\n\"form\": \"loomcase-circuit/1\",\n}");
        Ran ran = Ran.of("rank", "--circuit", comma.toString(), "--codes", "1/2");
        ran.refusedWith(comma + ": line 3: not valid JSON: Unexpected character ('}' (code 125)): was expecting"
                + " double-quote to start field name");
        Path spelt = new Teaching().with("\"title\":", "\"titel\":").in(folder);
        Ran.of("rank", "--circuit", spelt.toString(), "--codes", "1/2")
                .refusedWith(spelt + ": line 4: titel: is not a known key; did you mean 'title'?");
    }

    @Test
    void priorsText() throws IOException {
        Path columns = file("columns.csv", "key,rate\nchafe,1\n");
        rank("--codes", "110/3", "--priors", columns)
                .refusedWith(columns + ": line 2: needs the columns of rules/priors.csv");
        Path open = file("open.csv", "key,rate_per_million_hours\n\"a,1\n");
        rank("--codes", "110/3", "--priors", open)
                .refusedWith(
                        open + ": is not a CSV file: (startline 2) EOF reached before encapsulated token finished");
        Path key = file("key.csv", "key,rate_per_million_hours\nnonsense,1\n");
        rank("--codes", "110/3", "--priors", key)
                .refusedWith(key + ": key 'nonsense' is not known; see rules/priors.csv for the keys");
        Path bytes = Files.write(folder.resolve("bytes.csv"), new byte[] {(byte) 0xC3, 0x28, 10});
        rank("--codes", "110/3", "--priors", bytes).refusedWith(bytes + ": is not UTF-8 text");
    }

    @Test
    void logs() throws IOException {
        Path none = folder.resolve("none.log");
        Path empty = file("empty.log", "");
        Path junk = Files.write(folder.resolve("junk.log"), new byte[] {0, 1, (byte) 0xFF, 10, 7});
        Path other = file("other.log", "(1.0) can0 18FECA03#04FF64000301FFFF\n");
        for (String[] command :
                List.of(new String[] {"codes"}, new String[] {"rank", "--circuit", Ran.TEACHING, "--log"})) {
            run(command, none).refusedWith(none + ": there is no such file");
            run(command, folder).refusedWith(folder + ": is a folder, not a log; name one log file");
            run(command, empty).refusedWith(empty + ": the log is empty; " + LOGS);
            run(command, junk).refusedWith(junk + ": no CAN frame in 2 lines, line 1 is '...'; " + LOGS);
        }
        rank("--log", other)
                .refusedWith("the log has no trouble message from address 0, the engine control unit; addresses in"
                        + " it: [3]");
        rank("--log", other, "--layout", "0:9")
                .refusedWith("--layout '0:9' is not ADDRESS:VERSION with version 1, 2 or 3; write it as in 0:2");
        rank("--log", other, "--layout", "300:2").refusedWith("--layout '300:2': address 300 is not within 0 to 255");
    }

    private static Ran run(String[] command, Path log) {
        List<String> arguments = new ArrayList<>(List.of(command));
        arguments.add(log.toString());
        return Ran.of(arguments);
    }

    @Test
    void failedPictureLeavesTheOldOneAndNoRemains() throws IOException {
        Path old = file("harness.svg", "<old>");
        Path blocked = folder.resolve("none").resolve("harness.svg");
        assertEquals(2, rank("--codes", "110/3", "--svg", blocked).code());
        assertEquals(2, rank("--codes", "110/3", "--why", "99", "--svg", old).code());
        assertEquals("<old>", Files.readString(old));
        assertEquals(0, rank("--codes", "110/3", "--svg", old).code());
        assertEquals("</svg>", Files.readString(old).strip().replaceAll("(?s).*(?=</svg>)", ""));
        try (Stream<Path> left = Files.list(folder)) {
            assertEquals(List.of(old), left.toList());
        }
    }
}
