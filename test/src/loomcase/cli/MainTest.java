package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import loomcase.model.read.CircuitReader;
import loomcase.model.read.Teaching;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** What the commands print and with which code they end, held word for word. */
class MainTest {
    @TempDir
    private Path folder;

    private static Ran run(String... arguments) {
        return Ran.of(arguments);
    }

    private Path file(String name, String text) throws IOException {
        return Files.writeString(folder.resolve(name), text);
    }

    @Test
    void checkOfAGoodCircuitEndsWith0() {
        Path file = Teaching.FILE;
        assertEquals(
                new Ran(0, file + ": proved. 15 wires, 5 devices, 4 branches, 14 watches.\n", ""),
                run("check", file.toString()));
    }

    @Test
    void checkThatFailsEndsWith1AndCountsTheProblems() {
        Path file = new Teaching().with("\"amperes\": 10,", "\"amperes\": 0.5,").in(folder);
        Ran ran = run("check", file.toString());
        assertEquals(1, ran.code());
        assertTrue(
                ran.out()
                        .startsWith(
                                file + ": operating point key-on, phase rest: the healthy network opens [fuse:F1]; "),
                ran.out());
        assertTrue(ran.out().endsWith(file + ": 4 problems\n"), ran.out());
        assertEquals("", ran.err());
    }

    @Test
    void badInputEndsWith2AndOneLine() throws IOException {
        Path file = file("c.json", "{\n\"form\": \"loomcase-circuit/1\",\n\"zones\": 7}");
        assertEquals(
                new Ran(2, "", "loomcase: " + file + ": line 3: zones: must be a list [...] of objects\n"),
                run("check", file.toString()));
        Path none = folder.resolve("none.json");
        assertEquals(new Ran(2, "", "loomcase: " + none + ": no such file\n"), run("check", none.toString()));
    }

    @Test
    void binaryJunkEndsWith2() throws IOException {
        Random random = new Random(11);
        for (int i = 0; i < 50; i++) {
            byte[] junk = new byte[random.nextInt(200)];
            random.nextBytes(junk);
            Path file = Files.write(folder.resolve("junk"), junk);
            for (String command : new String[] {"check", "wires"}) {
                Ran ran = run(command, file.toString());
                assertEquals(2, ran.code(), command);
                assertTrue(ran.err().startsWith("loomcase: " + file + ": "), ran.err());
            }
        }
    }

    @Test
    void faultOfLoomcaseItselfEndsWith3InOneLine() {
        StringWriter err = new StringWriter();
        CommandLine line = new CommandLine(new Main()).addSubcommand("fail", new Failing());
        line.setErr(new PrintWriter(err));
        assertEquals(3, Main.run(line, "fail"));
        assertEquals(
                "loomcase: internal error: seven of nine; please report it with the command you ran\n", err.toString());
    }

    @Test
    void traceOfAFaultIsPrintedOnRequestOnly() {
        StringWriter err = new StringWriter();
        assertEquals(3, Main.ownFault(new StackOverflowError(), new PrintWriter(err, true), true));
        assertTrue(
                err.toString()
                        .startsWith(
                                "loomcase: internal error: StackOverflowError; please report it with the command you"
                                        + " ran\njava.lang.StackOverflowError\n\tat loomcase.cli.MainTest."),
                err.toString());
    }

    @Test
    void everyCommandShowsItsOptionsExamplesAndExitCodes() {
        for (String command : new String[] {"rank", "codes", "check", "wires"}) {
            Ran help = run(command, "--help");
            assertEquals(0, help.code());
            assertEquals("", help.err());
            for (String part : new String[] {
                "Usage: loomcase " + command,
                "-h, --help",
                "Exit codes:\n  0 ",
                "  2   bad input",
                "Example",
                "  loomcase " + command + " "
            }) assertTrue(help.out().contains(part), command + ": " + part);
        }
        assertEquals(0, run("--help").code());
    }

