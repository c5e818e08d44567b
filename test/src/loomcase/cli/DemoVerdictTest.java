package loomcase.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The demo cases that end in a verdict, as {@code demo-cases/README.md} tells them. */
class DemoVerdictTest {
    @ParameterizedTest
    @CsvSource({
        "chafed-branch, branch-section: replace section hot-side, Full replacement is not justified",
        "oil-in-unit-plug, full-harness: replace the whole harness, Full replacement is justified: a rule requires it",
        "two-sensors, two repairs in one visit: fit a new EGR differential pressure sensor (EDP);, Full replacement is not justified"
    })
    void theVerdictIsTheOneTold(String name, String headline, String harness) {
        String file = "demo-cases/" + name + ".jsonl";
        assertEquals(0, Ran.of("check", file).code());
        Ran ran = Ran.of("verdict", file);
        assertEquals(0, ran.code(), ran.err());
        String text = ran.out().replaceAll("\\s+", " ");
        assertTrue(text.contains("VERDICT " + headline), ran.out());
        assertTrue(text.contains(harness), ran.out());
        assertEquals(ran, Ran.of("verdict", file), "the same again");
    }
}
