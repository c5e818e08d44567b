package loomcase.j1939;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.HexFormat;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class TroubleMessageTest {
    private static final Dtc FIRST = dtc(91, 3, 1);
    private static final Dtc SECOND = dtc(92, 4, 2);

    @Test
    void oneCodeFillsAFramePaddedWithOnes() {
        // Source: Laixer/J1939 src/diagnostic.rs test 5 (GPL-3.0, numbers only): malfunction lamp, 639/2, count 0.
        Lamps lamps = new Lamps(Lamp.OFF, Lamp.OFF, Lamp.OFF, Lamp.ON);
        assertArrayEquals(hex("40FF7F020200FFFF"), new TroubleMessage(lamps, List.of(dtc(639, 2, 0))).bytes());
    }

    @Test
    void noCodeIsFourZeroBytes() {
        // Source: nmfta-repo/pretty_j1939 tests/test_dm1.log (Apache-2.0).
        assertArrayEquals(hex("00FF00000000FFFF"), new TroubleMessage(Lamps.OFF, List.of()).bytes());
    }

    @Test
    void bothFormsOfNoCodeAreReadAsNone() {
        assertEquals(List.of(), read("00FF00000000FFFF").codes());
        assertEquals(List.of(), read("00FFFFFFFFFFFFFF").codes());
        assertEquals(List.of(), read("00FF000000000000").codes());
    }

    @Test
    void bytesPastTheLastFullCodeAreLeftOut() {
        assertEquals(List.of(FIRST), read("00FF5B000301FFFF").codes());
        assertEquals(List.of(FIRST, SECOND), read("00FF5B0003015C000402FFFFFF").codes());
    }

    @Test
    void severalCodesTakeExactlyFourBytesEach() {
        byte[] bytes = new TroubleMessage(Lamps.OFF, List.of(FIRST, SECOND)).bytes();
        assertArrayEquals(hex("00FF5B0003015C000402"), bytes);
    }

    @Test
    void aBodyShorterThanOneCodeIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> TroubleMessage.ofBytes(new byte[8], 5));
    }

    private static TroubleMessage read(String digits) {
        byte[] body = hex(digits);
        return TroubleMessage.ofBytes(body, body.length);
    }

    private static byte[] hex(String digits) {
        return HexFormat.of().parseHex(digits);
    }

    private static Dtc dtc(int spn, int fmi, int count) {
        return Dtc.of(new Code(spn, fmi), OptionalInt.of(count), ConversionMethod.VERSION_4);
    }
}