    /** Whoever reports a fault names the version; it is that of the last change told to contributors, and of the build. */
    @Test
    void theVersionIsThatOfTheLastChangeTold() throws IOException {
        String told = Files.readAllLines(Path.of("DEVELOPERS.md")).stream()
                .dropWhile(l -> !l.equals("## Changes"))
                .filter(l -> l.startsWith("- "))
                .findFirst()
                .orElseThrow()
                .replaceFirst("- ([0-9.]+): .*", "$1");
        assertEquals(new Ran(0, "loomcase " + told + "\n", ""), run("--version"));
        assertTrue(
                Files.readString(Path.of("pom.xml")).contains("<artifactId>loomcase</artifactId>\n  <version>" + told));
    }

    @CommandLine.Command
    private static final class Failing implements java.util.concurrent.Callable<Integer> {
        @Override
        public Integer call() {
            throw new IllegalStateException("seven\nof nine");
        }
    }

    @Test
    void wiresPrintsAPieceOfACircuitThatTheReaderTakes() throws IOException {
        String cells = "W11,AWG18,J1,6,C1,1,B1 B2,1.6,yellow,coolant temperature signal,GXL\n";
        Path csv = file(
                "list.csv",
                "wire,size,fromConnector,fromCavity,toConnector,toCavity,branch,metres,colour,circuit,insulation\n"
                        + cells);
        Ran ran = run("wires", csv.toString());
        String wire = "{\"id\":\"W11\",\"circuit\":\"coolant temperature signal\",\"from\":\"J1/6\",\"to\":\"C1/1\","
                + "\"size\":\"AWG18\",\"colour\":\"yellow\",\"insulation\":\"GXL\",\"metres\":1.6}";
        assertEquals(
                new Ran(
                        0,
                        "{\n  \"wires\": [\n    " + wire + "\n  ],\n  \"connectorsNamed\": [\n"
                                + "    {\"id\":\"J1\",\"rows\":[\"6\"]},\n    {\"id\":\"C1\",\"rows\":[\"1\"]}\n  ],\n"
                                + "  \"branchesNamed\": [\n    \"B1\",\n    \"B2\"\n  ]\n}\n",
                        ""),
                ran);
        JsonNode printed = new ObjectMapper().readTree(ran.out());
        Path merged = new Teaching()
                .with(
                        "{\"id\": \"W11\", \"circuit\": \"coolant temperature signal\", \"from\": \"J1/6\", \"to\": \"C1/1\","
                                + " \"size\": \"AWG18\", \"colour\": \"yellow\", \"insulation\": \"GXL\"}",
                        printed.at("/wires/0").toString())
                .in(folder);
        assertEquals(
                1.6, CircuitReader.read(merged).wires().get("W11").givenMetres().getAsDouble());
    }

    @Test
    void badWireListsEndWith2AndNameTheLine() throws IOException {
        Path csv = file(
                "list.csv",
                "wire,size,fromConnector,fromCavity,toConnector,toCavity,branch,metres\nW1,thick,J1,1,C1,1,B1,1\n");
        assertEquals(
                new Ran(
                        2,
                        "",
                        "loomcase: " + csv + ": line 2: size 'thick' is not a size; write it as AWG18 (0 to 40) or"
                                + " 1.5mm2\n"),
                run("wires", csv.toString()));
    }

    @Test
    void progressIsShownLateSeldomAndOnlyToAWatcher() {
        long[] now = {0};
        StringWriter seen = new StringWriter();
        ProgressLine line = new ProgressLine("checking", new PrintWriter(seen), true, () -> now[0]);
        line.share(0.1);
        assertEquals("", seen.toString());
        now[0] = 2_100_000_000L;
        line.share(0.5);
        now[0] += 1_000_000;
        line.share(0.6);
        line.clear();
        assertEquals("\rchecking:  50 %\r               \r", seen.toString());
        StringWriter unseen = new StringWriter();
        ProgressLine quiet = new ProgressLine("checking", new PrintWriter(unseen), false, () -> now[0]);
        now[0] += 9_000_000_000L;
        quiet.share(0.5);
        quiet.clear();
        assertEquals("", unseen.toString());
    }
}
