package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import loomcase.InputProblem;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whatever is done to the lines of a case, the line at fault is named. */
class ChainTest {
    private static final String EDITED = "was edited after it was written: its digest does not fit its content";
    private static final String FORM =
            "was edited: it no longer has the form {\"n\": …, … \"previous\": \"…\", \"digest\": \"…\"}";
    private static final ObjectMapper MAPPER = new ObjectMapper();

    @TempDir
    private Path folder;

    private Path file;
    private List<String> lines;

    @BeforeEach
    void write() {
        file = Samples.write(folder, Samples.facts());
        lines = Samples.lines(file);
    }

    private List<String> problems() {
        return JournalFile.chainProblems(Samples.put(file, lines));
    }

    @Test
    void untouchedIsSound() {
        assertEquals(List.of(), problems());
    }

    /** Every value in every line, at any depth, changed by the length of one letter or digit. */
    @Test
    void everyFieldOfEveryKindIsCovered() throws IOException {
        int tampered = 0;
        for (int i = 0; i < lines.size(); i++) {
            List<String> pointers = new ArrayList<>();
            leaves(MAPPER.readTree(lines.get(i)), "", pointers);
            for (String pointer : pointers) {
                String original = lines.get(i);
                lines.set(i, tampered(original, pointer));
                List<String> said = problems();
                assertEquals(1, said.size(), pointer + " of " + original + ": " + said);
                assertTrue(
                        said.get(0).equals("line " + (i + 1) + ": " + EDITED)
                                || said.get(0).equals("line " + (i + 1) + ": " + FORM),
                        pointer + ": " + said);
                lines.set(i, original);
                tampered++;
            }
        }
        assertTrue(tampered > 200, "only " + tampered + " fields");
    }

    /** Every single byte of one line, so that keys, blanks and brackets are covered too. */
    @Test
    void everyByteOfALineIsCovered() throws IOException {
        byte[] bytes = Files.readAllBytes(file);
        int start = lines.get(0).getBytes(java.nio.charset.StandardCharsets.UTF_8).length + 1;
        for (int i = start; bytes[i] != '\n'; i++) {
            bytes[i] ^= 1;
            boolean split = bytes[i] == '\n';
            Files.write(file, bytes);
            List<String> said = JournalFile.chainProblems(file);
            assertTrue(!said.isEmpty() && said.get(0).startsWith("line 2: was edited"), i + ": " + said);
            bytes[i] ^= 1;
            assertTrue(!split);
        }
    }

    @Test
    void removedLinesAreNamed() {
        lines.remove(4);
        assertEquals(List.of("line 5: holds entry 6; entry 5 was before it removed"), problems());
        lines.remove(4);
        assertEquals(List.of("line 5: holds entry 7; entries 5 to 6 were before it removed"), problems());
    }

    @Test
    void removedFirstLineIsNamed() {
        lines.remove(0);
        assertEquals(List.of("line 1: holds entry 2; entry 1 was before it removed"), problems());
    }

    @Test
    void swappedLinesAreNamed() {
        Collections.swap(lines, 3, 4);
        assertEquals(
                List.of("line 4: is out of order: it holds entry 5", "line 5: is out of order: it holds entry 4"),
                problems());
    }

    @Test
    void insertedLineIsNamedWhoeverForgedIt() {
        Digest before = Digest.of(lines.get(3));
        String forged = new String(
                EntryLine.write(5, Samples.STAMP, new Fact.Note("forged"), before),
                java.nio.charset.StandardCharsets.UTF_8);
        lines.add(4, forged.strip());
        assertEquals(List.of("line 5: was inserted: line 6 follows line 4 directly"), problems());
        lines.set(4, lines.get(2));
        assertEquals(List.of("line 5: was inserted: line 6 follows line 4 directly"), problems());
    }

    @Test
    void lineEditedTogetherWithItsDigestIsNamedByTheNext() {
        Digest before = Digest.of(lines.get(3));
        lines.set(
                4,
                new String(
                                EntryLine.write(5, Samples.STAMP, new Fact.Note("forged"), before),
                                java.nio.charset.StandardCharsets.UTF_8)
                        .strip());
        assertEquals(
                List.of("line 5: was edited after it was written: line 6 was chained to another text"), problems());
    }

