package loomcase.j1939.log;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import loomcase.j1939.Code;
import loomcase.j1939.ConversionMethod;
import loomcase.j1939.Lamp;
import org.junit.jupiter.api.Test;

class CodesOverTimeTest {
    @Test
    void aCodeInTheLastMessageIsActiveAndOneThatLeftIsStored() {
        CodesRead read = Logs.read(
                Logs.at(1, "18FECA00#40FF5B000301FFFF"),
                Logs.at(2, "18FECA00#40FF6E000304FFFF"),
                Logs.at(3, "18FECA00#40FF6E000305FFFF"));
        assertEquals("110/3x5 ACTIVE, 91/3x1 STORED", Logs.codes(read));
        CodeSeen left = read.sources().get(0).codes().get(1);
        assertEquals(OptionalDouble.of(1), left.firstSeenSeconds());
        assertEquals(OptionalDouble.of(1), left.lastSeenSeconds());
        CodeSeen stayed = read.sources().get(0).codes().get(0);
        assertEquals(OptionalDouble.of(2), stayed.firstSeenSeconds());
        assertEquals(OptionalDouble.of(3), stayed.lastSeenSeconds());
    }

    @Test
    void theNoFaultMessageStoresWhatWasActive() {
        CodesRead read = Logs.read(Logs.at(1, Logs.CODE_91), Logs.at(2, Logs.NO_CODE));
        assertEquals("91/3x1 STORED", Logs.codes(read));
        assertEquals(Lamp.OFF, read.sources().get(0).lamps().orElseThrow().malfunction());
        CodesRead older = Logs.read(Logs.at(1, Logs.CODE_91), Logs.at(2, "18FECA00#00FFFFFFFFFFFFFF"));
        assertEquals("91/3x1 STORED", Logs.codes(older));
    }

    @Test
    void aLogThatJustEndsLeavesTheLastState() {
        CodesRead read = Logs.read(Logs.at(1, Logs.CODE_91), Logs.at(5000, "18FEEE00#8246FFFFFFFFFFFF"));
        assertEquals("91/3x1 ACTIVE", Logs.codes(read));
        assertEquals(OptionalDouble.of(5000), read.lastSeconds());
    }

    @Test
    void comingAndGoingIsCounted() {
        CodesRead read = Logs.read(
                Logs.at(1, Logs.CODE_91),
                Logs.at(2, Logs.CODE_91),
                Logs.at(3, Logs.NO_CODE),
                Logs.at(4, Logs.CODE_91),
                Logs.at(5, Logs.NO_CODE),
                Logs.at(6, Logs.CODE_91));
        assertEquals(3, read.sources().get(0).codes().get(0).appearances());
    }

    @Test
    void theHighestCountIsKeptAndNotAvailableIsNoNumber() {
        CodesRead read = Logs.read(
                Logs.at(1, "18FECA00#40FF5B000309FFFF"),
                Logs.at(2, "18FECA00#40FF5B00037FFFFF"),
                Logs.at(3, "18FECA00#40FF5B000302FFFF"));
        assertEquals("91/3x9 ACTIVE", Logs.codes(read));
        CodesRead never = Logs.read(Logs.at(2, "18FECA00#40FF5B00037FFFFF"));
        assertEquals(OptionalInt.empty(), never.sources().get(0).codes().get(0).count());
    }

    @Test
    void aCodeInBothListsIsActiveAndOneOnlyInDm2IsStored() {
        CodesRead read = Logs.read(
                Logs.at(1, Logs.CODE_91),
                Logs.at(2, "18FECB00#00FF5B000303FFFF"),
                Logs.at(3, "18FECB00#00FF6E000302FFFF"));
        assertEquals("91/3x3 ACTIVE, 110/3x2 STORED", Logs.codes(read));
        assertEquals(0, read.sources().get(0).codes().get(1).appearances());
    }

    @Test
    void lampsAreThoseOfTheLastDm1AndAbsentWithoutOne() {
        CodesRead read = Logs.read(Logs.at(1, Logs.NO_CODE), Logs.at(2, "18FECA00#04C75B000301FFFF"));
        Lamp amber = read.sources().get(0).lamps().orElseThrow().amberWarning();
        assertEquals(new Lamp(Lamp.State.ON, Lamp.Flash.FAST), amber);
        CodesRead stored = Logs.read(Logs.at(2, "18FECB00#04C75B000301FFFF"));
        assertEquals(Optional.empty(), stored.sources().get(0).lamps());
    }

    @Test
    void anOlderLayoutStaysOpenUntilTheSendersMethodIsNamed() {
        String line = "can0 18FECA21#40FF9700038AFFFF\n";
        CodesRead open = Logs.read(line);
        assertEquals("309248/3 or 1208/3 or 151/3x10 ACTIVE", Logs.codes(open));
        assertEquals(1, Logs.warned(open, Warning.Kind.UNKNOWN_LAYOUT));
        ReadOptions options = ReadOptions.NONE.with(0x21, ConversionMethod.VERSION_2);
        CodesRead settled = Logs.read(line.getBytes(StandardCharsets.US_ASCII), options);
        assertEquals("1208/3x10 ACTIVE", Logs.codes(settled));
        assertEquals(0, Logs.warned(settled, Warning.Kind.UNKNOWN_LAYOUT));
    }

    @Test
    void theSameCodeInNewAndKnownOlderLayoutIsOneCode() {
        String lines = "can0 18FECA21#40FF9700038AFFFF\ncan0 18FECA21#40FFB804030BFFFF\n";
        CodesRead read = Logs.read(
                lines.getBytes(StandardCharsets.US_ASCII), ReadOptions.NONE.with(0x21, ConversionMethod.VERSION_2));
        assertEquals(1, read.sources().get(0).codes().size());
        assertEquals(
                Optional.of(new Code(1208, 3)),
                read.sources().get(0).codes().get(0).reading().code());
    }

    @Test
    void engineSpeedAndCoolantAreSeenWithTheirRange() {
        // Source: 0CF00400#207D87481400F087 is 649 rpm in README.md of nmfta-repo/pretty_j1939 (Apache-2.0);
        // E0 15 is 700 rpm in the worked example of a generator-set controller manual (PM077, page 9);
        // raw 130 is 90 degrees Celsius in the documentation of docs.rs/voltage_j1939, decoder.
        CodesRead read = Logs.read(
                Logs.at(1, "0CF00400#FF7D7DE015FFF0FF"),
                Logs.at(2, "0CF00400#207D87481400F087"),
                Logs.at(3, "0CF00400#FFFFFFFFFFFFFFFF"),
                Logs.at(4, "18FEEE00#82FFFFFFFFFFFFFF"),
                Logs.at(5, "18FEEE00#FFFFFFFFFFFFFFFF"));
        Conditions seen = read.conditions().get(0);
        assertEquals(Optional.of(new Conditions.Range(649, 649, 700, 2)), seen.engineRpm());
        assertEquals(Optional.of(new Conditions.Range(90, 90, 90, 1)), seen.coolantCelsius());
        assertEquals(List.of(), read.sources());
        assertTrue(read.warning(Warning.Kind.NO_TROUBLE_MESSAGES).isPresent());
    }
}
