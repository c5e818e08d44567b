package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FleetCommandTest {
    @TempDir
    Path folder;

    private Path list;
    private Path out;

    @BeforeEach
    void write() throws IOException {
        list = folder.resolve("list.jsonl");
        out = folder.resolve("out.jsonl");
        String circuit = Path.of("circuits/teaching.json").toAbsolutePath().toString();
        StringBuilder text = new StringBuilder();
        for (String codes : List.of("110/3", "100/4", "bad", "110/3,100/4"))
            text.append("{\"circuit\": \"" + circuit + "\", \"codes\": \"" + codes + "\"}\n");
        Files.writeString(list, text.toString());
    }

    private Ran fleet(Object... more) {
        List<String> all = new java.util.ArrayList<>(List.of("fleet", list.toString(), "--brief"));
        Arrays.stream(more).map(Object::toString).forEach(all::add);
        return Ran.of(all.toArray(String[]::new));
    }

    @Test
    void saysByItsExitCodeThatSomeLinesHoldErrors() {
        Ran ran = fleet();
        assertEquals(Main.NOT_SETTLED, ran.code());
        assertEquals(4, ran.out().lines().count());
        assertEquals(
                "1 of 4 cases could not be answered; their lines say why",
                ran.err().strip());
    }

    @Test
    void aRunStoppedAnywhereGoesOnToTheSameBytes() throws IOException {
        assertEquals(Main.NOT_SETTLED, fleet("--out", out).code());
        byte[] whole = Files.readAllBytes(out);
        for (int cut = 0; cut <= whole.length; cut += Math.max(1, whole.length / 23)) {
            Files.write(out, Arrays.copyOf(whole, cut));
            fleet("--out", out, "--resume");
            assertEquals(new String(whole), Files.readString(out), "cut after " + cut + " bytes");
        }
    }

    @Test
    void doesNotTouchAFileOfAnswersUnlessToldToGoOn() throws IOException {
        Files.writeString(out, "{\"n\":1,\"answer\":{}}\n");
        Ran ran = fleet("--out", out);
        assertEquals(Main.BAD_INPUT, ran.code());
        assertTrue(
                ran.err().contains(out + ": exists already; go on with it by --resume, or name another file"),
                ran.err());
        Files.writeString(out, "something else\n");
        Ran other = fleet("--out", out, "--resume");
        assertEquals(Main.BAD_INPUT, other.code());
        assertTrue(other.err().contains("line 1: is not answer 1 of a fleet"), other.err());
        assertEquals("something else\n", Files.readString(out));
    }

    @Test
    void refusesWhatMakesNoSense() {
        assertEquals(Main.BAD_INPUT, fleet("--resume").code());
        assertEquals(Main.BAD_INPUT, fleet("--workers", 0).code());
        assertEquals(Main.BAD_INPUT, Ran.of("fleet", "nowhere.jsonl").code());
        assertEquals(Main.BAD_INPUT, Ran.of("fleet", folder.toString()).code());
    }
}