    @Test
    void lineOfAnotherCaseIsNamed() throws IOException {
        Path other = Files.createDirectory(folder.resolve("other"));
        Path foreign = Samples.write(other, List.of(new Fact.Note("a"), new Fact.Note("b"), new Fact.Note("c")));
        lines.add(2, Samples.lines(foreign).get(3));
        assertTrue(problems().get(0).startsWith("line 3: "), problems().toString());
    }

    @Test
    void severalEditsAreAllNamed() {
        lines.set(2, lines.get(2).replace("key-on", "key-of"));
        lines.set(7, "nonsense");
        assertEquals(List.of("line 3: " + EDITED, "line 8: " + FORM), problems());
    }

    @Test
    void lineEndsOfAnotherSystemAreNamed() throws IOException {
        Files.writeString(file, String.join("\r\n", lines) + "\r\n");
        assertEquals(
                "line 1: was edited: it ends in CR LF, as some editors save; a case has LF alone",
                JournalFile.chainProblems(file).get(0));
    }

    /** The known limit: without the last digest, a cut at the end leaves a sound shorter case. */
    @Test
    void cutAtTheEndShowsOnlyInTheLastDigest() {
        Digest last = JournalFile.read(file).last();
        lines.remove(lines.size() - 1);
        assertEquals(List.of(), problems());
        assertTrue(!JournalFile.read(file).last().equals(last));
    }

    @Test
    void brokenChainIsNeitherReadNorAddedTo() throws IOException {
        lines.set(2, lines.get(2).replace("key-on", "key-of"));
        Samples.put(file, lines);
        byte[] before = Files.readAllBytes(file);
        String message = file + ": line 3: " + EDITED;
        assertEquals(
                message,
                assertThrows(InputProblem.class, () -> JournalFile.read(file)).getMessage());
        assertEquals(
                message,
                assertThrows(InputProblem.class, () -> JournalFile.append(file, new Fact.Note("more"), Samples.STAMP))
                        .getMessage());
        org.junit.jupiter.api.Assertions.assertArrayEquals(before, Files.readAllBytes(file));
    }

    private static void leaves(JsonNode node, String at, List<String> out) {
        if (node instanceof ObjectNode o) o.properties().forEach(e -> leaves(e.getValue(), at + "/" + e.getKey(), out));
        else if (node instanceof ArrayNode)
            for (int i = 0; i < node.size(); i++) leaves(node.get(i), at + "/" + i, out);
        else out.add(at);
    }

    /** The line with one value changed, keeping its spacing. */
    private static String tampered(String line, String pointer) throws IOException {
        JsonNode root = MAPPER.readTree(line);
        int slash = pointer.lastIndexOf('/');
        JsonNode owner = slash == 0 ? root : root.at(pointer.substring(0, slash));
        String key = pointer.substring(slash + 1);
        JsonNode value = root.at(pointer);
        JsonNode other = value.isTextual()
                ? MAPPER.getNodeFactory().textNode(flip(value.asText()))
                : value.isBoolean()
                        ? MAPPER.getNodeFactory().booleanNode(!value.asBoolean())
                        : MAPPER.getNodeFactory().numberNode(value.asInt() + 1);
        if (owner instanceof ObjectNode o) o.set(key, other);
        else ((ArrayNode) owner).set(Integer.parseInt(key), other);
        return spaced(root);
    }

    private static String flip(String text) {
        char first = text.charAt(0);
        return (first == '0' ? '1' : '0') + text.substring(1);
    }

    /** Jackson's compact text with a blank after each colon and comma that stands outside a text. */
    private static String spaced(JsonNode node) {
        StringBuilder out = new StringBuilder();
        boolean inside = false;
        String text = node.toString();
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c == '"' && (i == 0 || text.charAt(i - 1) != '\\')) inside = !inside;
            out.append(c);
            if (!inside && (c == ':' || c == ',')) out.append(' ');
        }
        return out.toString();
    }
}
