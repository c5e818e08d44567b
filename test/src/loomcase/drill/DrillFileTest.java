package loomcase.drill;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import loomcase.InputProblem;
import loomcase.faults.FaultGenerator;
import loomcase.faults.Hypothesis;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Drill files: what they tell, whom they open for, and that a seed means one drill. */
class DrillFileTest {
    /** Few rounds, so that many files can be made; the format is the same. */
    private static final int FEW = Vault.LEAST_ITERATIONS;

    private static final Path SEEDS = Path.of("test/data/drill/seeds.txt");

    @TempDir
    private Path folder;

    private static Planter.Made made(String id, long seed) {
        return new Planter(Shops.TEACHING).plant(List.of(id), Optional.of(Showing.ALWAYS), true, seed);
    }

    private Path written(String name, Planter.Made made) {
        Path file = folder.resolve(name + DrillFile.ENDING);
        DrillFile.write(file, made.drill(Shops.NOWHERE, "medium", Limits.NONE), made.truth(), Shops.PASSPHRASE, FEW);
        return file;
    }

    @Test
    void aFileGivesBackWhatWasSealedToProgramAndInstructor() {
        Planter.Made made = made("splice.open S2", 4);
        DrillFile read = DrillFile.read(written("a", made));
        assertEquals(made.truth(), read.truth());
        assertEquals(made.truth(), read.truth(Shops.PASSPHRASE));
        assertEquals(made.drill(Shops.NOWHERE, "medium", Limits.NONE), read.drill());
        InputProblem wrong = assertThrows(InputProblem.class, () -> read.truth("open sesami".toCharArray()));
        assertEquals(read.file() + ": the passphrase does not open this drill", wrong.getMessage());
    }

    /** Every id, place and sentence of the circuit's faults is looked for in the bytes of many drills. */
    @Test
    void plainBytesTellNothing() throws IOException {
        List<Hypothesis> all = new FaultGenerator(
                        Shops.TEACHING.circuit(), Shops.TEACHING.layout(), Shops.TEACHING.priors())
                .generate();
        TreeSet<String> telling = new TreeSet<>();
        for (Hypothesis h : all) {
            telling.add(h.id());
            telling.add(h.family());
            telling.add(h.words());
            h.places().forEach(p -> telling.add(p.id()));
        }
        telling.remove(FaultGenerator.NOTHING);
        telling.remove("none");
        TreeSet<Integer> lengths = new TreeSet<>();
        int files = 0;
        for (Hypothesis h : all) {
            if (!(h.cause() instanceof Hypothesis.Fixed f) || f.edits().isEmpty()) continue;
            Truth truth = Shops.truth(h.id(), Showing.ALWAYS, 11);
            Path file = folder.resolve("d" + files++ + DrillFile.ENDING);
            DrillFile.write(file, Shops.workshop(truth).drill(), truth, Shops.PASSPHRASE, FEW);
            String bytes = new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
            for (String t : telling) assertFalse(bytes.contains(t), file + " tells '" + t + "' of " + h.id());
            lengths.add(DrillFile.read(file).vault().content().length);
        }
        assertTrue(files > 200, files + " drills were made");
        assertEquals(1, lengths.size(), "sealed lengths differ: " + lengths);
    }

    @Test
    void twoSealsOfOneDrillShareNoBytesThatCouldBeCompared() {
        Planter.Made made = made("splice.open S2", 4);
        Vault a = DrillFile.read(written("a", made)).vault();
        Vault b = DrillFile.read(written("b", made)).vault();
        assertNotEquals(Vault.hex(a.content()), Vault.hex(b.content()));
        assertNotEquals(Vault.hex(a.program()), Vault.hex(b.program()));
    }

    @ParameterizedTest
    @CsvSource({"'warning lamp on', 'warning lamp is on'", "'\"hintMinutes\" : 20.0', '\"hintMinutes\" : 1.0'"})
    void aChangedFileDoesNotOpen(String old, String now) throws IOException {
        Path file = written("a", made("splice.open S2", 4));
        String text = Files.readString(file);
        assertTrue(text.contains(old), text);
        Files.writeString(file, text.replace(old, now));
        InputProblem changed =
                assertThrows(InputProblem.class, () -> DrillFile.read(file).truth());
        assertEquals(file + ": was changed after it was sealed; ask for it anew", changed.getMessage());
    }

