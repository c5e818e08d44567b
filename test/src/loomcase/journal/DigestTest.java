package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import loomcase.InputProblem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Digests against published vectors, and the chain of a case against another program that computes them. */
class DigestTest {
    @TempDir
    private Path folder;

    /** NIST, FIPS 180-2 appendix B.1 and B.2, also in NIST's "Secure Hash Algorithm: example values" for SHA-256. */
    @Test
    void publishedVectors() {
        assertEquals(
                "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
                Digest.of("abc").hex());
        assertEquals(
                "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
                Digest.of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")
                        .hex());
    }

    @Test
    void fileAndBytesGiveTheSame() throws IOException {
        Path file = Files.write(folder.resolve("long"), new byte[200_001]);
        assertEquals(Digest.of(new byte[200_001]), Digest.ofFile(file));
        Path none = folder.resolve("none");
        assertEquals(
                none + ": no such file",
                assertThrows(InputProblem.class, () -> Digest.ofFile(none)).getMessage());
    }

    /** {@code sha256sum} of GNU coreutils, or of what stands in for it, over bytes cut by hand. */
    @Test
    void chainRecomputedByAnotherProgram() throws IOException, InterruptedException {
        Path file = Samples.write(folder, Samples.facts());
        List<String> inputs = new ArrayList<>();
        List<String> expected = new ArrayList<>();
        String before = "";
        for (String line : Samples.lines(file)) {
            int digestAt = line.length() - 64 - 2;
            int contentEnds = line.length() - "\"}".length() - 64 - ", \"digest\": \"".length();
            int previousAt = contentEnds - 1 - 64;
            if (before.isEmpty()) assertEquals("0".repeat(64), line.substring(previousAt, previousAt + 64));
            else {
                inputs.add(before);
                expected.add(line.substring(previousAt, previousAt + 64));
            }
            inputs.add(line.substring(0, contentEnds));
            expected.add(line.substring(digestAt, digestAt + 64));
            before = line;
        }
        assertEquals(expected, sha256sum(inputs));
    }

    private List<String> sha256sum(List<String> inputs) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("sha256sum"));
        for (int i = 0; i < inputs.size(); i++)
            command.add(Files.writeString(folder.resolve("input" + i), inputs.get(i))
                    .toString());
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, process.waitFor(), said);
        return said.lines().map(l -> l.substring(0, 64)).toList();
    }
}
