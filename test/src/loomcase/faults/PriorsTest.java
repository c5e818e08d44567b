package loomcase.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import loomcase.InputProblem;
import loomcase.model.Device;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The priors file: that it answers every question, and that a bad one is answered with one clear line. */
class PriorsTest {
    private static final String HEAD = "key,per,rate_per_million_hours,low,high,source,confidence,note\n";
    private static final Pattern ASKED = Pattern.compile(
            "\"((?:wire|contact|crimp|splice|fuse|ground|device|control-unit|common|condition|observe)\\.[a-z0-9.-]*[a-z0-9])\"");

    @TempDir
    private Path folder;

    @Test
    void theFileHasEveryKeyThatTheProgramNames() throws IOException {
        Set<String> asked = new TreeSet<>();
        for (String part : new String[] {"faults", "predict", "rank", "plan"})
            try (Stream<Path> files = Files.walk(Path.of("engine/src/loomcase", part))) {
                for (Path file :
                        files.filter(f -> f.toString().endsWith(".java")).toList()) {
                    Matcher m = ASKED.matcher(Files.readString(file));
                    while (m.find()) asked.add(m.group(1));
                }
            }
        assertTrue(asked.size() > 50, "the search found only " + asked);
        asked.remove("device.motor"); // completed below
        for (String load : new String[] {"coil", "injector", "heater", "motor", "probe", "terminator"}) {
            asked.add("device." + load + ".open");
            if (!load.equals("terminator")) asked.add("device." + load + ".short");
        }
        for (var word : loomcase.model.Zone.Vibration.values()) asked.add("factor.zone.vibration." + lower(word));
        for (var word : loomcase.model.Zone.Fluid.values()) asked.add("factor.zone.fluid." + lower(word));
        for (String heat : new String[] {"upto-85", "upto-125", "over-125"})
            asked.add("factor.zone.temperature." + heat);
        asked.removeAll(Priors.builtIn().values().keySet());
        assertEquals(Set.of(), asked);
    }

    @Test
    void everyLoadOfTheReferenceHarnessIsOneThatThePriorsKnow() {
        Set<String> words = new TreeSet<>();
        for (Device d : loomcase.demo.Harness.LARCH.circuit().devices().values())
            if (d.nature() instanceof Device.Load l) words.add(l.word());
        assertEquals(Set.of("coil", "heater", "injector", "motor", "probe", "terminator"), words);
    }

    @Test
    void aShopsFileReplacesOnlyWhatItNames() throws IOException {
        Priors shop = Priors.builtIn().with(file(HEAD + "wire.open,metre,0.5,0.1,1,fleet,high,counted\n"));
        assertEquals(0.5, shop.get("wire.open"));
        assertEquals(Priors.builtIn().get("fuse.open"), shop.get("fuse.open"));
    }

    @Test
    void theRateIsPerMillionHoursOverFiveHundredHours() {
        // 1 − exp(−2e-6 · 3 · 500) = 1 − exp(−0.003) = 0.003 − 0.0000045 + 0.0000000045 − …
        assertEquals(0.0029955045, new Priors(java.util.Map.of("x", 2.0)).probability("x", 3), 1e-11);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "wire.open,metre,many,0,1,s,low,n|FILE: line 2: wire.open: 'many' is not a number",
                "wire.open,metre,-1,0,1,s,low,n|FILE: line 2: wire.open: -1 is not within 0 to 1000000000",
                "wire.open,metre,NaN,0,1,s,low,n|FILE: line 2: wire.open: NaN is not within 0 to 1000000000",
                "wire.open,metre|FILE: line 2: needs the columns of rules/priors.csv",
                "wire.opened,metre,1,0,1,s,low,n|FILE: key 'wire.opened' is not known; see rules/priors.csv for the keys",
                "observe.hit-share.rub-point,share,1,0,1,s,low,n|FILE: line 2: observe.hit-share.rub-point: 1 is not between 0 and 1; a share lies between them",
                "observe.stray-code,share,0,0,1,s,low,n|FILE: line 2: observe.stray-code: 0 is not between 0 and 1; a share lies between them",
                "observe.count-mean-permanent,count,0.5,0,1,s,low,n|FILE: line 2: observe.count-mean-permanent: 0.5 is below 1; a code that was seen was counted at least once",
            })
    void aBadLineIsNamed(String line, String message) throws IOException {
        Path file = file(HEAD + line + "\n");
        InputProblem p = assertThrows(InputProblem.class, () -> Priors.builtIn().with(file));
        assertEquals(message.replace("FILE", file.toString()), p.getMessage());
    }

    @Test
    void aKeyGivenTwiceIsNamed() throws IOException {
        Path file = file(HEAD + "fuse.open,fuse,1,0,1,s,low,n\nfuse.open,fuse,2,0,1,s,low,n\n");
        InputProblem p = assertThrows(InputProblem.class, () -> Priors.builtIn().with(file));
        assertEquals(file + ": line 3: fuse.open is given twice; give it once", p.getMessage());
    }

    @Test
    void otherColumnsAreNamed() throws IOException {
        Path file = file("what,rate\nwire.open,1\n");
        InputProblem p = assertThrows(InputProblem.class, () -> Priors.builtIn().with(file));
        assertEquals(file + ": line 2: needs the columns of rules/priors.csv", p.getMessage());
    }

    @Test
    void anOpenQuoteIsOneLineAndNoStackTrace() throws IOException {
        Path file = file(HEAD + "wire.open,metre,1,0,1,\"s,low,n\n");
        InputProblem p = assertThrows(InputProblem.class, () -> Priors.builtIn().with(file));
        assertTrue(p.getMessage().startsWith(file + ": is not a CSV file: "), p.getMessage());
        assertEquals(1, p.getMessage().lines().count());
    }

    @Test
    void aFileThatIsNotThereOrNotTextIsOneLine() throws IOException {
        Path none = folder.resolve("none.csv");
        InputProblem p = assertThrows(InputProblem.class, () -> Priors.builtIn().with(none));
        assertEquals(none + ": no such file", p.getMessage());
        Path bytes = folder.resolve("bytes.csv");
        Files.write(bytes, (HEAD + "wire.open,metre,1,0,1,\u00e4,low,n\n").getBytes(StandardCharsets.ISO_8859_1));
        InputProblem q = assertThrows(InputProblem.class, () -> Priors.builtIn().with(bytes));
        assertEquals(bytes + ": is not UTF-8 text", q.getMessage());
    }

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("priors.csv"), text);
    }

    private static String lower(Enum<?> word) {
        return word.name().toLowerCase(java.util.Locale.ROOT);
    }
}