    /** AES-GCM and PBKDF2 as the Java platform has them, put together here once more from the words of the format. */
    @Test
    void theSealIsWhatTheFileSaysItIs() throws Exception {
        Planter.Made made = made("splice.open S2", 4);
        Vault v = DrillFile.read(written("a", made)).vault();
        byte[] outer = javax.crypto.SecretKeyFactory.getInstance("PBKDF2WithHmacSHA256")
                .generateSecret(new javax.crypto.spec.PBEKeySpec(Shops.PASSPHRASE, v.salt(), FEW, 256))
                .getEncoded();
        byte[] key = gcm(outer, v.instructor(), v.salt());
        byte[] bound =
                DrillJson.open(made.drill(Shops.NOWHERE, "medium", Limits.NONE)).getBytes(StandardCharsets.UTF_8);
        String text = new String(gcm(key, v.content(), bound), StandardCharsets.UTF_8);
        assertTrue(text.contains("splice.open S2"), text);
        assertEquals(0, text.length() % 4096);
    }

    private static byte[] gcm(byte[] key, byte[] sealed, byte[] bound) throws Exception {
        var cipher = javax.crypto.Cipher.getInstance("AES/GCM/NoPadding");
        cipher.init(
                javax.crypto.Cipher.DECRYPT_MODE,
                new javax.crypto.spec.SecretKeySpec(key, "AES"),
                new javax.crypto.spec.GCMParameterSpec(128, sealed, 0, 12));
        cipher.updateAAD(bound);
        return cipher.doFinal(sealed, 12, sealed.length - 12);
    }

    /** SHA-256 of seed and label, computed by a digest program: printf '\0\0\0\0\0\0\0\7there' | sha256sum. */
    @Test
    void aDieIsTheDigestOfSeedAndLabel() {
        String digest = "a0981565bddc912202ec8a4fb152f80c98c6f99aef286e0552391a18ed2cd320";
        long first = HexFormat.fromHexDigitsToLong(digest.substring(0, 16));
        assertEquals((first >>> 11) / 9007199254740992.0, new Dice(7).uniform("there"));
    }

    /**
     * Nine drills as a file keeps them. It changes when priors, rules or the teaching circuit change, and on no account from
     * one machine to the next. Written anew by running this test with {@code -Dloomcase.regenerate=true}.
     */
    @Test
    void theSameSeedIsTheSameDrillOnEveryMachine() throws IOException {
        StringBuilder all = new StringBuilder();
        for (Difficulty d : Difficulty.values())
            for (long seed = 1; seed <= 3; seed++) {
                Planter.Made m = new Planter(Shops.TEACHING).draw(d, seed);
                all.append(d.word())
                        .append(' ')
                        .append(DrillJson.sealed(m.truth()))
                        .append(' ')
                        .append(m.first().codes())
                        .append('\n');
            }
        if (Boolean.getBoolean("loomcase.regenerate")) Files.writeString(SEEDS, all);
        assertEquals(Files.readString(SEEDS), all.toString());
    }

    @Test
    void theSameSeedIsTheSameDrillOnceMore() {
        var fresh = new loomcase.casework.Casework(loomcase.casework.Shop.BUILT_IN)
                .circuit(Path.of("circuits/teaching.json"));
        assertEquals(
                new Planter(Shops.TEACHING).draw(Difficulty.HARD, 77), new Planter(fresh).draw(Difficulty.HARD, 77));
    }

    @Test
    void aClassSetHasDifferentDrillsOfEqualDifficulty() {
        List<Planter.Made> set = new Planter(Shops.TEACHING).set(Difficulty.MEDIUM, 6, 40);
        List<List<Truth.Fault>> different = new ArrayList<>(
                set.stream().map(m -> m.truth().faults()).distinct().toList());
        assertEquals(6, different.size());
        double first = set.get(0).rating().score();
        for (Planter.Made m : set) assertEquals(first, m.rating().score(), Planter.EQUAL, set.toString());
    }

    @Test
    void whatCannotBePlantedIsSaid() {
        Planter planter = new Planter(Shops.TEACHING);
        Map<String, String> wrong = Map.of(
                "splice.open S9", "circuit teaching has no fault 'splice.open S9'",
                "nothing", "circuit teaching has no fault 'nothing'");
        wrong.forEach((id, start) -> {
            InputProblem p =
                    assertThrows(InputProblem.class, () -> planter.plant(List.of(id), Optional.empty(), false, 1));
            assertTrue(p.getMessage().startsWith(start), p.getMessage());
        });
    }
}
