package loomcase.j1939;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;

class DtcTest {
    @Test
    void version4BytesGiveTheSpnFmiAndCountOfTheReferenceVectors() {
        // Source: dtc_vectors.csv, basis in each row.
        List<String[]> rows = TestData.rows("dtc_vectors.csv");
        assertEquals(11, rows.size());
        for (String[] row : rows) {
            byte[] b = HexFormat.of().parseHex(row[4]);
            Dtc dtc = Dtc.of(b[0], b[1], b[2], b[3]);
            Code code = new Code(Integer.parseInt(row[0]), Integer.parseInt(row[1]));
            int count = Integer.parseInt(row[3]);
            OptionalInt expected = count == 127 ? OptionalInt.empty() : OptionalInt.of(count);
            assertEquals(Optional.of(code), dtc.reading().code(), row[4]);
            assertEquals(expected, dtc.count(), row[4]);
            assertEquals(dtc, Dtc.of(code, expected, ConversionMethod.VERSION_4), row[4]);
        }
    }

    @Test
    void olderBytesGiveTheSpnOfEachVersionAsPublished() {
        // Source: older_layouts.csv; version 1 is published modulo 32768 there, see README.md beside it.
        List<String[]> rows = TestData.rows("older_layouts.csv");
        assertEquals(14, rows.size());
        for (String[] row : rows) {
            int byte4 = 0x80 | Integer.parseInt(row[5]);
            Dtc dtc = Dtc.of(hex(row[1]), hex(row[2]), hex(row[3]), byte4);
            String what = String.join(" ", row);
            assertEquals(Integer.parseInt(row[4]), dtc.fmi(), what);
            assertEquals(OptionalInt.of(Integer.parseInt(row[5])), dtc.count(), what);
            assertEquals(
                    Integer.parseInt(row[6]),
                    dtc.code(ConversionMethod.VERSION_1).spn() % 32768,
                    what);
            assertEquals(
                    Integer.parseInt(row[7]),
                    dtc.code(ConversionMethod.VERSION_2).spn(),
                    what);
            assertEquals(
                    Integer.parseInt(row[8]),
                    dtc.code(ConversionMethod.VERSION_3).spn(),
                    what);
        }
    }

    @Test
    void theWorkedExampleOfTheStandardIsTheSameCodeInAllFourVersions() {
        // Source: SPN 1208, FMI 3, count 10, see older_layouts.csv; version 4 from dtc_vectors.csv.
        Code code = new Code(1208, 3);
        assertEquals(code, Dtc.of(0x00, 0x97, 0x03, 0x8A).code(ConversionMethod.VERSION_1));
        assertEquals(code, Dtc.of(0x97, 0x00, 0x03, 0x8A).code(ConversionMethod.VERSION_2));
        assertEquals(code, Dtc.of(0xB8, 0x04, 0x03, 0x8A).code(ConversionMethod.VERSION_3));
        assertEquals(code, Dtc.of(0xB8, 0x04, 0x03, 0x0A).code(ConversionMethod.VERSION_4));
    }

    @Test
    void anOlderCodeNamesEveryCandidateAndNoSingleOne() {
        CodeReading reading = Dtc.of(0x00, 0x97, 0x03, 0x8A).reading();
        assertInstanceOf(CodeReading.Ambiguous.class, reading);
        assertEquals(Optional.empty(), reading.code());
        assertEquals(List.of(new Code(1208, 3), new Code(309248, 3), new Code(38656, 3)), reading.codes());
        assertEquals("1208/3 or 309248/3 or 38656/3", reading.toString());
    }

    @Test
    void aKnownOlderMethodSettlesTheCodeAndLeavesNewerOnesAlone() {
        assertEquals(
                Optional.of(new Code(1208, 3)),
                Dtc.of(0x97, 0x00, 0x03, 0x8A)
                        .reading(ConversionMethod.VERSION_2)
                        .code());
        assertEquals(
                Optional.of(new Code(1208, 3)),
                Dtc.of(0xB8, 0x04, 0x03, 0x0A)
                        .reading(ConversionMethod.VERSION_2)
                        .code());
    }

    @Test
    void olderBytesOnWhichAllVersionsAgreeAreCertain() {
        CodeReading reading = Dtc.of(0xFF, 0xFF, 0xE3, 0x81).reading();
        assertEquals(Optional.of(new Code(Code.MAX_SPN, 3)), reading.code());
    }

    @Test
    void zerosAndAllOnesAreNoCode() {
        assertTrue(Dtc.of(0, 0, 0, 0).none());
        assertTrue(Dtc.of(0xFF, 0xFF, 0xFF, 0xFF).none());
        assertFalse(Dtc.of(0x5B, 0, 3, 1).none());
    }

    @Test
    void everyCodeComesBackFromEveryLayout() {
        Random random = new Random(1939);
        for (int i = 0; i < 20_000; i++) {
            Code code = new Code(random.nextInt(Code.MAX_SPN + 1), random.nextInt(Code.MAX_FMI + 1));
            int count = random.nextInt(128);
            OptionalInt given = count == 127 ? OptionalInt.empty() : OptionalInt.of(count);
            for (ConversionMethod method : ConversionMethod.values()) {
                Dtc dtc = Dtc.of(code, given, method);
                assertEquals(code, dtc.code(method));
                assertEquals(given, dtc.count());
                assertEquals(method.older(), dtc.older());
                assertTrue(dtc.reading().codes().contains(code));
            }
        }
    }

    @Test
    void valuesOutsideTheirBitsAreRefusedWithTheAllowedRange() {
        assertEquals("SPN 524288 is outside 0..524287", message(() -> new Code(524288, 0)));
        assertEquals("FMI 32 is outside 0..31", message(() -> new Code(1, 32)));
        assertEquals(
                "occurrence count 127 is outside 0..126",
                message(() -> Dtc.of(new Code(1, 1), OptionalInt.of(127), ConversionMethod.VERSION_4)));
    }

    private static String message(org.junit.jupiter.api.function.Executable act) {
        return assertThrows(IllegalArgumentException.class, act).getMessage();
    }

    private static int hex(String digits) {
        return Integer.parseInt(digits, 16);
    }
}
