package loomcase.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import loomcase.InputProblem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a technician types for a reading, and what values a case refuses to hold. */
class ShownTest {
    @ParameterizedTest
    @CsvSource({
        "4.98V, 4.98 V, 4.98, 0.01",
        "5.00 V, 5.00 V, 5, 0.01",
        "-120mV, -120 mV, -0.12, 0.001",
        "0.4ohm, 0.4 ohm, 0.4, 0.1",
        "0.4\u2126, 0.4 ohm, 0.4, 0.1",
        "0.4\u03A9, 0.4 ohm, 0.4, 0.1",
        "4.7k, 4.7 kohm, 4700, 100",
        "4.7kOhm, 4.7 kohm, 4700, 100",
        "4.7k\u2126, 4.7 kohm, 4700, 100",
        "1.2M, 1.2 Mohm, 1200000, 100000",
        "12mohm, 12 mohm, 0.012, 0.001",
        "3ohms, 3 ohm, 3, 1"
    })
    void numbersKeepTheirDigits(String typed, String shown, double value, double step) {
        Shown read = Shown.parse(typed);
        assertEquals(shown, read.toString());
        assertEquals(value, read.value().getAsDouble(), 1e-9 * Math.abs(value));
        assertEquals(step, ((Shown.Number) read).step(), 1e-9 * step);
    }

    @ParameterizedTest
    @ValueSource(strings = {"open", "OL", "O.L", "ol", " OPEN "})
    void overRangeHasSeveralSpellings(String typed) {
        assertEquals(new Shown.OverRange(), Shown.parse(typed));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "five|reading 'five' is no number with a unit; write it as 4.98V, 120mV, 0.4ohm, 4.7kohm, 1.2Mohm or open",
                "4,98V|reading '4,98V' is no number with a unit; write it as 4.98V, 120mV, 0.4ohm, 4.7kohm, 1.2Mohm or"
                        + " open",
                "4.98|reading '4.98' has no unit; write it as 4.98V or 4.98ohm",
                "5A|reading '5A': unit 'A' is not known; allowed are mV, V, mohm, ohm, kohm, Mohm, k, M and the sign for"
                        + " ohm; capital and small letters differ",
                "5m|reading '5m': unit 'm' is not known; allowed are mV, V, mohm, ohm, kohm, Mohm, k, M and the sign for"
                        + " ohm; capital and small letters differ"
            })
    void whatIsNoReadingIsRefused(String typed, String message) {
        assertEquals(
                message,
                assertThrows(InputProblem.class, () -> Shown.parse(typed)).getMessage());
    }

    @Test
    void jumpersAreTypedWithColons() {
        assertEquals(new Jumper("C1/1", "C1/2", 0), Jumper.parse("C1/1:C1/2"));
        assertEquals(new Jumper("C1/1", "chassis", 1000), Jumper.parse("C1/1:chassis:1kohm"));
        assertEquals(new Jumper("C1/1", "chassis", 330), Jumper.parse("C1/1:chassis:330"));
        assertEquals(
                "jumper 'C1/1' is not FROM:TO or FROM:TO:OHMS, as in C1/1:C1/2:1kohm",
                assertThrows(InputProblem.class, () -> Jumper.parse("C1/1")).getMessage());
        assertEquals(
                "jumper 'a:b:5V': '5V' is no resistance; write it as 0.2ohm, 1kohm or 10Mohm",
                assertThrows(InputProblem.class, () -> Jumper.parse("a:b:5V")).getMessage());
        assertEquals(
                "jumper 'a:a': a jumper from a to itself does nothing",
                assertThrows(InputProblem.class, () -> Jumper.parse("a:a")).getMessage());
        assertEquals(
                "jumper 'a:b:2Mohm': jumper of 2000000.0 ohm; allowed are 0 to 1000000 ohm",
                assertThrows(InputProblem.class, () -> Jumper.parse("a:b:2Mohm"))
                        .getMessage());
    }

    @Test
    void valuesThatSayNothingAreRefused() {
        illegal(
                "complaint is empty",
                () -> new Fact.Opened(
                        new Fact.CircuitFile("c", "c", Digest.NONE), " ", Optional.empty(), OptionalDouble.empty()));
        illegal(
                "codes can only be watched with the key on",
                () -> new Fact.Watched(Fact.Method.UNPLUG, Samples.KEY_OFF, List.of()));
        illegal(
                "unplug and watch needs a connector that was unplugged",
                () -> new Fact.Watched(Fact.Method.UNPLUG, Samples.KEY_ON, List.of()));
        illegal(
                "jumper and watch needs a jumper",
                () -> new Fact.Watched(Fact.Method.JUMPER, Samples.KEY_ON, List.of()));
        illegal(
                "repaired needs the place where it was done",
                () -> new Fact.Work(Fact.Deed.REPAIRED, Optional.empty(), ""));
        illegal(
                "codes need an operating point",
                () -> new Fact.Codes(List.of(), List.of(), Optional.empty(), Optional.empty()));
        illegal(
                "lead zero of 101 ohm is not within 0 to 100 ohm",
                () -> new Meter("", OptionalDouble.empty(), OptionalDouble.of(101)));
        illegal("note has 4001 letters; allowed are 4000", () -> new Fact.Note("x".repeat(4001)));
        illegal("note holds half a letter that UTF-8 cannot write", () -> new Fact.Note("\uD83D"));
        illegal("year 12000 is not within 1970 to 9999", () -> Entry.Stamp.of(Samples.TIME.withYear(12000), "ada"));
        assertTrue(new Fact.Note("\uD83D\uDE00").text().length() == 2);
    }

    private static void illegal(String message, org.junit.jupiter.api.function.Executable make) {
        assertEquals(message, assertThrows(IllegalArgumentException.class, make).getMessage());
    }
}
