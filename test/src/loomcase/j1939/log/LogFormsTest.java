package loomcase.j1939.log;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalDouble;
import loomcase.j1939.TroubleMessage;
import org.junit.jupiter.api.Test;

/**
 * Every form that can-utils writes. Source of the forms: the format text above {@code parse_canframe} in lib.h,
 * {@code snprintf_canframe} and {@code snprintf_long_canframe} in lib.c, and the printing in candump.c of
 * linux-can/can-utils (GPL-2.0 or BSD-3-Clause; forms only).
 */
class LogFormsTest {
    @Test
    void theLogFileFormIsRead() {
        same("(1436509052.249713) vcan0 18FECA00#40FF5B000301FFFF");
        same("(1436509052.249713123) can0 18FECA00#40FF5B000301FFFF");
        same("(1436509052.249713)   can0 18FECA00#40FF5B000301FFFF R");
        same("(1436509052.249713) can0 18FECA00#40FF5B000301FFFF T");
        same("(1436509052.249713) can0 18feca00#40ff5b000301ffff\r");
        same("(1436509052.249713) can0 18FECA00#40.FF.5B00.0301.FF.FF");
        same("(1436509052.249713) can0 18FECA00#40FF5B000301FFFF_E");
        same("(0.5) 18FECA00#40FF5B000301FFFF");
    }

    @Test
    void theConsoleFormIsRead() {
        same("  can0  18FECA00   [8]  40 FF 5B 00 03 01 FF FF");
        same(" (1436509052.249713)  can0  18FECA00   [8]  40 FF 5B 00 03 01 FF FF");
        same(" (000.005001)  can0  18FECA00   [8]  40 FF 5B 00 03 01 FF FF");
        same(" (2015-07-10 06:17:32.249713)  can0  18FECA00   [8]  40 FF 5B 00 03 01 FF FF");
        same("  can0  18FECA00   [8]  40 FF 5B 00 03 01 FF FF   '@.[.....'");
        same(" (1436509052.249713)  can0  RX - -  18FECA00   [8]  40 FF 5B 00 03 01 FF FF");
        same("  can0  TX B E  18FECA00   [8]  40 FF 5B 00 03 01 FF FF");
        same("  can0  18FECA00   {8}  40 FF 5B 00 03 01 FF FF");
        same("  can0  18FECA00   {F}  40 FF 5B 00 03 01 FF FF");
        same("  can0  18FECA00   [8]  FF`FF`01`03`00`5B`FF`40");
        same(" \u001b[31m (000.000000)  can0  18FECA00   [8]  40 FF 5B 00 03 01 FF FF\u001b[0m");
    }

    @Test
    void aByteOrderMarkAndAMissingLastLineEndDoNoHarm() {
        CodesRead read = Logs.read("\u00EF\u00BB\u00BF(1.0) can0 18FECA00#40FF5B000301FFFF");
        assertEquals("91/3x1 ACTIVE", Logs.codes(read));
        assertEquals(1, read.lines());
        assertEquals(List.of(), read.warnings());
    }

    @Test
    void framesThatAreNotOursAreCountedBySort() {
        CodesRead read = Logs.read(
                "(1.0) can0 123#1122334455667788",
                "  can0       123   [2]  11 22",
                "(1.0) can0 1BDA00F1#0210030000000000",
                "(1.0) can0 123#R",
                "(1.0) can0 18FECA00#R8_9",
                "  can0  18FECA00   [0]  remote request",
                "(1.0) can0 20000080#0000000000000000",
                "  can0  20000004   [8]  00 04 00 00 00 00 00 00   ERRORFRAME",
                "\tcontroller-problem{rx-error-warning}",
                "(1.0) can0 18FECA00##140FF5B000301FFFF",
                "  can0  18FECA00  [12]  40 FF 5B 00 03 01 FF FF 00 00 00 00",
                "(1.0) can0 45123#81:00:12345678#11223344.556677",
                "# a remark",
                "",
                "DROPCOUNT: dropped 7 CAN frames on 'can0' socket (total drops 7)",
                "(1.0) can0 " + Logs.CODE_91);
        assertEquals(new FrameCounts(1, 3, 3, 2, 3), read.frames());
        assertEquals(12, read.frames().total());
        assertEquals(0, Logs.warned(read, Warning.Kind.UNREADABLE_LINE));
        assertEquals(1, Logs.warned(read, Warning.Kind.FRAMES_DROPPED));
        assertEquals(3, Logs.warned(read, Warning.Kind.NOT_J1939));
        assertEquals(3, Logs.warned(read, Warning.Kind.CAN_FD));
    }

    @Test
    void stampsAreSecondsWhateverTheirForm() {
        assertEquals(OptionalDouble.of(1436509052.249713), first("(1436509052.249713)"));
        assertEquals(OptionalDouble.of(5.001), first("(005.001000)"));
        // Source: 1436509052 is 2015-07-10 06:17:32 UTC, by the date command of GNU coreutils.
        assertEquals(OptionalDouble.of(1436509052.249713), first("(2015-07-10 06:17:32.249713)"));
        assertEquals(OptionalDouble.empty(), Logs.read("can0 " + Logs.CODE_91).firstSeconds());
    }

    @Test
    void twoNetworksAreKeptApart() {
        CodesRead read = Logs.read("(1.0) can1 " + Logs.CODE_91, "(1.1) can0 " + Logs.NO_CODE);
        assertEquals(
                List.of("can0", "can1"),
                read.sources().stream().map(SourceCodes::network).toList());
        assertEquals("", Logs.codes(read.sources().get(0)));
        assertEquals("91/3x1 ACTIVE", Logs.codes(read.sources().get(1)));
    }

    @Test
    void theEncoderWritesTheLogFileForm() {
        DmEncoder encoder = new DmEncoder("can0", 0.05);
        assertEquals(
                List.of("(012.500000) can0 18FECA00#00FF5B000301FFFF"),
                encoder.toAll(12.5, TroubleMessage.Kind.DM1, 0, Logs.message(Logs.dtc(91, 3, 1))));
    }

    private static void same(String line) {
        CodesRead read = Logs.read(line);
        assertEquals("91/3x1 ACTIVE", Logs.codes(read), line);
        assertEquals(List.of(), read.warnings(), line);
    }

    private static OptionalDouble first(String stamp) {
        return Logs.read(stamp + " can0 " + Logs.CODE_91).firstSeconds();
    }
}
